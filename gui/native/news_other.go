//go:build !linux

package native

// News tells whether one of our own windows may lie elsewhere. On this system nothing says so, and
// there may always be.
type News struct{}

// Any reports that there may be news.
func (n *News) Any(uintptr) bool { return true }

// End does nothing.
func (n *News) End() {}
