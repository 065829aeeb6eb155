package sheet

import (
	"image"

	"app.tonedesk/analysis/colour"
)

// Content is what is laid out on a page. Lists that are empty are left away.
type Content struct {
	Title string
	About string // under the title: when, from where, how large
	Foot  string // what the figures assume

	Picture *image.RGBA // with its notes; opaque, like the others
	Greys   *image.RGBA
	Bands   *image.RGBA

	Histogram *[256]int // nil where nothing is measured
	Shares    []Share
	Figures   string // what the groups say, over the spread, or why there is none

	Families     []FamilyRow
	FamiliesLeft int // how many more there are
	Notes        []NoteRow
}

// FamilyRow is a family: its colours over their greys, and words.
type FamilyRow struct {
	Colours []colour.RGB // light, shadow, then what else there is
	Greys   []uint8
	Title   string
	Text    string
}

// NoteRow is what a note says.
type NoteRow struct {
	Number int         // as it stands on the picture; 0 for none
	Colour *colour.RGB // of a spot
	Grey   uint8       // beside it
	Text   string
}
