// Package assets carries what the program shows of its own: the demo painting and the
// icon, both painted by the command in demo.
package assets
