// Package marking is what a painter does to the notes of the still that is open: the tool in
// use, the pen that draws and carries, undoing, the picture that is drawn of the notes, and
// saving them. It keeps no window: it is told places of the still, asks how that lies in the
// picture that is drawn on, and tells what happened (Acts).
package marking
