// Command demo paints the pictures that Tonedesk carries: the demo painting and the icon,
// and the stages of the README's example. It writes demo.png, icon.png and example/ into
// the current directory, and is run by go generate in assets.
package main
