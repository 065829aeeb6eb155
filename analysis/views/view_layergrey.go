package views

import (
	"app.tonedesk/analysis"
	"app.tonedesk/analysis/internal/fixed"
	"app.tonedesk/analysis/reduce"
)

// What a black layer in the saturation blend mode shows over the picture (W3C Compositing
// and Blending Level 1).
var layerGreyView = View{Key: "layer-grey", Name: "Layer grey", Paint: paintLayerGrey}

// paintLayerGrey starts from the 8-bit colours, as such a layer does: 0.3 R + 0.59 G + 0.11 B
// of them, rounded to nearest.
func paintLayerGrey(dst []byte, src *reduce.Picture, _ Look) {
	reduce.Spans(dst, src, fixed.CodeSteps, func(dst []byte, linear []uint16, _ *fixed.Steps) {
		for len(linear) >= 3 && len(dst) >= analysis.PixelBytes {
			r, g, b := uint32(fixed.CodeOf(linear[0])), uint32(fixed.CodeOf(linear[1])), uint32(fixed.CodeOf(linear[2]))
			grey := uint8((30*r + 59*g + 11*b + 50) / 100)
			dst[0], dst[1], dst[2], dst[3] = grey, grey, grey, 255
			linear, dst = linear[3:], dst[analysis.PixelBytes:]
		}
	})
}
