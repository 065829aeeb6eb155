// Package portaltest is for tests: a session's bus of a test's own, and a portal on it that does what it is
// told.
package portaltest
