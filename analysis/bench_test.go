package analysis

import (
	"math"
	"math/rand/v2"
	"testing"
)

// painting paints what an illustrator's screen holds: a wide flat ground, soft shading,
// flat shapes with a light and a shadow side and smoothed edges, a grainy patch, thin lines.
func painting(width, height int, layout Layout) Pixels {
	p := Pixels{Pix: make([]byte, pixelBytes*width*height), Stride: pixelBytes * width, Width: width, Height: height, Layout: layout}
	rng := rand.New(rand.NewPCG(1, 2))
	w, h := float64(width), float64(height)
	for y := range height {
		for x := range width {
			u, v := float64(x)/w, float64(y)/h
			c := [3]float64{208, 201, 190} // the ground
			switch {
			case v > 0.85: // a table in soft light
				c = [3]float64{150 - 60*u, 110 - 40*u, 90 - 30*u}
			case u < 0.2: // a grainy wall
				grain := 12 * rng.Float64()
				c = [3]float64{90 + grain, 96 + grain, 120 + grain}
			}
			cover := func(cx, cy, r float64, light, shadow [3]float64) {
				dx, dy := (u-cx)*w/h, v-cy
				edge := (r - math.Hypot(dx, dy)) * h // pixels inside the disc
				if edge < -0.5 {
					return
				}
				side := min(max((dx+dy*0.3)*h/3+0.5, 0), 1)
				part := min(max(edge+0.5, 0), 1)
				for i := range c {
					c[i] += part * (light[i] + side*(shadow[i]-light[i]) - c[i])
				}
			}
			cover(0.5, 0.45, 0.3, [3]float64{226, 171, 133}, [3]float64{178, 106, 92})
			cover(0.5, 0.9, 0.35, [3]float64{120, 140, 160}, [3]float64{70, 80, 110})
			cover(0.8, 0.3, 0.12, [3]float64{240, 220, 120}, [3]float64{200, 120, 80})
			if math.Abs(u-0.3-0.05*math.Sin(9*v))*w < 2 { // a drawn line
				c = [3]float64{60, 35, 40}
			}
			p.set(x, y, RGB{uint8(c[0]), uint8(c[1]), uint8(c[2])}, 255)
		}
	}
	return p
}

// noise paints every pixel at random: the worst case, no two neighbours alike.
func noise(width, height int, layout Layout) Pixels {
	p := Pixels{Pix: make([]byte, pixelBytes*width*height), Stride: pixelBytes * width, Width: width, Height: height, Layout: layout}
	rng := rand.New(rand.NewPCG(3, 4))
	for y := range height {
		for x := range width {
			c := rng.Uint32()
			p.set(x, y, RGB{uint8(c), uint8(c >> 8), uint8(c >> 16)}, 255)
		}
	}
	return p
}

// set paints a pixel; in BGRX, alpha is the byte that means nothing.
func (p Pixels) set(x, y int, c RGB, alpha uint8) {
	q := p.Pix[y*p.Stride+pixelBytes*x:][:pixelBytes]
	q[0], q[1], q[2], q[3] = c.R, c.G, c.B, alpha
	if p.Layout == BGRX {
		q[0], q[2] = c.B, c.R
	}
}

// Budget on two cores, 1920x1080: the plane and histogram of a painting 3 ms, of noise
// 5 ms; the whole Read 1 ms more; 0 allocs/op.
func BenchmarkReadPlanePainting(b *testing.B) { benchmarkPass(b, painting(1920, 1080, BGRX)) }
func BenchmarkReadPlaneNoise(b *testing.B)    { benchmarkPass(b, noise(1920, 1080, BGRX)) }
func BenchmarkReadPainting(b *testing.B)      { benchmarkRead(b, painting(1920, 1080, BGRX)) }
func BenchmarkReadNoise(b *testing.B)         { benchmarkRead(b, noise(1920, 1080, BGRX)) }

func benchmarkPass(b *testing.B, p Pixels) {
	r := NewReader()
	defer r.Close()
	r.pass(p, nil)
	b.ReportAllocs()
	for b.Loop() {
		r.pass(p, nil)
		r.reading.gather(r.tallies, nil)
	}
}

func benchmarkRead(b *testing.B, p Pixels) {
	r := NewReader()
	defer r.Close()
	r.Read(p, Options{})
	b.ReportAllocs()
	for b.Loop() {
		r.Read(p, Options{})
	}
}

// Budget on two cores: 1920x1080 reduced to the mirror's pixels and painted in a view,
// 8 ms together; 0 allocs/op.
func BenchmarkReduce364(b *testing.B) { benchmarkReduce(b, 364, 282) }
func BenchmarkReduce760(b *testing.B) { benchmarkReduce(b, 760, 590) }

func benchmarkReduce(b *testing.B, width, height int) {
	p := painting(1920, 1080, BGRX)
	r := NewReducer()
	defer r.Close()
	r.Reduce(p, width, height, nil)
	b.ReportAllocs()
	for b.Loop() {
		r.Reduce(p, width, height, nil)
	}
}

func BenchmarkReduceAndPaint364(b *testing.B) { benchmarkViews(b, 364, 282) }
func BenchmarkReduceAndPaint760(b *testing.B) { benchmarkViews(b, 760, 590) }

func benchmarkViews(b *testing.B, width, height int) {
	p := painting(1920, 1080, BGRX)
	look := Look{Reading: Read(p, Options{})}
	r := NewReducer()
	defer r.Close()
	dst := make([]byte, pixelBytes*width*height)
	for _, v := range Views() {
		b.Run(v.Key, func(b *testing.B) {
			v.Paint(dst, r.Reduce(p, width, height, nil), look)
			b.ReportAllocs()
			for b.Loop() {
				v.Paint(dst, r.Reduce(p, width, height, nil), look)
			}
		})
	}
}
