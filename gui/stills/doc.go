// Package stills keeps frozen pictures with their notes, safely: whatever happens while it
// writes, nothing that was kept before is lost.
//
// A still is a folder with a name of its own:
//
//	picture.png   the frozen picture, lossless, in sRGB
//	still.json    name, time, source, display, key figures of the reading
//	notes.json    what is marked on it (package notes); not there while there is nothing
//	lock          held by the window that marks it, from the first time on
//
// The folder of all stills also holds trash/ (deleted ones, each under the time of its
// deletion), damaged/ (what could not be read, set aside as it was) and lock (held for a
// moment by a program that changes something). A folder whose name begins with a dot is
// one in the making, or on its way out.
//
// One window at a time marks a still, from Store.Mark to Still.Close or its end; others read
// it, and neither delete it nor save what they have of its notes.
//
// New stills are written beside, made to last (fsync) and then put in their place in one
// step (rename); so are changed files. Folders have mode 0700, files 0600. Nothing here
// opens a network connection.
package stills
