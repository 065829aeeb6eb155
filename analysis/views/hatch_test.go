package views

import (
	"bytes"
	"math"
	"testing"

	"app.tonedesk/analysis/internal/testkit"
	"app.tonedesk/analysis/reduce"
)

// Lines stand on left-out pixels only, on a few of them, evenly, neutral, and as far from their
// ground as is seen, but not more.
func TestHatchMask(t *testing.T) {
	const width, height = 64, 48
	for ground := range 256 {
		d := &reduce.Picture{Width: width, Height: height, Left: make([]uint8, width*height)}
		for i := range d.Left {
			if i%width >= width/2 {
				d.Left[i] = 1
			}
		}
		dst := bytes.Repeat([]byte{uint8(ground), uint8(ground), uint8(ground), 255}, width*height)
		HatchMask(dst, d)
		lines, linear := 0, testkit.PlainLinear()
		for i := 0; i < len(dst); i += 4 {
			if int(dst[i]) == ground {
				continue
			}
			lines++
			l, under := testkit.PlainLightness(linear, int(dst[i]), int(dst[i+1]), int(dst[i+2])), testkit.PlainLightness(linear, ground, ground, ground)
			if d.Left[i/4] == 0 || dst[i] != dst[i+1] || dst[i] != dst[i+2] || dst[i+3] != 255 || math.Abs(math.Abs(l-under)-hatchApart) > 1 {
				t.Fatalf("on %d, pixel %d: %v", ground, i/4, dst[i:i+4])
			}
		}
		if want := width / 2 * height / 8; lines != want {
			t.Fatalf("on %d: %d pixels of lines, want %d, an eighth", ground, lines, want)
		}
	}
}
