// Package workspace finds the canvas in what a painting program shows: the one straight
// rectangle in a uniform surround, on one to four sides, also with rulers, scroll bars or a
// border at the rim.
//
// A picture whose own flat ground reaches its frame has no such rectangle: what stands on the
// ground has no four straight sides. What is taken for certain is more: three sides at least are
// surrounded, by a grey that is neither black nor white (workspaces are neutral greys; common
// practice, no source), and the rectangle's sides lie on the pixels' borders, as those of a
// program's canvas do and those of a drawn, scaled rectangle don't. Wrong cropping is worse than
// none.
//
// All limits are our choice, no source. It is pure, as package analysis is.
package workspace
