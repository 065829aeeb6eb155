// Package widgets has the parts that the window is made of. Each holds what it shows, writes it
// into canvas objects of its own and places them by geometry that is plain functions. Values
// say what to show, and callbacks report what the painter does; nothing is known of what stands
// behind either. Use all of them on the Fyne goroutine only.
package widgets
