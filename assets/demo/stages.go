package main

import (
	"image"
	"image/color"
	"path/filepath"
)

// A stage is the painting on its way from flat colours to shading, for the worked example
// of the README: the same lights each time, other shadows.
type stage struct {
	name   string // of its file
	shadow func(f family) color.NRGBA
}

// stages lists them in the order of the example.
var stages = []stage{
	{"1-flats", func(f family) color.NRGBA { return mix(f.light) }},
	{"2-too-dark", func(f family) color.NRGBA { return darken(f.light, f.light.value-tooFar) }},
	{"3-two-tones", func(f family) color.NRGBA { return darken(f.light, f.light.value-justRight) }},
	{"4-rich", func(f family) color.NRGBA { return proposed[f.light] }},
}

// path is where the stage is written, below assets.
func (st stage) path() string { return filepath.Join("example", st.name+".png") }

// How many tones the shadows of the stages lie below their lights. Two is the least that
// reads (common practice, no source); four is our choice of a mistake that is plain to see.
const tooFar, justRight = 4, 2

// proposed has the shadow that the page Colours proposes two tones below each light, in cool
// shade: what a painter would copy there.
var proposed = map[paint]color.NRGBA{
	skin.light:  {0xc1, 0x84, 0x7d, 0xff},
	hair.light:  {0x6e, 0x2c, 0x30, 0xff},
	coat.light:  {0x09, 0x62, 0x78, 0xff},
	scarf.light: {0xe6, 0x7d, 0x50, 0xff},
	leaf.light:  {0xab, 0x51, 0x56, 0xff},
}

// scarfLine is the line that the page proposes five tones below the scarf, which has none of
// its own.
var scarfLine = color.NRGBA{0x85, 0x34, 0x19, 0xff}

// paintStage paints one at half the size of the painting, without what is painted last:
// accents, sheen and the light thrown back.
func paintStage(st stage) *image.RGBA {
	of := func(f family) tubes {
		t := squeeze(f)
		t.shadow = st.shadow(f)
		t.accent = t.shadow
		if f.line == (paint{}) {
			t.line = scarfLine
		}
		return t
	}
	s := scene{skin: of(skin), hair: of(hair), coat: of(coat), scarf: of(scarf), leaf: of(leaf)}
	s.sheen, s.bounce = s.hair.light, s.coat.shadow
	return half(s.paint())
}

// half makes m half as large, by the mean of the encoded values of 2 by 2 pixels: what is
// flat keeps its colour.
func half(m *image.RGBA) *image.RGBA {
	out := image.NewRGBA(image.Rect(0, 0, m.Rect.Dx()/2, m.Rect.Dy()/2))
	for i := range out.Pix {
		x, y, primary := i%out.Stride/4, i/out.Stride, i%4
		at := m.PixOffset(2*x, 2*y) + primary
		sum := 2 // rounds
		for _, p := range []int{at, at + 4, at + m.Stride, at + m.Stride + 4} {
			sum += int(m.Pix[p])
		}
		out.Pix[i] = uint8(sum / 4)
	}
	return out
}
