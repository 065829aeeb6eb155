package views

import (
	"sync"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/internal/fixed"
	"app.tonedesk/analysis/reduce"
)

// True lightness: each pixel as the grey of the same L*.
var greyView = View{Key: "grey", Name: "Grey", Paint: paintGrey}

// The greys, and beside them the whole picture made small, as greys too: what survives as a
// thumbnail.
var smallView = View{Key: "small", Name: "Small size", Knob: &smallKnob, Paint: paintGrey, Beside: smallKnob.At}

// smallKnob is the small picture's longer side.
var smallKnob = Knob{Name: "Longer side", Unit: "px", From: 64, To: 256, Step: 16, Start: 128}

func paintGrey(dst []byte, src *reduce.Picture, _ Look) {
	paintTones(dst, src, greyScale())
}

// greyScale holds the light from which on each grey is the nearest in lightness.
var greyScale = sync.OnceValue(func() *toneScale {
	scale := new(toneScale)
	var edges [255]uint32
	for i := range edges {
		edges[i] = fixed.FirstLight(func(y float64) bool { return int(colour.GreyOf(colour.Lightness(y))) > i })
	}
	scale.reached.Set(edges[:])
	for i := range scale.greys {
		scale.greys[i] = uint8(i)
	}
	return scale
})
