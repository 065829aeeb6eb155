// Package wording has every sentence and number that a person reads, for the window and for
// the commands: plain functions, so that a table can test each of them. It knows no toolkit.
// Errors become one sentence each in errors.go; numbers are written in figures.go.
package wording
