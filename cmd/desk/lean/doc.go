// Package lean has the toolkit and the system's C library hold less memory. Much of it is
// done by being imported, and it has to run before the toolkit: see DEVELOPERS.md on the module's path.
package lean
