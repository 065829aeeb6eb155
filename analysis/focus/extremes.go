package focus

import (
	"math"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/internal/fixed"
)

// findExtremes finds the lightest light and the darkest dark.
func (f *Finder) findExtremes(found *Found) {
	p, within := &found.planes, float32(found.options.ExtremeWithin)
	first := true
	var least, most float32
	for i, l := range p.l {
		if p.counts[i] {
			if first {
				least, most, first = l, l, false
			}
			least, most = min(least, l), max(most, l)
		}
	}
	if first || most-least <= within {
		return
	}
	found.Lightest = f.extremeOf(found, func(l float32) bool { return l >= most-within })
	found.Darkest = f.extremeOf(found, func(l float32) bool { return l <= least+within })
}

// extremeOf says where most of what belongs to an extreme lies, and how alone.
func (f *Finder) extremeOf(found *Found, belongs func(l float32) bool) *Extreme {
	p := &found.planes
	in, dense := make([]float32, len(p.l)), make([]float32, len(p.l))
	all := 0
	for i, l := range p.l {
		if p.counts[i] && belongs(l) {
			in[i] = 1
			all++
		}
	}
	f.blur(dense, in, kernelOf(poolWidth(found.radius)))
	at, best := 0, float32(-1)
	for i, d := range dense {
		if d = told(d); in[i] > 0 && d > best {
			at, best = i, d
		}
	}
	return p.extremeAt(at, found.radius, in, all)
}

// told is a share as finely as contrast is told.
func told(v float32) float32 { return float32(int(steps*v+0.5)) / steps }

// extremeAt measures an extreme whose most part lies around a cell.
func (p *planes) extremeAt(at int, radius float64, in []float32, all int) *Extreme {
	var own, around lightSum
	p.around(at, 2*radius, func(j int, apart float64) {
		switch {
		case in[j] == 0:
			around.add(p.light[3*j:][:3])
		case apart <= radius:
			own.add(p.light[3*j:][:3])
		}
	})
	e := &Extreme{Colour: own.code(), Alone: float64(own.cells) / float64(all)}
	e.X, e.Y = p.share(at)
	if around.cells > 0 {
		e.Tones = math.Abs(own.value() - around.value())
	}
	return e
}

// value returns the value of the mean.
func (s *lightSum) value() float64 {
	of := func(c int) float64 { return float64(s.light[c]) / float64(s.cells) / fixed.LinearWhite }
	return colour.ValueOfY(colour.Luminance(of(0), of(1), of(2)))
}
