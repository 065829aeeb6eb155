package edges_test

import (
	"bytes"
	"image"
	"image/draw"
	"image/jpeg"
	"math"
	"math/rand/v2"
	"testing"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/edges"
)

// paint is an encoded colour, 0 to 255 a channel, not rounded.
type paint [3]float64

// of returns the paint of a colour in L*a*b*, which the display has.
func of(l, a, b float64) (p paint) {
	red, green, blue := colour.Lab{L: l, A: a, B: b}.Light()
	for c, v := range [3]float64{red, green, blue} {
		if v < -1e-9 || v > 1+1e-9 {
			panic("the display has no such colour")
		}
		p[c] = 255 * colour.EncodedOf(max(0, min(v, 1)))
	}
	return p
}

func (p paint) to(q paint, part float64) paint {
	for c := range p {
		p[c] += part * (q[c] - p[c])
	}
	return p
}

func (p paint) code() colour.RGB {
	code := func(v float64) uint8 { return uint8(math.Round(max(0, min(v, 255)))) }
	return colour.RGB{R: code(p[0]), G: code(p[1]), B: code(p[2])}
}

// scene is a picture by formula: what a place is painted, in shares of the width both ways.
type scene func(x, y float64) paint

// pixels paints a scene, softened within a pixel in the codes, as painting programs do.
func (s scene) pixels(width, height int) analysis.Pixels {
	const fine = 2
	p := analysis.Pixels{Pix: make([]byte, 4*width*height), Stride: 4 * width, Width: width, Height: height}
	for y := range height {
		for x := range width {
			var sum paint
			for k := range fine * fine {
				v := s((float64(x)+(float64(k%fine)+0.5)/fine)/float64(width), (float64(y)+(float64(k/fine)+0.5)/fine)/float64(width))
				for c := range sum {
					sum[c] += v[c] / (fine * fine)
				}
			}
			set(p, x, y, sum.code())
		}
	}
	return p
}

func set(p analysis.Pixels, x, y int, c colour.RGB) {
	copy(p.Pix[y*p.Stride+4*x:], []byte{c.R, c.G, c.B, 255})
}

// grainy lays noise over a picture, of a standard deviation in codes, each channel its own.
func grainy(p analysis.Pixels, deviation float64) analysis.Pixels {
	rng, to := rand.New(rand.NewPCG(5, 6)), p
	to.Pix = bytes.Clone(p.Pix)
	for i := range to.Pix {
		if i%4 != 3 {
			to.Pix[i] = uint8(max(0, min(math.Round(float64(p.Pix[i])+deviation*rng.NormFloat64()), 255)))
		}
	}
	return to
}

// asJPEG sends a picture through JPEG.
func asJPEG(t testing.TB, p analysis.Pixels, quality int) analysis.Pixels {
	t.Helper()
	var file bytes.Buffer
	img := &image.RGBA{Pix: p.Pix, Stride: p.Stride, Rect: p.Bounds()}
	if err := jpeg.Encode(&file, img, &jpeg.Options{Quality: quality}); err != nil {
		t.Fatal(err)
	}
	back, err := jpeg.Decode(&file)
	if err != nil {
		t.Fatal(err)
	}
	rgba := image.NewRGBA(back.Bounds())
	draw.Draw(rgba, rgba.Rect, back, image.Point{}, draw.Src)
	return analysis.Pixels{Pix: rgba.Pix, Stride: rgba.Stride, Width: p.Width, Height: p.Height}
}

func find(p analysis.Pixels) *edges.Found { return edges.Find(p, nil, edges.DefaultOptions()) }

// total is how long all edges of a kind are.
func total(f *edges.Found, k edges.Kind) (length float64) {
	for _, e := range f.Of(k) {
		length += e.Length
	}
	return length
}

// Paints of one lightness, L* 60, and others beside them.
var (
	rose, moss, slate = of(60, 30, 10), of(60, -20, 30), of(60, -5, -30)
	roseOff           = of(63, 30, 10) // 0.3 tones lighter
	roseApart         = of(67, 30, 10) // 0.7 tones lighter
	roseDark          = of(45, 30, 10) // 1.5 tones darker
	pale              = of(60, 3, 5)
	pink              = of(60, 8, 7) // hardly another colour than pale
)

// left and right are two areas that meet upright in the middle.
func leftRight(a, b paint) scene {
	return func(x, _ float64) paint {
		if x < 0.5 {
			return a
		}
		return b
	}
}

// disc is a disc of a quarter of the width in radius.
func disc(a, b paint) scene {
	return func(x, y float64) paint {
		if math.Hypot(x-0.5, y-0.35) < 0.25 {
			return a
		}
		return b
	}
}

// slanting meet on a line at an angle, through the middle.
func slanting(a, b paint, degrees float64) scene {
	sin, cos := math.Sincos(degrees * math.Pi / 180)
	return func(x, y float64) paint {
		if (x-0.5)*cos+(y-0.35)*sin < 0 {
			return a
		}
		return b
	}
}

// softly blends two areas over a part of the width.
func softly(a, b paint, wide float64) scene {
	return func(x, _ float64) paint {
		t := max(0, min((x-0.5)/wide+0.5, 1))
		return a.to(b, t*t*(3-2*t))
	}
}

// withLine draws an upright line in the middle, so wide.
func withLine(s scene, ink paint, wide float64) scene {
	return func(x, y float64) paint {
		if math.Abs(x-0.5) < wide/2 {
			return ink
		}
		return s(x, y)
	}
}
