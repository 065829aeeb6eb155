package views

import (
	"math"
	"sync"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/internal/fixed"
	"app.tonedesk/analysis/reduce"
)

// The picture's chroma as greys: a neutral is black, and a C*ab of 50 is the grey of L* 50.
// From 100 on, which few colours of a display reach, it is white.
var chromaView = View{Key: "chroma", Name: "Chroma", Paint: paintChroma}

func paintChroma(dst []byte, src *reduce.Picture, _ Look) {
	reduce.Spans(dst, src, chromaGreys(), func(dst []byte, linear []uint16, greys *chromaScale) {
		for len(linear) >= 3 && len(dst) >= analysis.PixelBytes {
			p := fixed.LabOf(linear[:3])
			a, b := 500.0/fixed.LabUnit*float64(p.A), 200.0/fixed.LabUnit*float64(p.B)
			grey := greys[min(int(chromaParts*math.Sqrt(a*a+b*b)), len(greys)-1)]
			dst[0], dst[1], dst[2], dst[3] = grey, grey, grey, 255
			linear, dst = linear[3:], dst[analysis.PixelBytes:]
		}
	})
}

// chromaParts is how finely C*ab is told apart: 1/16.
const chromaParts = 16

// chromaScale holds the grey of each part of C*ab from 0 to 100.
type chromaScale [100*chromaParts + 1]uint8

var chromaGreys = sync.OnceValue(func() *chromaScale {
	scale := new(chromaScale)
	for i := range scale {
		scale[i] = colour.GreyOf(float64(i) / chromaParts)
	}
	return scale
})
