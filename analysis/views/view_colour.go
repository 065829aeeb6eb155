package views

import (
	"app.tonedesk/analysis"
	"app.tonedesk/analysis/internal/fixed"
	"app.tonedesk/analysis/reduce"
)

// The picture as it is.
var colourView = View{Key: "colour", Name: "Colour", Paint: PaintColour}

func PaintColour(dst []byte, src *reduce.Picture, _ Look) {
	reduce.Spans(dst, src, fixed.CodeSteps, func(dst []byte, linear []uint16, _ *fixed.Steps) {
		for len(linear) >= 3 && len(dst) >= analysis.PixelBytes {
			dst[0], dst[1], dst[2], dst[3] = fixed.CodeOf(linear[0]), fixed.CodeOf(linear[1]), fixed.CodeOf(linear[2]), 255
			linear, dst = linear[3:], dst[analysis.PixelBytes:]
		}
	})
}
