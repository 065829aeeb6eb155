package views

import (
	"bytes"
	"math"
	"testing"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/analysistest"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/internal/testkit"
	"app.tonedesk/analysis/reduce"
)

// paintOf paints p in a view, at its own size.
func paintOf(t *testing.T, p analysis.Pixels, key string, look Look) []byte {
	t.Helper()
	v, ok := ByKey(key)
	if !ok {
		t.Fatalf("no view %q", key)
	}
	r := reduce.New()
	defer r.Close()
	dst := make([]byte, analysis.PixelBytes*p.Width*p.Height)
	v.Paint(dst, r.Reduce(p, p.Width, p.Height, nil), look)
	return dst
}

func TestViewsInOrder(t *testing.T) {
	all := All()
	if len(all) < 2 || all[0].Key != "colour" || all[1].Key != "grey" {
		t.Fatalf("the views do not begin with colour and grey: %+v", all)
	}
	seen := map[string]bool{}
	for i, v := range all {
		if v.Key == "" || seen[v.Key] || v.Name == "" || len(v.Name) > 14 || v.Paint == nil {
			t.Errorf("view %d is %q (%q)", i, v.Key, v.Name)
		}
		seen[v.Key] = true
	}
	if _, ok := ByKey("no such view"); ok {
		t.Error("a view that is none is found")
	}
}

// greyRamp holds every neutral grey, from black to white.
func greyRamp() analysis.Pixels {
	p := analysis.Pixels{Pix: make([]byte, 4*256), Stride: 4 * 256, Width: 256, Height: 1, Layout: analysis.BGRX}
	for i := range 256 {
		analysistest.Set(p, i, 0, colour.RGB{R: uint8(i), G: uint8(i), B: uint8(i)}, 0)
	}
	return p
}

// inColour are the views that paint colours.
var inColour = map[string]bool{"colour": true, "squint": true, "hue": true, "protan": true, "deutan": true, "tritan": true}

// On neutral greys colour, grey and layer grey are the picture itself; every view that is
// not in colour paints neutral greys only, whatever it is given, and each does where there
// are only greys; all are opaque.
func TestViewsOfGreys(t *testing.T) {
	ramp, random := greyRamp(), analysistest.Noise(50, 40, analysis.RGBA)
	for _, key := range []string{"colour", "grey", "layer-grey"} {
		for i, got := range paintOf(t, ramp, key, Look{}) {
			if want := uint8(i / 4); got != want && i%4 != 3 {
				t.Fatalf("%s paints grey %d as %d", key, want, got)
			}
		}
	}
	for _, v := range All() {
		for _, p := range []analysis.Pixels{ramp, random} {
			got := paintOf(t, p, v.Key, Look{Reading: analysis.Read(p, analysis.Options{})})
			for ; len(got) > 0; got = got[4:] {
				neutral := got[0] == got[1] && got[1] == got[2]
				if got[3] != 255 || !neutral && (!inColour[v.Key] || p.Height == 1) {
					t.Fatalf("%s paints %v", v.Key, got[:4])
				}
			}
		}
	}
}

// Grey is the grey of the colour's own lightness: half a code's lightness away at most,
// which is 0.26 L* (one code is 0.27 to 0.51 L*: testdata/srgb_grey_ramp_256.csv).
func TestGreyView(t *testing.T) {
	linear := testkit.PlainLinear()
	p := analysistest.Noise(80, 80, analysis.RGBA)
	got := paintOf(t, p, "grey", Look{})
	for i := 0; i < len(got); i += 4 {
		want := testkit.PlainLightness(linear, int(p.Pix[i]), int(p.Pix[i+1]), int(p.Pix[i+2]))
		g := int(got[i])
		if d := testkit.PlainLightness(linear, g, g, g) - want; !(math.Abs(d) <= 0.26) {
			t.Fatalf("%v of L* %g is painted %d, %g L* off", p.Pix[i:i+3], want, g, d)
		}
	}
}

// Layer grey is the plain formula of the 8-bit colour, rounded (W3C Compositing and
// Blending Level 1: 0.3 R + 0.59 G + 0.11 B).
func TestLayerGreyView(t *testing.T) {
	p := analysistest.Noise(80, 80, analysis.RGBA)
	got := paintOf(t, p, "layer-grey", Look{})
	for i := 0; i < len(got); i += 4 {
		want := 0.3*float64(p.Pix[i]) + 0.59*float64(p.Pix[i+1]) + 0.11*float64(p.Pix[i+2])
		if d := float64(got[i]) - want; !(math.Abs(d) <= 0.5+1e-9) {
			t.Fatalf("%v is painted %d, want %g", p.Pix[i:i+3], got[i], want)
		}
	}
}

// A band holds the values from its number's part of ten to the next, and shows its middle.
func TestBandsView(t *testing.T) {
	p, linear := analysistest.Noise(60, 60, analysis.RGBA), testkit.PlainLinear()
	for asked, bands := range map[float64]int{-3: 2, 0: 5, 2: 2, 3: 3, 5: 5, 6.6: 7, 9: 9, 10: 10, 99: 10} {
		got := paintOf(t, p, "bands", Look{Knob: asked})
		for i := 0; i < len(got); i += 4 {
			value := colour.Value(testkit.PlainLightness(linear, int(p.Pix[i]), int(p.Pix[i+1]), int(p.Pix[i+2])))
			band := value / 10 * float64(bands)
			if near := math.Abs(band - math.Round(band)); near < 1e-3 {
				continue // as near to an edge as the reduced picture's light is exact
			}
			g := int(got[i])
			shown := colour.Value(testkit.PlainLightness(linear, g, g, g))
			if middle := (math.Floor(band) + 0.5) * 10 / float64(bands); !(math.Abs(shown-middle) < 0.04) { // half an 8-bit grey, in value steps
				t.Fatalf("%d bands: value %g is shown as %g, want %g", bands, value, shown, middle)
			}
		}
	}
	if seen := distinctGreys(paintOf(t, greyRamp(), "bands", Look{Knob: 10})); seen != 10 {
		t.Errorf("a ramp in 10 bands shows %d greys", seen)
	}
}

func distinctGreys(dst []byte) int {
	seen := map[byte]bool{}
	for i := 0; i < len(dst); i += 4 {
		seen[dst[i]] = true
	}
	return len(seen)
}

// Two-tone and three-tone show each pixel as the mean of the group whose bins hold it.
func TestGroupViews(t *testing.T) {
	p := analysistest.Painting(120, 90, analysis.RGBA)
	reading := analysis.Read(p, analysis.Options{})
	for key, k := range map[string]int{"two-tone": 2, "three-tone": 3} {
		got := paintOf(t, p, key, Look{Reading: reading})
		if n := distinctGreys(got); n != k {
			t.Errorf("%s shows %d greys", key, n)
		}
		split := reading.Split(k)
		for i, bin := range reading.Grey {
			group := 0
			for _, threshold := range split.Thresholds() {
				if int(bin) > threshold {
					group++
				}
			}
			if want := colour.GreyOf(split.Groups()[group].Mean); got[4*i] != want {
				t.Fatalf("%s: bin %d is shown as %d, want %d", key, bin, got[4*i], want)
			}
		}
		flat := analysis.Pixels{Pix: bytes.Repeat([]byte{90, 90, 90, 255}, 12), Stride: 16, Width: 4, Height: 3}
		if got := paintOf(t, flat, key, Look{Reading: analysis.Read(flat, analysis.Options{})}); distinctGreys(got) != 1 || math.Abs(float64(got[0])-90) > 1 {
			t.Errorf("%s of a flat picture of grey 90 is %d", key, got[0])
		}
		for _, nothing := range []*analysis.Reading{nil, analysis.Read(analysis.Pixels{}, analysis.Options{})} {
			if got := paintOf(t, p, key, Look{Reading: nothing}); !bytes.Equal(got, paintOf(t, p, "bands", Look{Knob: float64(k)})) {
				t.Errorf("%s without groups is not the even steps of value", key)
			}
		}
	}
}
