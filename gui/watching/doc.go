// Package watching chooses what is watched and opens it: the way to the screen, the list of
// windows, the region on a frozen picture of the desktop. It knows what is watched by
// callbacks, and not the controller.
package watching
