package notes

import "app.tonedesk/gui/stills/ink"

// Point is a place on a still, or a distance, in its pixels.
type Point = ink.Point

// shifted returns all of points moved by way, in a slice of their own.
func shifted(points []Point, way Point) []Point {
	to := make([]Point, len(points))
	for i, p := range points {
		to[i] = p.Plus(way)
	}
	return to
}
