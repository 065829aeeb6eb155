package views

import (
	"math"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/internal/fixed"
	"app.tonedesk/analysis/reduce"
)

// The picture as eyes with a colour-vision deficiency see it. Source: MACHADO, on linear
// light; its tritan is an approximation.
var (
	protanView = View{Key: "protan", Name: "Protan", Says: "red-weak sight", Knob: &severityKnob, Paint: seenThrough(&colour.ProtanTable)}
	deutanView = View{Key: "deutan", Name: "Deutan", Says: "green-weak sight", Knob: &severityKnob, Paint: seenThrough(&colour.DeutanTable)}
	tritanView = View{Key: "tritan", Name: "Tritan", Says: "blue-weak sight", Knob: &severityKnob, Paint: seenThrough(&colour.TritanTable)}
)

// severityKnob goes from nearly the usual eye, which the view Colour is for, to one without
// one kind of cone.
var severityKnob = Knob{Name: "Severity", From: colour.MachadoStep, To: 1, Step: colour.MachadoStep, Start: 1}

// mixBits is the precision of a channelMix.
const mixBits = 16

// channelMix is a matrix on Picture.Linear, in 1/65536; each row adds up to 1, so that a
// grey stays what it is.
type channelMix [3][3]int64

func seenThrough(table *colour.MachadoTable) func(dst []byte, src *reduce.Picture, look Look) {
	return func(dst []byte, src *reduce.Picture, look Look) {
		mix := reduce.MemoryOf[channelMix](src)
		mix.set(table.At(severityKnob.At(look.Knob)))
		reduce.Spans(dst, src, mix, paintMixed)
	}
}

// set rounds a matrix whose rows add up to 1, as those of MACHADO do within 1e-6.
func (mix *channelMix) set(m [3][3]float64) {
	for i := range m {
		rest := int64(1 << mixBits)
		for j := range m[i] {
			mix[i][j] = int64(math.Round(m[i][j] * (1 << mixBits)))
			rest -= mix[i][j]
		}
		mix[i][i] += rest
	}
}

func paintMixed(dst []byte, linear []uint16, mix *channelMix) {
	const half = 1 << (mixBits - 1)
	for len(linear) >= 3 && len(dst) >= analysis.PixelBytes {
		r, g, b := int64(linear[0]), int64(linear[1]), int64(linear[2])
		for i := range mix {
			row := &mix[i]
			sum := (row[0]*r + row[1]*g + row[2]*b + half) >> mixBits
			dst[i] = fixed.CodeOf(uint16(max(0, min(sum, fixed.LinearWhite))))
		}
		dst[3] = 255
		linear, dst = linear[3:], dst[analysis.PixelBytes:]
	}
}
