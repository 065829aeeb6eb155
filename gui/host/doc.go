// Package host is what the owners of a part of the window's state share: the window and its
// mirror, what it says to the painter and which of it is shown, the one door for other
// goroutines, the steps of undo, and what an open page is told.
package host
