package testkit

// Fataler is a test as Go has it, or one of package rapid's.
type Fataler interface {
	Helper()
	Fatalf(format string, args ...any)
}
