package views

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"testing"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/analysistest"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/internal/fixed"
	"app.tonedesk/analysis/reduce"
)

// exactBlur blurs one channel, rows of width, by the sampled Gaussian to 4 sigma, in float64,
// across and then down, edge pixels repeated outward.
func exactBlur(plane []float64, width int, sigma float64) []float64 {
	kernel, height := gaussKernel(nil, sigma), len(plane)/width
	along := func(in []float64, at func(i, x int) int, count, length int) []float64 {
		out := make([]float64, len(in))
		for i := range count {
			for x := range length {
				sum := kernel[0] * in[at(i, x)]
				for k := 1; k < len(kernel); k++ {
					sum += kernel[k] * (in[at(i, max(0, x-k))] + in[at(i, min(length-1, x+k))])
				}
				out[at(i, x)] = sum
			}
		}
		return out
	}
	across := along(plane, func(y, x int) int { return y*width + x }, height, width)
	return along(across, func(x, y int) int { return y*width + x }, width, height)
}

type blurCase struct {
	Sigma  float64     `json:"sigma"`
	Radius int         `json:"radius"`
	Kernel []float64   `json:"kernel"`
	Linear [][]float64 `json:"linear"`
	Codes  [][]int     `json:"encoded_8bit"`
}

func blurFixture(t *testing.T) (input [][]uint8, cases []blurCase) {
	t.Helper()
	data, err := os.ReadFile("../../testdata/gaussian_blur_linear.json")
	if err != nil {
		t.Fatal(err)
	}
	var file struct {
		Input [][]int    `json:"input"`
		Cases []blurCase `json:"cases"`
	}
	if err := json.Unmarshal(data, &file); err != nil || len(file.Cases) != 3 || len(file.Input) != 9 {
		t.Fatalf("%d cases, %v", len(file.Cases), err)
	}
	for _, row := range file.Input {
		codes := make([]uint8, len(row))
		for x, v := range row {
			codes[x] = uint8(v)
		}
		input = append(input, codes)
	}
	return input, file.Cases
}

// Source: testdata/gaussian_blur_linear.json, with which SciPy 1.10.1, scikit-image 0.19.3
// and OpenCV 4.6.0 agree: kernels and blurred linear light, by the exact blur; 8-bit codes as
// painted.
func TestBlurFixture(t *testing.T) {
	input, cases := blurFixture(t)
	width, height := len(input[0]), len(input)
	p := analysis.Pixels{Pix: make([]byte, 4*width*height), Stride: 4 * width, Width: width, Height: height}
	plane := make([]float64, width*height)
	for y, row := range input {
		for x, v := range row {
			analysistest.Set(p, x, y, colour.RGB{R: v, G: v, B: v}, 255)
			plane[y*width+x] = colour.Linear(v)
		}
	}
	r := reduce.New()
	defer r.Close()
	src, dst := r.Reduce(p, width, height, nil), make([]byte, len(p.Pix))
	for _, tt := range cases {
		kernel := gaussKernel(nil, tt.Sigma)
		if len(kernel) != tt.Radius+1 {
			t.Fatalf("sigma %g: radius %d, want %d", tt.Sigma, len(kernel)-1, tt.Radius)
		}
		for x, weight := range kernel {
			if want := tt.Kernel[tt.Radius+x]; !(math.Abs(weight-want) <= 1e-9) {
				t.Errorf("sigma %g, weight %d: %.12g, want %.12g", tt.Sigma, x, weight, want)
			}
		}
		exact := exactBlur(plane, width, tt.Sigma)
		new(blur).paint(dst, src, tt.Sigma)
		for i, got := range exact {
			if want := tt.Linear[i/width][i%width]; !(math.Abs(got-want) <= 1e-9) {
				t.Errorf("sigma %g, pixel %d: %.12g, want %.12g", tt.Sigma, i, got, want)
			}
			for c := range 3 {
				if want := tt.Codes[i/width][i%width]; int(dst[4*i+c]) != want {
					t.Errorf("sigma %g, pixel %d is painted %d, want %d", tt.Sigma, i, dst[4*i+c], want)
				}
			}
		}
	}
}

// blurScenes are pictures on which a blur may go wrong: painted, at random, one bright pixel
// in the dark, an edge along the frame, and hatching of every width.
func blurScenes(width, height int) map[string]analysis.Pixels {
	scenes := map[string]analysis.Pixels{"painting": analysistest.Painting(width, height, analysis.RGBA), "noise": analysistest.Noise(width, height, analysis.RGBA)}
	draw := func(name string, at func(x, y int) bool) {
		p := analysis.Pixels{Pix: make([]byte, 4*width*height), Stride: 4 * width, Width: width, Height: height}
		for y := range height {
			for x := range width {
				if at(x, y) {
					analysistest.Set(p, x, y, colour.RGB{R: 255, G: 255, B: 255}, 255)
				} else {
					analysistest.Set(p, x, y, colour.RGB{R: 0, G: 0, B: 0}, 255)
				}
			}
		}
		scenes[name] = p
	}
	rng := rand.New(rand.NewPCG(31, 32))
	at := rng.IntN(width)
	draw("a dot", func(x, y int) bool { return x == at && y == height/3 })
	draw("edge along the frame", func(x, y int) bool { return x < 2 || y == height-1 })
	draw("black and white", func(x, y int) bool { return x+y/3 > width/2 })
	for _, period := range []float64{2, 2.2, 2.5, 3, 4.3, 5, 7.1, 11, 17} {
		draw(fmt.Sprintf("hatching of %g", period), func(x, y int) bool {
			return math.Mod(float64(x)+0.3*float64(y), period) < period/2
		})
	}
	return scenes
}

// The fast blur against the exact one, in linear light.
func TestBlurAgainstExact(t *testing.T) {
	r := reduce.New()
	defer r.Close()
	b := new(blur)
	for _, size := range [][2]int{{97, 60}, {60, 97}, {7, 1}, {1, 1}, {2, 150}} {
		width, height := size[0], size[1]
		for name, p := range blurScenes(width, height) {
			src := r.Reduce(p, width, height, nil)
			for _, sigma := range []float64{0, 0.4, 1, 1.8, 2.59, 2.6, 3.3, 5.1, 5.2, 9, 13, 20.7, 40} {
				b.paint(nil, src, sigma)
				tolerance := blurTolerance
				if sigma < leastHalved {
					tolerance = 5.0 / fixed.LinearWhite // whole numbers are rounded, weights and twice the light
				}
				for c := range 3 {
					if worst := b.departure(src, c, sigma); !(worst <= tolerance) {
						t.Errorf("%s, %d x %d, sigma %g: off by %g of white", name, width, height, sigma, worst)
					}
				}
			}
		}
	}
}

// departure returns how far a channel of what was blurred last is from the exact blur.
func (b *blur) departure(src *reduce.Picture, channel int, sigma float64) (worst float64) {
	plane := make([]float64, src.Width*src.Height)
	for i := range plane {
		plane[i] = float64(src.Linear[3*i+channel]) / fixed.LinearWhite
	}
	for i, want := range exactBlur(plane, src.Width, sigma) {
		got := float64(b.from.triples[i].channel(channel)) / fixed.LinearWhite
		worst = max(worst, math.Abs(got-want))
	}
	return worst
}

// The view squints by a share of the longer side, whichever that is.
func TestSquintView(t *testing.T) {
	for _, size := range [][2]int{{120, 80}, {80, 120}} {
		p := analysistest.Painting(size[0], size[1], analysis.BGRX)
		got, want := paintOf(t, p, "squint", Look{Knob: 2}), make([]byte, 4*size[0]*size[1])
		r := reduce.New()
		new(blur).paint(want, r.Reduce(p, size[0], size[1], nil), 0.02*120)
		r.Close()
		if !bytes.Equal(got, want) {
			t.Errorf("%v: not blurred by 2.4 pixels", size)
		}
		if sharp := paintOf(t, p, "colour", Look{}); bytes.Equal(got, sharp) {
			t.Error("nothing is blurred")
		}
	}
}
