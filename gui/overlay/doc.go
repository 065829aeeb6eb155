// Package overlay draws what lies over the mirror's picture: a picture from before, the map of
// what changed with its scale, and the outline of a local colour. Values go in, images of the
// size of the mirror's picture come out, clear where nothing lies. It has no state and knows
// no toolkit.
//
// A place is in pixels of the picture that is watched; a unit is the length that the window's
// sizes are given in, some display pixels long.
package overlay
