package views

import (
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/internal/fixed"
	"app.tonedesk/analysis/reduce"
)

// The value scale cut into even bands.
var bandsView = View{Key: "bands", Name: "Bands", Knob: &bandsKnob, Paint: func(dst []byte, src *reduce.Picture, look Look) {
	paintEvenBands(dst, src, int(bandsKnob.At(look.Knob)))
}}

// maxBands is the greatest number of bands: one a step of value.
const maxBands = colour.Steps

var bandsKnob = Knob{Name: "Bands", From: 2, To: maxBands, Step: 1, Start: 5}

// paintEvenBands cuts the values 0 to 10 into 2 to 10 equal steps, and shows each as the
// grey of its middle value. A value on an edge belongs to the lighter band.
func paintEvenBands(dst []byte, src *reduce.Picture, bands int) {
	scale := reduce.MemoryOf[toneScale](src)
	var edges [maxBands - 1]uint32
	for i := range bands {
		scale.greys[i] = colour.GreyOf(colour.Lightness(colour.YOfValue(10 * (float64(i) + 0.5) / float64(bands))))
	}
	for i := range bands - 1 {
		edges[i] = fixed.LightFrom(colour.YOfValue(10 * float64(i+1) / float64(bands)))
	}
	scale.reached.Set(edges[:bands-1])
	paintTones(dst, src, scale)
}
