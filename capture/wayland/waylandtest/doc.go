// Package waylandtest is for tests: a real compositor without a screen, and one of a test's own that does
// what it is told.
package waylandtest
