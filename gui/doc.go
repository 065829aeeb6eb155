// Package gui is the window: the controller, which owns what is watched, and the pages. It
// joins what the rooms below it make, and does little else.
package gui
