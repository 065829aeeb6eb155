// Command desk is Tonedesk: a window that measures the lightness of a region of the
// screen, and commands that measure files and colours without a display.
//
//	desk [PICTURE]
//	desk read [--json] [--spots x,y;x,y] [--size 1|3|5|11] [--groups 2|3|4] [--ground COLOUR] FILE...
//	desk spot [--json] COLOUR... | -
//	desk compare [--json] [--tolerance T] COLOUR COLOUR | -
//	desk shade [--json] [--light warm|cool] [--shadow-hue H] [--turn T] [--gain G] [--chroma C] [--equal WHAT] [--judge SHADOW] COLOUR... | -
//	desk match [--json] COLOUR COLOUR | -
//	desk palette [--json] [--png FILE] [--css FILE] [--force] [--ground COLOUR] FILE...
//	desk change [--json] BEFORE AFTER
//	desk stills [--json]
//	desk sheet [-o FILE.png|FILE.pdf|FILE.ora|FILE.json] [--page a4|16:9] [--picture] [--force] PICTURE|STILL
//
// It ends with 0 when done, 1 when a file, a screen or a line of a list could not be
// read (the others are still reported), and 2 when it was used wrongly.
package main
