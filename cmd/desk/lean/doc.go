// Package lean has the toolkit and the system's C library hold less memory. It is imported
// for that alone, and has to run before the toolkit: see DEVELOPERS.md on the module's path.
package lean
