//go:build !race

package families_test

// raced says that the race detector is on.
const raced = false
