package analysis_test

import (
	"fmt"
	"image"
	"math"
	"slices"
	"testing"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/scenetest"
)

// turnedPicture returns a picture whose pixel (x, y) is the one that from says.
func turnedPicture(src *image.RGBA, width, height int, from func(x, y int) (int, int)) analysis.Pixels {
	p := analysis.Pixels{Pix: make([]byte, 4*width*height), Stride: 4 * width, Width: width, Height: height}
	for y := range height {
		for x := range width {
			u, v := from(x, y)
			copy(p.Pix[4*(y*width+x):][:4], src.Pix[src.PixOffset(u, v):][:4])
		}
	}
	return p
}

// The laws of mirroring, turning and scaling: a family is found again, with the same
// verdict, but for what lies within 0.1 tone or 3 degrees of a limit.
func TestFamiliesStayWhenThePictureIsTurned(t *testing.T) {
	for _, name := range scenetest.Names() {
		s := scenetest.Named(name)
		m := s.Image
		w, h := m.Rect.Dx(), m.Rect.Dy()
		own := analysis.FindFamilies(s.Pixels(), nil, analysis.DefaultFamilyRules())
		for _, turned := range []struct {
			how string
			p   analysis.Pixels
		}{
			{"mirrored", turnedPicture(m, w, h, func(x, y int) (int, int) { return w - 1 - x, y })},
			{"upside down", turnedPicture(m, w, h, func(x, y int) (int, int) { return x, h - 1 - y })},
			{"turned by 90 degrees", turnedPicture(m, h, w, func(x, y int) (int, int) { return y, h - 1 - x })},
			{"twice as large", turnedPicture(m, 2*w, 2*h, func(x, y int) (int, int) { return x / 2, y / 2 })},
		} {
			found := analysis.FindFamilies(turned.p, nil, analysis.DefaultFamilyRules())
			if str := unlike(own.List, found.List); str != "" {
				fmt.Printf("%s, %s: %s\n", name, turned.how, str)
			}
		}
	}
}

// unlike says how two lists of families differ in more than what lies at a limit.
func unlike(a, b []analysis.Family) string {
	said := ""
	for _, f := range a {
		g := nearest(f, b)
		switch {
		case g == nil || far(f, *g) > 3:
			said += fmt.Sprintf(" %s/%s is lost;", f.Light.Colour.Hex(), f.Shadow.Colour.Hex())
		case !slices.Equal(f.Verdict, g.Verdict) && !atLimit(f):
			said += fmt.Sprintf(" %v instead of %v;", g.Verdict, f.Verdict)
		}
	}
	if len(b) > len(a) {
		said += fmt.Sprintf(" %d families instead of %d", len(b), len(a))
	}
	return said
}

func nearest(f analysis.Family, list []analysis.Family) (best *analysis.Family) {
	for i := range list {
		if best == nil || far(f, list[i]) < far(f, *best) {
			best = &list[i]
		}
	}
	return best
}

func far(f, g analysis.Family) float64 {
	return max(analysis.CIEDE2000(f.Light.Lab, g.Light.Lab), analysis.CIEDE2000(f.Shadow.Lab, g.Shadow.Lab))
}

// atLimit reports whether a family lies within 0.1 tone or 3 degrees of a limit, or within a
// hundredth of the gain's.
func atLimit(f analysis.Family) bool {
	r := analysis.DefaultFamilyRules()
	near := func(v, limit, by float64) bool { return math.Abs(v-limit) <= by+1e-9 }
	if near(f.Tones, r.LeastTones, 0.15) || near(f.Tones, r.MostTones, 0.15) || near(*f.Overlap, 0.05, 0.1) {
		return true
	}
	if f.HueTurn != nil && near(math.Abs(*f.HueTurn), r.LeastTurn, 3) || f.SaturationGain != nil && near(*f.SaturationGain, r.MostGain, 0.03) {
		return true
	}
	return near(f.Light.Chroma, r.LeastChroma, 1) || near(f.Shadow.Chroma, r.LeastChroma, 1)
}
