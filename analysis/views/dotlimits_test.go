package views

import (
	"bytes"
	"math"
	"testing"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/internal/dots"
	"app.tonedesk/analysis/internal/fixed"
	"app.tonedesk/analysis/reduce"
)

// dotsOn returns which pixels a drawing changes on a flat ground of one colour, to greys that are
// at least so far from it, L*.
func dotsOn(t *testing.T, apart float64, ground colour.RGB, d *reduce.Picture, draw func(dst []byte)) []bool {
	t.Helper()
	dst := bytes.Repeat([]byte{ground.R, ground.G, ground.B, 255}, d.Width*d.Height)
	draw(dst)
	dots, under := make([]bool, d.Width*d.Height), analysis.SpotOf(ground).Lightness
	for i := range dots {
		q := dst[4*i:][:4]
		if dots[i] = q[0] != ground.R || q[1] != ground.G || q[2] != ground.B; !dots[i] {
			continue
		}
		if l := analysis.SpotOf(colour.RGB{R: q[0], G: q[1], B: q[2]}).Lightness; q[0] != q[1] || q[1] != q[2] || q[3] != 255 || math.Abs(l-under) < apart {
			t.Fatalf("on %v, pixel %d: %v", ground, i, q)
		}
	}
	return dots
}

// flatReduced is a reduced picture of one grey.
func flatReduced(width, height int, linear uint16) *reduce.Picture {
	d := &reduce.Picture{Width: width, Height: height, Linear: make([]uint16, 3*width*height), Left: make([]uint8, width*height)}
	for i := range d.Linear {
		d.Linear[i] = linear
	}
	return d
}

// Marks stand beyond the limits only, evenly, on any colour; what is too dark, too light and
// left out is marked by three shapes.
func TestDotLimits(t *testing.T) {
	const width, height = 64, 48
	dark, light, middle := flatReduced(width, height, 0), flatReduced(width, height, fixed.LinearWhite), flatReduced(width, height, fixed.MiddleGrey)
	out := flatReduced(width, height, 0)
	for i := range out.Left {
		out.Left[i] = 1
	}
	for _, ground := range []colour.RGB{{}, {R: 255, G: 255, B: 255}, {R: 119, G: 119, B: 119}, {R: 255, G: 0, B: 0}, {R: 0, G: 0, B: 255}, {R: 255, G: 255, B: 0}, {R: 0, G: 200, B: 90}} {
		drawn := map[string][]bool{}
		for name, d := range map[string]*reduce.Picture{"dark": dark, "light": light, "middle": middle, "both": out} {
			drawn[name] = dotsOn(t, 39, ground, d, func(dst []byte) { DotLimits(dst, d, analysis.DefaultLimits) })
		}
		drawn["out"] = dotsOn(t, hatchApart-1, ground, out, func(dst []byte) { HatchMask(dst, out) })
		for name, want := range map[string]int{ // pixels of a mark, 2 marks in 8 x 8 pixels
			"dark": 3 * width * height / 32, "light": 5 * width * height / 32, "out": 4 * width * height / 32, "middle": 0, "both": 0,
		} {
			got := 0
			for _, dot := range drawn[name] {
				if dot {
					got++
				}
			}
			if got != want {
				t.Errorf("on %v, %s: %d pixels of marks, want %d", ground, name, got, want)
			}
		}
		for _, pair := range [][2]string{{"dark", "light"}, {"dark", "out"}, {"light", "out"}} {
			if sameUpToPlace(drawn[pair[0]], drawn[pair[1]], width) {
				t.Errorf("%s and %s are marked alike", pair[0], pair[1])
			}
		}
	}
}

// sameUpToPlace reports whether two patterns that repeat every 8 pixels are the same, moved.
func sameUpToPlace(a, b []bool, width int) bool {
	for dy := range dots.DotStep {
		for dx := range dots.DotStep {
			same := true
			for i := range dots.DotStep * dots.DotStep {
				x, y := i%dots.DotStep, i/dots.DotStep
				same = same && a[y*width+x] == b[(y+dy)*width+x+dx]
			}
			if same {
				return true
			}
		}
	}
	return false
}

// Only the pixels beyond are marked, in a picture with every grey.
func TestDotLimitsOnRamp(t *testing.T) {
	const height = 8
	ramp := greyRamp()
	ramp.Pix, ramp.Height = bytes.Repeat(ramp.Pix, height), height
	r := reduce.New()
	defer r.Close()
	d := r.Reduce(ramp, 256, height, nil)
	dst := make([]byte, 4*256*height)
	paintGrey(dst, d, Look{})
	before := bytes.Clone(dst)
	DotLimits(dst, d, analysis.Limits{Dark: 30, Light: 60})
	marked := map[bool]int{}
	for i := range 256 * height {
		grey := uint8(i % 256)
		l := analysis.SpotOf(colour.RGB{R: grey, G: grey, B: grey}).Lightness
		if bytes.Equal(dst[4*i:][:4], before[4*i:][:4]) {
			continue
		}
		marked[l > 50]++
		if l > 30.2 && l < 59.8 {
			t.Errorf("grey %d of L* %g is marked", grey, l)
		}
	}
	if marked[false] < 40 || marked[true] < 40 {
		t.Errorf("%d pixels of marks in the dark, %d in the light", marked[false], marked[true])
	}
}
