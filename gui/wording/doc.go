// Package wording has every sentence and number that a person reads, for the window and for
// the commands: plain functions, so that a table can test each of them. It knows no toolkit,
// and says everything through gui/language, in the reader's language.
// Errors become one sentence each in errors.go; numbers are written in figures.go.
package wording
