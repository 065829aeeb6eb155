// Package remember has what lies on a picture come back with it: spots, what is left out, what was
// said of local colours, borders set by hand, the target. It hands them to the settings, lays them
// on the picture when it is watched again, and takes them away. It knows callbacks, and not the
// controller.
package remember
