// Package overlay draws what lies over the mirror's picture: a picture from before, the map of
// what changed with its scale, the outline of a local colour, and arrows that go the way of the
// light. Values go in, images of the size of the mirror's picture come out, clear where nothing
// lies. It has no state and knows no toolkit.
//
// A place is in pixels of the picture that is watched; a unit is the length that the window's
// sizes are given in, some display pixels long.
package overlay
