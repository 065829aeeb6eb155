// Package series reads stills of one picture as a series, for package growth: which stills belong
// together, what of each is measured, and the same again without reading it anew.
package series
