// Package views paints a reduced picture in one of the ways to look at it: its greys, its
// groups, squinted at, by hue alone. A view is a file and a place in the list of view.go.
package views
