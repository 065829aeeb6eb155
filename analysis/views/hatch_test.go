package views

import (
	"bytes"
	"math"
	"testing"

	"app.tonedesk/analysis/internal/testkit"
	"app.tonedesk/analysis/reduce"
)

// What is left out, and nothing else, is seen through half of a middle grey, which is L* 50; an eighth
// of it are lines, neutral on a neutral ground, and far enough from their ground to be seen.
func TestHatchMask(t *testing.T) {
	const width, height, middle = 61, 48, 119 // sRGB 119 is L* 50.03 (CIE 15:2004, IEC 61966-2-1)
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
		veiled := (ground + middle) / 2
		for i := 0; i < len(dst); i += 4 {
			got, at := int(dst[i]), i/4
			switch {
			case dst[i] != dst[i+1] || dst[i] != dst[i+2] || dst[i+3] != 255:
				t.Fatalf("on %d, pixel %d: %v", ground, at, dst[i:i+4])
			case d.Left[at] == 0:
				if got != ground {
					t.Fatalf("on %d, pixel %d is counted, and %d", ground, at, got)
				}
			case (at%width+at/width)%8 != 0:
				if math.Abs(float64(got-veiled)) > 1 {
					t.Fatalf("on %d, pixel %d: %d, want %d", ground, at, got, veiled)
				}
			default:
				lines++
				l, under := testkit.PlainLightness(linear, got, got, got), testkit.PlainLightness(linear, veiled, veiled, veiled)
				if math.Abs(l-under) < 20 {
					t.Fatalf("on %d, a line of L* %.1f on %.1f", ground, l, under)
				}
			}
		}
		if lines == 0 {
			t.Fatal("there are no lines")
		}
	}
}
