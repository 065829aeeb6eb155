// Package comparing compares what is watched with a still from before: what changed, in
// words, and both pictures in the mirror.
package comparing
