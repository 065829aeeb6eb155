package reduce

import (
	"image"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/analysistest"
	"app.tonedesk/analysis/colour"
)

// Several results of one pass are what each is alone, whatever the picture's size, layout and space, and
// wherever it is transparent.
func TestTogetherIsEachAlone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		side := func(name string, most int) int { return rapid.IntRange(1, most).Draw(t, name) }
		p := analysistest.Noise(side("width", 500), side("height", 300), rapid.SampledFrom([]analysis.Layout{analysis.RGBA, analysis.BGRX}).Draw(t, "layout"))
		p.Space = rapid.SampledFrom([]*colour.Space{nil, colour.DisplayP3}).Draw(t, "space")
		for y := range p.Height {
			if rapid.IntRange(0, 3).Draw(t, "clear") == 0 {
				from := rapid.IntRange(0, p.Width-1).Draw(t, "from")
				clear(p.Row(y)[analysis.PixelBytes*from:])
			}
		}
		var to []To
		for range side("results", 4) {
			out := &analysis.Mask{Areas: []image.Rectangle{image.Rect(0, 0, side("out", 99), side("out", 99))}}
			to = append(to, To{Size: image.Pt(side("across", 600), side("down", 400)), Out: out})
		}
		Together(p, to, func(got []*Picture) {
			r := New()
			defer r.Close()
			for i, g := range got {
				want := r.Reduce(p, to[i].Size.X, to[i].Size.Y, to[i].Out)
				if g.Width != want.Width || g.Height != want.Height || !slices.Equal(g.Linear, want.Linear) || !slices.Equal(g.Left, want.Left) {
					t.Fatalf("%v of %d x %d beside others is not what it is alone", to[i].Size, p.Width, p.Height)
				}
			}
		})
	})
	Together(analysis.Pixels{Width: 9, Height: 9, Stride: 36}, []To{{Size: image.Pt(3, 3)}, {}}, func(got []*Picture) {
		if len(got[0].Linear)+len(got[1].Linear) > 0 {
			t.Error("pixels that lie are a picture")
		}
	})
}
