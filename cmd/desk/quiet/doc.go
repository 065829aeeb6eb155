// Package quiet keeps messages for programmers out of a painter's terminal: what goes to
// the standard logger, ours and the libraries', is kept in a file instead. Libraries print
// as early as in their package initialisation; the one message of that kind that nobody
// needs at all, about a locale that the toolkit doesn't know, is dropped.
//
// It imports next to nothing and its path sorts before its importers' other
// dependencies, so that its init runs before theirs: Go initialises ready packages in
// the order of their import paths. The test of the built program's standard error
// proves it.
package quiet
