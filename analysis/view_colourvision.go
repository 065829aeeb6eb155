package analysis

import "math"

// The picture as eyes with a colour-vision deficiency see it. Source: MACHADO, on linear
// light; its tritan is an approximation.
var (
	protanView = View{Key: "protan", Name: "Protan", Knob: &severityKnob, Paint: seenThrough(&protanTable)}
	deutanView = View{Key: "deutan", Name: "Deutan", Knob: &severityKnob, Paint: seenThrough(&deutanTable)}
	tritanView = View{Key: "tritan", Name: "Tritan", Knob: &severityKnob, Paint: seenThrough(&tritanTable)}
)

// severityKnob goes from nearly the usual eye, which the view Colour is for, to one without
// one kind of cone.
var severityKnob = Knob{Name: "Severity", From: machadoStep, To: 1, Step: machadoStep, Start: 1}

// mixBits is the precision of a channelMix.
const mixBits = 16

// channelMix is a matrix on Reduced.Linear, in 1/65536; each row adds up to 1, so that a
// grey stays what it is.
type channelMix [3][3]int64

func seenThrough(table *machadoTable) func(dst []byte, src *Reduced, look Look) {
	return func(dst []byte, src *Reduced, look Look) {
		mix := memoryOf[channelMix](src)
		mix.set(table.at(severityKnob.At(look.Knob)))
		paintSpans(dst, src, mix, paintMixed)
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
	for len(linear) >= 3 && len(dst) >= pixelBytes {
		r, g, b := int64(linear[0]), int64(linear[1]), int64(linear[2])
		for i := range mix {
			row := &mix[i]
			sum := (row[0]*r + row[1]*g + row[2]*b + half) >> mixBits
			dst[i] = codeOf(uint16(max(0, min(sum, linearWhite))))
		}
		dst[3] = 255
		linear, dst = linear[3:], dst[pixelBytes:]
	}
}
