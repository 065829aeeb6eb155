package focus_test

import (
	"math"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/focus"
	_ "app.tonedesk/analysis/lawtest"
)

// scene is a picture by formula: the L*a*b* of a place, in shares of the width both ways.
type scene func(x, y float64) colour.Lab

func grey(l float64) colour.Lab { return colour.Lab{L: l} }

// code returns the nearest code of a colour, as far as the display has it.
func code(lab colour.Lab) colour.RGB {
	r, g, b := lab.Light()
	of := func(v float64) uint8 { return uint8(math.Round(255 * colour.EncodedOf(max(0, min(v, 1))))) }
	return colour.RGB{R: of(r), G: of(g), B: of(b)}
}

// pixels paints a scene, softened within a pixel in linear light.
func (s scene) pixels(width, height int) analysis.Pixels {
	const fine = 2
	last, light := colour.Lab{L: -1}, [3]float64{} // most samples are as the one before
	p := analysis.Pixels{Pix: make([]byte, 4*width*height), Stride: 4 * width, Width: width, Height: height}
	for y := range height {
		for x := range width {
			var sum [3]float64
			for k := range fine * fine {
				at := func(i, n int) float64 { return (float64(i) + (float64(n)+0.5)/fine) / float64(width) }
				if is := s(at(x, k%fine), at(y, k/fine)); is != last {
					last = is
					light[0], light[1], light[2] = is.Light()
				}
				for c, v := range light {
					sum[c] += v
				}
			}
			for c := range sum {
				p.Pix[y*p.Stride+4*x+c] = uint8(math.Round(255 * colour.EncodedOf(max(0, min(sum[c]/(fine*fine), 1)))))
			}
			p.Pix[y*p.Stride+4*x+3] = 255
		}
	}
	return p
}

// spot is a disc in a picture.
type spot struct {
	x, y, radius float64
	of           colour.Lab
}

// spots are painted on a ground, later ones over those before.
func spots(ground colour.Lab, list ...spot) scene {
	return func(x, y float64) colour.Lab {
		is := ground
		for _, s := range list {
			if math.Hypot(x-s.x, y-s.y) < s.radius {
				is = s.of
			}
		}
		return is
	}
}

func find(p analysis.Pixels) *focus.Found { return focus.Find(p, nil, focus.DefaultOptions()) }

// mapped returns a picture of other pixels of p.
func mapped(p analysis.Pixels, w, h int, from func(x, y int) (int, int)) analysis.Pixels {
	to := analysis.Pixels{Pix: make([]byte, 4*w*h), Stride: 4 * w, Width: w, Height: h, Layout: p.Layout, Space: p.Space}
	for y := range h {
		for x := range w {
			u, v := from(x, y)
			copy(to.Pix[y*to.Stride+4*x:][:4], p.Pix[v*p.Stride+4*u:][:4])
		}
	}
	return to
}

// distance is how far a place lies from a point, both in shares of the width of a picture of 4 to 3.
func distance(p focus.Place, x, y float64) float64 { return math.Hypot(p.X-x, 0.75*p.Y-y) }
