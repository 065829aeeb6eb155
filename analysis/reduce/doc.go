// Package reduce makes a picture smaller by the mean of its light, as the mirror and the
// search for local colours need it, and lets work on the result run on all cores.
package reduce
