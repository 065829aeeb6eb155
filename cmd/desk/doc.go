// Command desk is Tonedesk: a window that measures the lightness of a region of the
// screen, and commands that measure files and colours without a display.
//
// desk help lists them all with their options.
//
// It ends with 0 when done, 1 when a file, a screen or a line of a list could not be
// read (the others are still reported), and 2 when it was used wrongly.
package main
