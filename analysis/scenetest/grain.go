package scenetest

import (
	"bytes"
	"image"
	"image/draw"
	"image/jpeg"
	"math"
	"math/rand/v2"
)

// finish is what happens to a picture after it was painted.
type finish struct {
	grain   float64 // standard deviation of noise on the codes, 0 to 255
	colour  bool    // each channel for itself
	clump   float64 // radius of its clumps in pixels; 0 is pixel by pixel
	weave   float64 // canvas: depth of the threads, codes
	blur    float64 // radius of a slight blur, pixels: a picture seen at another size
	quality int     // JPEG; 0 is none
}

// apply returns the finished picture. rng is used for the grain alone.
func (c *canvas) apply(f finish, rng *rand.Rand) *image.RGBA {
	pix := c.pix
	if f.blur > 0 {
		pix = blurred(pix, c.width, c.height, f.blur)
	}
	var noise [3][]float32
	if f.grain > 0 {
		for i := range noise {
			noise[i] = noise[0]
			if i == 0 || f.colour {
				noise[i] = grainOf(c.width, c.height, f.clump, rng)
			}
		}
	}
	img := image.NewRGBA(c.bounds())
	for i, p := range pix {
		threads := 0.0
		if f.weave > 0 {
			threads = f.weave * weaveAt(i%c.width, i/c.width)
		}
		for k := range p {
			v := 255*float64(p[k]) + threads
			if noise[k] != nil {
				v += f.grain * float64(noise[k][i])
			}
			img.Pix[4*i+k] = uint8(math.Round(min(max(v, 0), 255)))
		}
		img.Pix[4*i+3] = 255
	}
	if f.quality > 0 {
		return throughJPEG(img, f.quality)
	}
	return img
}

// throughJPEG writes and reads the picture. Memory doesn't fail; an error is a bug.
func throughJPEG(img *image.RGBA, quality int) *image.RGBA {
	var b bytes.Buffer
	if err := jpeg.Encode(&b, img, &jpeg.Options{Quality: quality}); err != nil {
		panic(err)
	}
	back, err := jpeg.Decode(&b)
	if err != nil {
		panic(err)
	}
	draw.Draw(img, img.Rect, back, image.Point{}, draw.Src)
	return img
}

// grainOf returns noise of standard deviation 1, in clumps of a radius.
func grainOf(width, height int, clump float64, rng *rand.Rand) []float32 {
	out := make([]float32, width*height)
	for i := range out {
		out[i] = float32(rng.NormFloat64())
	}
	if clump > 0 {
		out = blurPlane(out, width, height, clump)
		normalise(out)
	}
	return out
}

// normalise brings values to mean 0 and standard deviation 1.
func normalise(v []float32) {
	var sum, squares float64
	for _, x := range v {
		sum += float64(x)
		squares += float64(x) * float64(x)
	}
	mean := sum / float64(len(v))
	dev := math.Sqrt(max(squares/float64(len(v))-mean*mean, 1e-20))
	for i, x := range v {
		v[i] = float32((float64(x) - mean) / dev)
	}
}

// weaveAt is a plain weave, -1 to 1.
func weaveAt(x, y int) float64 {
	const thread = 4.0 // pixels
	a := math.Sin(float64(x) * 2 * math.Pi / thread)
	b := math.Sin(float64(y) * 2 * math.Pi / thread)
	return 0.5 * (a + b) * (0.7 + 0.3*latticeAt(x/9, y/9, 5))
}

// blurPlane is a Gaussian blur, edges repeated.
func blurPlane(v []float32, width, height int, radius float64) []float32 {
	kernel := gauss(radius)
	half := len(kernel) / 2
	pass := func(in []float32, length, step, lines, lineStep int) []float32 {
		out := make([]float32, len(in))
		for l := range lines {
			for i := range length {
				var sum float32
				for k, g := range kernel {
					at := min(max(i+k-half, 0), length-1)
					sum += g * in[l*lineStep+at*step]
				}
				out[l*lineStep+i*step] = sum
			}
		}
		return out
	}
	return pass(pass(v, width, 1, height, width), height, width, width, 1)
}

func gauss(radius float64) []float32 {
	half := int(math.Ceil(3 * radius))
	kernel := make([]float32, 2*half+1)
	var sum float32
	for i := range kernel {
		d := float64(i-half) / radius
		kernel[i] = float32(math.Exp(-d * d / 2))
		sum += kernel[i]
	}
	for i := range kernel {
		kernel[i] /= sum
	}
	return kernel
}

func blurred(pix []paint, width, height int, radius float64) []paint {
	out := make([]paint, len(pix))
	plane := make([]float32, len(pix))
	for k := range 3 {
		for i, p := range pix {
			plane[i] = p[k]
		}
		for i, v := range blurPlane(plane, width, height, radius) {
			out[i][k] = v
		}
	}
	return out
}

// latticeAt is a fixed random number, -1 to 1, of a place in a lattice.
func latticeAt(x, y, seed int) float64 {
	h := uint64(x)*0x9e3779b97f4a7c15 ^ uint64(y)*0xc2b2ae3d27d4eb4f ^ uint64(seed)*0x165667b19e3779f9
	h ^= h >> 29
	h *= 0xbf58476d1ce4e5b9
	h ^= h >> 32
	return float64(h&0xffffff)/0x7fffff - 1
}

// cloudAt is smooth noise, about -1 to 1, whose largest clouds are scale pixels wide.
func cloudAt(x, y, scale float64, octaves, seed int) float64 {
	sum, weight, all := 0.0, 1.0, 0.0
	for o := range octaves {
		sum += weight * valueNoise(x/scale, y/scale, seed+o)
		all += weight
		weight /= 2
		scale /= 2
	}
	return sum / all
}

func valueNoise(x, y float64, seed int) float64 {
	i, k := math.Floor(x), math.Floor(y)
	u, v := ease(0, 1, x-i), ease(0, 1, y-k)
	a, b := latticeAt(int(i), int(k), seed), latticeAt(int(i)+1, int(k), seed)
	c, d := latticeAt(int(i), int(k)+1, seed), latticeAt(int(i)+1, int(k)+1, seed)
	return (a*(1-u)+b*u)*(1-v) + (c*(1-u)+d*u)*v
}

// strokeAt is a pattern of slanted brush strokes, about -1 to 1, for a form of a size.
func strokeAt(p point, size float64) float64 {
	u, v := (p.x+p.y)*0.7, (p.y-p.x)*0.7
	return valueNoise(u/(size/6), v/(size/40), 77)
}

func mod1(v float64) float64 { return v - math.Floor(v) }
func wave(u float64) float64 { return math.Sin(2 * math.Pi * u) }
