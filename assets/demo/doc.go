// Command demo paints the pictures that Tonedesk carries: the demo painting and the
// icon. It writes demo.png and icon.png into the current directory, and is run by
// go generate in assets.
package main
