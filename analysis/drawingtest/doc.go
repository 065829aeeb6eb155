// Package drawingtest has drawings of other people with their true local colours, written down
// by hand, and judges what a finder says about them.
//
// The drawings are those of Debian's package openclipart-svg (public domain), rendered by
// rsvg-convert; testdata/drawings says which, and what is true of them. Both come from outside
// the repository: without them, Load says what to install.
//
// A family is one local colour that is painted as a light side and a shadow side: not a
// pattern, not a drawn line, not two things side by side, not a gleam on a flat colour. Where
// a painter could argue it is marked as not sure: reported, it is true; missed, it is no fault.
package drawingtest
