package analysis

import (
	"math"
	"sync"
)

// The picture's chroma as greys: a neutral is black, and a C*ab of 50 is the grey of L* 50.
// From 100 on, which few colours of a display reach, it is white.
var chromaView = View{Key: "chroma", Name: "Chroma", Paint: paintChroma}

func paintChroma(dst []byte, src *Reduced, _ Look) {
	paintSpans(dst, src, chromaGreys(), func(dst []byte, linear []uint16, greys *chromaScale) {
		for len(linear) >= 3 && len(dst) >= pixelBytes {
			p := labPixelOf(linear[:3])
			a, b := 500.0/labUnit*float64(p.a), 200.0/labUnit*float64(p.b)
			grey := greys[min(int(chromaParts*math.Sqrt(a*a+b*b)), len(greys)-1)]
			dst[0], dst[1], dst[2], dst[3] = grey, grey, grey, 255
			linear, dst = linear[3:], dst[pixelBytes:]
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
		scale[i] = GreyOf(float64(i) / chromaParts)
	}
	return scale
})
