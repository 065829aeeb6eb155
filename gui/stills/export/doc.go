// Package export makes what a still is exported as: the critique sheet's content, the picture
// with its notes, its layers, its figures. It knows no toolkit.
package export
