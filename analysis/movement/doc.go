// Package movement tells whether a picture jumped between two readings: the painter panned,
// zoomed or turned the canvas, or another picture is shown. A brush stroke is no jump.
package movement
