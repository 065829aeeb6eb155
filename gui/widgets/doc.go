// Package widgets has the parts that the window is made of, each its state, its renderer, and
// its geometry as plain functions. They are told what to show by values and tell by callbacks
// what the painter does; they know nothing of what stands behind either. Use all of them on
// the Fyne goroutine only.
package widgets
