// Package console joins the program to the terminal that started it, on Windows: a program with
// a window is not given one there, and one that is given one opens it for the window too. What
// is redirected stays as it is. Elsewhere there is nothing to do.
//
// It imports the standard library alone, and package quiet imports it, so that the streams are in
// place before anybody prints.
package console
