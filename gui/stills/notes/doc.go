// Package notes is what a painter marks on a still: strokes, arrows, rings, boxes, labels,
// spots, and areas painted as light or as shadow. It keeps them, undoes them, writes them
// down and draws them over any picture.
//
// Places count the still's pixels from its top left, y downwards; whole numbers are the
// corners of pixels, so that the middle of the first pixel is (0.5, 0.5). A note never
// changes: what is moved or written on is another note with the same ID.
//
// There is no window in here: the command line draws with the same code.
package notes
