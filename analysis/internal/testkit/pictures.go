package testkit

import (
	"image"
	"math"
	"math/rand/v2"
)

// Picture is a picture as bytes, four a pixel: red, green, blue, alpha or, in BGRX, blue,
// green, red and one that means nothing.
type Picture struct {
	Pix                   []byte
	Stride, Width, Height int
	BGRX                  bool
}

func newPicture(width, height int, bgrx bool) Picture {
	return Picture{Pix: make([]byte, 4*width*height), Stride: 4 * width, Width: width, Height: height, BGRX: bgrx}
}

// Set paints a pixel; in BGRX, alpha is the byte that means nothing.
func (p Picture) Set(x, y int, c [3]uint8, alpha uint8) {
	q := p.Pix[y*p.Stride+4*x:][:4]
	q[0], q[1], q[2], q[3] = c[0], c[1], c[2], alpha
	if p.BGRX {
		q[0], q[2] = c[2], c[0]
	}
}

// Painting paints what an illustrator's screen holds: a wide flat ground, soft shading,
// flat shapes with a light and a shadow side and smoothed edges, a grainy patch, thin lines.
func Painting(width, height int, bgrx bool) Picture {
	p := newPicture(width, height, bgrx)
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
			p.Set(x, y, [3]uint8{uint8(c[0]), uint8(c[1]), uint8(c[2])}, 255)
		}
	}
	return p
}

// Noise paints every pixel at random: the worst case, no two neighbours alike.
func Noise(width, height int, bgrx bool) Picture {
	p := newPicture(width, height, bgrx)
	rng := rand.New(rand.NewPCG(3, 4))
	for y := range height {
		for x := range width {
			c := rng.Uint32()
			p.Set(x, y, [3]uint8{uint8(c), uint8(c >> 8), uint8(c >> 16)}, 255)
		}
	}
	return p
}

// Random paints patches and grain of random size, stride, layout and alpha, with
// rubbish between the rows and in the bytes that mean nothing.
func Random(rng *rand.Rand, maxSide int) Picture {
	p := Picture{Width: 1 + rng.IntN(maxSide), Height: 1 + rng.IntN(maxSide), BGRX: rng.IntN(2) == 1}
	p.Stride = 4*p.Width + rng.IntN(9)
	p.Pix = make([]byte, p.Stride*p.Height)
	for i := range p.Pix {
		p.Pix[i] = uint8(rng.Uint32())
	}
	palette := [4][3]uint8{}
	for i := range palette {
		palette[i] = [3]uint8{uint8(rng.Uint32()), uint8(rng.Uint32()), uint8(rng.Uint32())}
	}
	flat := rng.Float64()
	c, alpha := palette[0], uint8(255)
	for y := range p.Height {
		for x := range p.Width {
			if rng.Float64() > flat {
				c, alpha = palette[rng.IntN(4)], uint8(max(0, rng.IntN(340)-85)%256)
			}
			if rng.IntN(9) > 0 {
				p.Set(x, y, c, alpha)
			}
		}
	}
	return p
}

// RandomMask leaves out a few areas, which overlap, repeat and reach outside, and lightness.
func RandomMask(rng *rand.Rand, width, height int) (areas []image.Rectangle, lightness [256]bool) {
	for range rng.IntN(5) {
		x, y := rng.IntN(2*width+10)-width/2-5, rng.IntN(2*height+10)-height/2-5
		areas = append(areas, image.Rect(x, y, x+rng.IntN(width+9), y+rng.IntN(height+9)))
	}
	if len(areas) > 1 {
		areas[0] = image.Rectangle{Min: areas[0].Max, Max: areas[0].Min} // corners swapped
	}
	for range rng.IntN(40) {
		lightness[rng.IntN(256)] = true
	}
	return areas, lightness
}
