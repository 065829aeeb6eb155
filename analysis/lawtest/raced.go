//go:build race

package lawtest

// raced says that the race detector is on.
const raced = true
