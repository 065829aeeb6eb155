//go:build race

package analysis_test

// raced says that the race detector is on.
const raced = true
