// Package mistake turns a mistake of the program's own, which would end it, into an error: a
// painter's work must not go with it.
package mistake
