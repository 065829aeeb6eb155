package movement_test

import (
	"bytes"
	"image"
	"image/draw"
	"image/png"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/drawingtest"
	"app.tonedesk/analysis/movement"
	"app.tonedesk/analysis/scenetest"
	"app.tonedesk/assets"
)

// painted is a picture that is moved.
type painted struct {
	name   string
	pixels func() analysis.Pixels
}

// reading reads a picture, in memory of its own.
func (p painted) reading() *analysis.Reading {
	reader := analysis.NewReader()
	defer reader.Close()
	r := *reader.Read(p.pixels(), analysis.Options{})
	r.Grey = bytes.Clone(r.Grey)
	return &r
}

// swatches reports whether a scene is no painting but a chart: a ramp, noise, chequers, flats
// of one tone. Where most of those lie nobody could tell.
func swatches(name string) bool { return strings.HasPrefix(name, "empty") }

// paintings are the painted scenes, the drawings where they are there, and the demo painting.
func paintings(t testing.TB, charts bool) (all []painted) {
	for _, name := range scenetest.Names() {
		if swatches(name) == charts {
			all = append(all, painted{name, func() analysis.Pixels { return scenetest.Named(name).Pixels() }})
		}
	}
	if charts {
		return all
	}
	all = append(all, painted{"demo", func() analysis.Pixels { return demo(t) }})
	drawings, err := drawingtest.Load("../../testdata/drawings", 1)
	if err != nil {
		t.Log("without drawings:", err)
	}
	for _, d := range drawings {
		all = append(all, painted{"drawing " + d.Name, func() analysis.Pixels { return d.Pixels }})
	}
	return all
}

func demo(t testing.TB) analysis.Pixels {
	img, err := png.Decode(bytes.NewReader(assets.DemoPNG))
	if err != nil {
		t.Fatal(err)
	}
	b := img.Bounds()
	rgba := image.NewRGBA(b)
	draw.Draw(rgba, b, img, b.Min, draw.Src)
	return analysis.Pixels{Pix: rgba.Pix, Stride: rgba.Stride, Width: b.Dx(), Height: b.Dy(), Layout: analysis.RGBA}
}

// How a painting program samples a canvas that isn't shown pixel by pixel.
const (
	nearest = iota
	bilinear
	area
)

// show paints a canvas as it is seen in a view: to maps its places to those of the view.
func show(canvas *analysis.Reading, width, height int, to movement.Transform, sampling int) *analysis.Reading {
	r := &analysis.Reading{Width: width, Height: height, Grey: make([]uint8, width*height)}
	from := to.Inverse()
	x0, y0 := from.Apply(0, 0)
	ax, ay := from.Apply(1, 0)
	bx, by := from.Apply(0, 1)
	ax, ay, bx, by = ax-x0, ay-y0, bx-x0, by-y0
	value := func(x, y float64) float64 {
		if !(x >= 0 && y >= 0 && x < float64(canvas.Width) && y < float64(canvas.Height)) {
			return around
		}
		if sampling == nearest {
			return float64(canvas.Grey[int(y)*canvas.Width+int(x)])
		}
		x, y = max(0, min(x-0.5, float64(canvas.Width)-1.001)), max(0, min(y-0.5, float64(canvas.Height)-1.001))
		ix, iy := int(x), int(y)
		fx, fy := x-float64(ix), y-float64(iy)
		i := iy*canvas.Width + ix
		g := canvas.Grey
		top := float64(g[i])*(1-fx) + float64(g[i+1])*fx
		foot := float64(g[i+canvas.Width])*(1-fx) + float64(g[i+canvas.Width+1])*fx
		return top*(1-fy) + foot*fy
	}
	for y := range height {
		for x := range width {
			u, v := float64(x)+0.5, float64(y)+0.5
			var s float64
			if sampling == area {
				for _, d := range [4][2]float64{{-.25, -.25}, {.25, -.25}, {-.25, .25}, {.25, .25}} {
					s += value(x0+ax*(u+d[0])+bx*(v+d[1]), y0+ay*(u+d[0])+by*(v+d[1])) / 4
				}
			} else {
				s = value(x0+ax*u+bx*v, y0+ay*u+by*v)
			}
			r.Grey[y*width+x] = uint8(s + 0.5)
		}
	}
	return r
}

// around is what a painting program shows around the canvas.
const around = 75

// strokes paints strokes over a share of the picture.
func strokes(r *analysis.Reading, rng *rand.Rand, share float64) {
	left := int(share * float64(len(r.Grey)))
	for left > 0 {
		tone := uint8(rng.IntN(256))
		x, y := rng.Float64()*float64(r.Width), rng.Float64()*float64(r.Height)
		turn, bend, radius := rng.Float64()*2*math.Pi, (rng.Float64()-0.5)*0.03, 2+rng.Float64()*18
		for range 10 + rng.IntN(40) {
			x, y, turn = x+radius/2*math.Cos(turn), y+radius/2*math.Sin(turn), turn+bend*radius/2
			for v := int(y - radius); v <= int(y+radius); v++ {
				for u := int(x - radius); u <= int(x+radius); u++ {
					if u >= 0 && v >= 0 && u < r.Width && v < r.Height && math.Hypot(float64(u)-x, float64(v)-y) < radius && r.Grey[v*r.Width+u] != tone {
						r.Grey[v*r.Width+u] = tone
						left--
					}
				}
			}
			if left <= 0 {
				return
			}
		}
	}
}
