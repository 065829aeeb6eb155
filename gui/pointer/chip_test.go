package pointer

import (
	"testing"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/gui/stills/ink"
)

// The chip is neutral but for the colour it shows, which stands in it beside its grey, and as wide
// whatever the figures are; its letters are as light on its ground as WCAG 2.2, 1.4.3, asks: 4.5 to 1.
func TestChipFace(t *testing.T) {
	shown := colour.RGB{R: 0xe2, G: 0xab, B: 0x85}
	f := face{words: "74.2  value 7.3  −1.2 tones from A", widest: "100.0  value 10.0  −10.0 tones from A", colour: shown, grey: 183, text: 13}
	img := f.paint(&ink.Drawer{})
	if img.Rect.Dy() != 28 || img.Rect.Size() != f.size() {
		t.Errorf("it is %v, want %v, 28 high", img.Rect.Size(), f.size())
	}
	coloured, greys, lightest := 0, 0, colour.RGB{}
	for i := 0; i < len(img.Pix); i += 4 {
		switch c := (colour.RGB{R: img.Pix[i], G: img.Pix[i+1], B: img.Pix[i+2]}); {
		case c == shown:
			coloured++
		case !c.Neutral():
			t.Fatalf("a pixel is %v", c)
		case c.R == 183:
			greys++
		case c.R > lightest.R:
			lightest = c
		}
	}
	if coloured < 400 || greys < 400 {
		t.Errorf("%d pixels of the colour, %d of its grey", coloured, greys)
	}
	light := func(c colour.RGB) float64 { return colour.Linears[c.R] + 0.05 }
	ground := colour.GreyOf(chipGround)
	if ratio := light(lightest) / light(colour.RGB{R: ground}); ratio < 4.5 {
		t.Errorf("the letters have %.1f to 1", ratio)
	}
	f.words = "4.2  value 0.4  +2.0 tones from A"
	if f.size() != img.Rect.Size() {
		t.Errorf("with other figures it is %v, not %v", f.size(), img.Rect.Size())
	}
	f.text = 26
	if got, want := f.size().Y, 56; got != want {
		t.Errorf("at text size 200 %% it is %d high, want %d", got, want)
	}
}
