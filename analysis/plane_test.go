package analysis

import (
	"math"
	"testing"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/internal/fixed"
	"app.tonedesk/analysis/internal/testkit"
)

// The plane of every 8-bit colour is at most 0.205 L* off: half a bin (0.196) and no more
// than a hair beside it.
func TestPlaneAllColours(t *testing.T) {
	if testing.Short() {
		t.Skip("2^24 colours")
	}
	linear := testkit.PlainLinear()
	r := NewReader()
	defer r.Close()
	p := Pixels{Pix: make([]byte, 4<<16), Stride: 4 << 8, Width: 256, Height: 256}
	worst, moved := 0.0, 0
	for red := range 256 {
		for i := range 1 << 16 {
			set(p, i&255, i>>8, colour.RGB{R: uint8(red), G: uint8(i >> 8), B: uint8(i)}, 255)
		}
		for i, bin := range r.Read(p, Options{}).Grey {
			l := testkit.PlainLightness(linear, red, i>>8, i&255)
			worst = max(worst, math.Abs(float64(bin)/2.55-l))
			if int(bin) != int(math.Round(2.55*l)) {
				moved++
			}
		}
	}
	t.Logf("worst error %.6f L*; %d colours beside their bin's rounded edge", worst, moved)
	if worst > 0.205 {
		t.Errorf("worst error %g L*, want at most 0.205", worst)
	}
	if worst > 0.5/2.55+1e-6 {
		t.Errorf("worst error %g L*, want half a bin, to the precision of 31 bits of light", worst)
	}
}

// Neutral greys lie in the bins their published lightness rounds to.
func TestPlaneNeutralGreys(t *testing.T) {
	linear := testkit.PlainLinear()
	for i := range 256 {
		want := uint8(math.Round(2.55 * testkit.PlainLightness(linear, i, i, i)))
		if got := fixed.Bins.Of(uint8(i), uint8(i), uint8(i)); got != want {
			t.Errorf("grey %d in bin %d, want %d", i, got, want)
		}
	}
}

// steps counts thresholds as a loop does, at and beside each of them.
func TestStepsCount(t *testing.T) {
	for name, edges := range map[string][]uint32{
		"none":                       nil,
		"white alone":                {fixed.White},
		"the first light":            {1},
		"starts of buckets":          {fixed.BucketSize, 2 * fixed.BucketSize, 7 * fixed.BucketSize},
		"a bucket apart, unaligned":  {5, fixed.BucketSize + 5, 2*fixed.BucketSize + 5},
		"the edges of the histogram": fixed.Bins.Edges[:],
	} {
		s := new(fixed.Steps)
		s.Set(edges)
		for _, e := range append([]uint32{0, fixed.White / 2, fixed.White}, edges...) {
			for _, light := range []uint32{e - 1, e, e + 1} {
				want := uint8(0)
				for _, e := range edges {
					if e <= light {
						want++
					}
				}
				if got := s.Of(light); light <= fixed.White && got != want {
					t.Errorf("%s: %d at %d, want %d", name, got, light, want)
				}
			}
		}
	}
}
