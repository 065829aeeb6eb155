package views

import (
	"bytes"
	"math"
	"testing"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/internal/fixed"
	"app.tonedesk/analysis/reduce"
)

// linesOn returns which pixels a drawing changes on a flat ground of one colour, to greys that are
// at least so far from it, L*.
func linesOn(t *testing.T, apart float64, ground colour.RGB, d *reduce.Picture, draw func(dst []byte)) []bool {
	t.Helper()
	dst := bytes.Repeat([]byte{ground.R, ground.G, ground.B, 255}, d.Width*d.Height)
	draw(dst)
	lines, under := make([]bool, d.Width*d.Height), analysis.SpotOf(ground).Lightness
	for i := range lines {
		q := dst[4*i:][:4]
		if lines[i] = q[0] != ground.R || q[1] != ground.G || q[2] != ground.B; !lines[i] {
			continue
		}
		if l := analysis.SpotOf(colour.RGB{R: q[0], G: q[1], B: q[2]}).Lightness; q[0] != q[1] || q[1] != q[2] || q[3] != 255 || math.Abs(l-under) < apart {
			t.Fatalf("on %v, pixel %d: %v", ground, i, q)
		}
	}
	return lines
}

// flatReduced is a reduced picture of one grey.
func flatReduced(width, height int, linear uint16) *reduce.Picture {
	d := &reduce.Picture{Width: width, Height: height, Linear: make([]uint16, 3*width*height), Left: make([]uint8, width*height)}
	for i := range d.Linear {
		d.Linear[i] = linear
	}
	return d
}

// Lines stand beyond the limits only, an eighth of the pixels each, on any colour; what is too dark
// and too light is hatched by two shapes.
func TestHatchLimits(t *testing.T) {
	const width, height = 64, 48
	dark, light, middle := flatReduced(width, height, 0), flatReduced(width, height, fixed.LinearWhite), flatReduced(width, height, fixed.MiddleGrey)
	out := flatReduced(width, height, 0)
	for i := range out.Left {
		out.Left[i] = 1
	}
	for _, ground := range []colour.RGB{{}, {R: 255, G: 255, B: 255}, {R: 119, G: 119, B: 119}, {R: 255, G: 0, B: 0}, {R: 0, G: 0, B: 255}, {R: 255, G: 255, B: 0}, {R: 0, G: 200, B: 90}} {
		lines := map[string][]bool{}
		for name, d := range map[string]*reduce.Picture{"dark": dark, "light": light, "middle": middle, "left out": out} {
			lines[name] = linesOn(t, 44, ground, d, func(dst []byte) { HatchLimits(dst, d, analysis.DefaultLimits) })
		}
		for i := range width * height {
			x, y := i%width, i/width
			rising, falling := (x+y)%8 == 0, (x-y)%8 == 0
			if lines["light"][i] != rising || lines["dark"][i] != falling || lines["middle"][i] || lines["left out"][i] {
				t.Fatalf("on %v, at %d, %d: light %v, dark %v, middle %v, left out %v", ground, x, y, lines["light"][i], lines["dark"][i], lines["middle"][i], lines["left out"][i])
			}
		}
	}
}

// Only the pixels beyond are marked, in a picture with every grey.
func TestHatchLimitsOnRamp(t *testing.T) {
	const height = 8
	ramp := greyRamp()
	ramp.Pix, ramp.Height = bytes.Repeat(ramp.Pix, height), height
	r := reduce.New()
	defer r.Close()
	d := r.Reduce(ramp, 256, height, nil)
	dst := make([]byte, 4*256*height)
	paintGrey(dst, d, Look{})
	before := bytes.Clone(dst)
	HatchLimits(dst, d, analysis.Limits{Dark: 30, Light: 60})
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
	if marked[false] < 8 || marked[true] < 8 {
		t.Errorf("%d pixels of lines in the dark, %d in the light", marked[false], marked[true])
	}
}
