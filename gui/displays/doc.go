// Package displays knows in which colours the watched display shows what it is given: it finds the
// monitor that what is watched lies on, takes what is chosen for that in the settings, reads the profile
// where one is, and hands frames on with their space. A profile that can't be read is refused, and sRGB
// taken in its place. Another space is another picture: who watches is told to open its source anew.
//
// Nothing is asked of the system between two frames, nor while all is sRGB, but once when a source has
// given its first picture: which waits for the answer only where a display shows other colours.
package displays
