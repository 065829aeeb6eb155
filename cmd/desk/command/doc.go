// Package command has what the program does without a window: the commands, which are all in
// the list in commands.go. It knows no toolkit, so that a command starts at once.
package command
