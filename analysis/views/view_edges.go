package views

import (
	"math"
	"sync"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/internal/fixed"
	"app.tonedesk/analysis/internal/pool"
	"app.tonedesk/analysis/reduce"
)

// Where the strongest contrast of lightness sits: how many tones the value changes by across
// a pixel, from the one before it to the one after, in the direction in which it changes most.
// No change is black; the grey's own value is twice the tones: a step of one tone is shown as
// value 2, of five tones and more as white.
var edgesView = View{Key: "edges", Name: "Edges", Wide: true, Paint: paintEdges}

// edgeGain is the shown value per tone across a pixel.
const edgeGain = 2

// valueUnit is a value step in the planes of edges.
const valueUnit = 1 << 10

// valueEdges finds the changes of value, in two passes: the values, then their differences.
type valueEdges struct {
	src    *reduce.Picture
	dst    []byte
	values []int16 // by pixel, in 1/valueUnit
	valued bool    // the first pass is done
}

func paintEdges(dst []byte, src *reduce.Picture, _ Look) {
	e := reduce.MemoryOf[valueEdges](src)
	e.src, e.dst, e.values = src, dst, pool.Resized(e.values, src.Width*src.Height)
	e.valued = false
	src.Do(e, src.Height)
	e.valued = true
	src.Do(e, src.Height)
	e.src, e.dst = nil, nil // the picture isn't ours to keep
}

func (e *valueEdges) Rows(_, from, to int) {
	if !e.valued {
		width := e.src.Width
		valuesOf(e.values[from*width:to*width], e.src.Linear[3*from*width:3*to*width])
		return
	}
	for y := from; y < to; y++ {
		e.row(y)
	}
}

// row paints row y by Sobel's differences, whose weights 1 2 1 are made a mean. Pixels
// beyond the frame repeat those along it.
func (e *valueEdges) row(y int) {
	width, greys := e.src.Width, edgeGreys()
	at := func(y int) []int16 { return e.values[max(0, min(y, e.src.Height-1))*width:][:width] }
	above, here, below := at(y-1), at(y), at(y+1)
	dst := e.dst[analysis.PixelBytes*y*width:][:analysis.PixelBytes*width]
	for x := range here {
		left, right := max(x-1, 0), min(x+1, width-1)
		aboveLeft, aboveRight := int32(above[left]), int32(above[right])
		belowLeft, belowRight := int32(below[left]), int32(below[right])
		across := aboveRight + 2*int32(here[right]) + belowRight - aboveLeft - 2*int32(here[left]) - belowLeft
		down := belowLeft + 2*int32(below[x]) + belowRight - aboveLeft - 2*int32(above[x]) - aboveRight
		tones := math.Sqrt(float64(across)*float64(across)+float64(down)*float64(down)) / (4 * valueUnit)
		grey := greys[min(int(tones*edgeParts), len(greys)-1)]
		q := dst[analysis.PixelBytes*x:][:analysis.PixelBytes]
		q[0], q[1], q[2], q[3] = grey, grey, grey, 255
	}
}

// edgeParts is how finely tones are told apart.
const edgeParts = 256

var edgeGreys = sync.OnceValue(func() *[colour.Steps*edgeParts/edgeGain + 1]uint8 {
	greys := new([colour.Steps*edgeParts/edgeGain + 1]uint8)
	for i := range greys {
		greys[i] = colour.GreyOf(colour.Lightness(colour.YOfValue(edgeGain * float64(i) / edgeParts)))
	}
	return greys
})

// valuesOf fills dst with the values of pixels, within 0.01 tones.
func valuesOf(dst []int16, linear []uint16) {
	curve := valueCurve()
	for i := range dst {
		p := linear[3*i:][:3]
		light := fixed.LightOf(p[0], p[1], p[2])
		piece := &curve[light>>valueShift]
		dst[i] = int16(piece.from + int32(int64(piece.rise)*int64(light&(1<<valueShift-1))>>valueShift))
	}
}

// valueShift leaves 12 bits of a light: valueCurve has 4096 straight pieces and white.
const valueShift = fixed.LightBits - 12

var valueCurve = sync.OnceValue(func() *[1<<12 + 1]struct{ from, rise int32 } {
	curve := new([1<<12 + 1]struct{ from, rise int32 })
	at := func(i int) int32 { return int32(math.Round(valueUnit * colour.ValueOfY(float64(i)/(1<<12)))) }
	for i := range curve {
		curve[i].from, curve[i].rise = at(i), at(i+1)-at(i)
	}
	return curve
})
