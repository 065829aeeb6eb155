package analysis

import (
	"encoding/json"
	"errors"
	"image"
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"app.tonedesk/analysis/colour"
)

func drawColour(t *rapid.T, name string) colour.RGB {
	return colour.RGB{R: rapid.Byte().Draw(t, name+"R"), G: rapid.Byte().Draw(t, name+"G"), B: rapid.Byte().Draw(t, name+"B")}
}

func TestFormulaLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		y := rapid.Float64Range(0, 1).Draw(t, "y")
		if got := colour.LuminanceOf(colour.Lightness(y)); math.Abs(got-y) > 1e-12 {
			t.Fatalf("%g comes back from lightness as %g", y, got)
		}
		if got := colour.YOfValue(colour.ValueOfY(y)); math.Abs(got-y) > 1e-9 {
			t.Fatalf("%g comes back from value as %g", y, got)
		}
		if got := colour.LinearOf(colour.EncodedOf(y)); math.Abs(got-y) > 1e-6 { // the two pieces of SRGB meet within that
			t.Fatalf("%g comes back from its code as %g", y, got)
		}
		more := math.Min(y+rapid.Float64Range(1e-6, 0.5).Draw(t, "more"), 1)
		if more > y && (colour.Lightness(more) <= colour.Lightness(y) || colour.ValueOfY(more) <= colour.ValueOfY(y)) {
			t.Fatalf("%g is no lighter than %g", more, y)
		}
	})
}

func TestGreyOfIsNearest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := rapid.Float64Range(0, 100).Draw(t, "L*")
		got := math.Abs(colour.Lightness(colour.Linear(colour.GreyOf(l))) - l)
		for code := range 256 {
			if d := math.Abs(colour.Lightness(colour.Linear(uint8(code))) - l); d < got-1e-12 {
				t.Fatalf("grey %d is nearer to L* %g than %d", code, l, colour.GreyOf(l))
			}
		}
	})
}

func TestPairLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := SpotOf(drawColour(t, "a")), SpotOf(drawColour(t, "b"))
		ab, ba := Compare(a, b, 2), Compare(b, a, 2)
		if ab.Tones != -ba.Tones || ab.LightnessDifference != -ba.LightnessDifference || ab.Verdict != ba.Verdict ||
			math.Abs(ab.CIEDE2000-ba.CIEDE2000) > 1e-9 || ab.LayerGreyRemark() != ba.LayerGreyRemark() {
			t.Fatalf("%+v and %+v", ab, ba)
		}
		if aa := Compare(a, a, 2); aa.Verdict != Same || aa.CIEDE2000 != 0 || aa.LayerGreyRemark() != NoRemark {
			t.Fatalf("a colour with itself: %+v", aa)
		}
	})
}

// Limits compare the number as printed, limit included (design of the verdict).
func TestVerdictLimits(t *testing.T) {
	tests := []struct {
		difference, tolerance float64
		want                  Verdict
	}{
		{0, 2, Same}, {2, 2, Same}, {-2.04, 2, Same}, {2.06, 2, Close}, {5.04, 2, Close}, {-5.06, 2, Apart},
		{0.5, 0.1, Same}, {0.6, 0.1, Close}, {5, 99, Same}, {5.1, 99, Apart}, {0.6, math.NaN(), Close},
	}
	for _, tt := range tests {
		a, b := Spot{Lightness: 50, Lab: colour.Lab{L: 50}}, Spot{Lightness: 50 + tt.difference, Lab: colour.Lab{L: 50 + tt.difference}}
		if got := Compare(a, b, tt.tolerance).Verdict; got != tt.want {
			t.Errorf("%g at a tolerance of %g: %s, want %s", tt.difference, tt.tolerance, got, tt.want)
		}
	}
}

// Lightness and layer grey of the colours: blend_nonseparable.csv has red as L* 53.24 under
// layer grey 76.5 (L* 32.5); greys 127 and 77 have L* 53.2 and 32.7 (srgb_grey_ramp_256.csv).
func TestLayerGreyRemark(t *testing.T) {
	red := SpotOf(colour.RGB{R: 255, G: 0, B: 0})
	tests := []struct {
		name string
		b    colour.RGB
		want Remark
	}{
		{"equally light, shown two tones apart", colour.RGB{R: 127, G: 127, B: 127}, ShowsDifference},
		{"two tones apart, shown alike", colour.RGB{R: 77, G: 77, B: 77}, HidesDifference},
		{"itself", colour.RGB{R: 255, G: 0, B: 0}, NoRemark},
	}
	for _, tt := range tests {
		if got := Compare(red, SpotOf(tt.b), 2).LayerGreyRemark(); got != tt.want {
			t.Errorf("%s: %v, want %v", tt.name, got, tt.want)
		}
	}
}

func TestReadSpot(t *testing.T) {
	p := Pixels{Pix: make([]byte, 4*12*10), Stride: 4 * 12, Width: 12, Height: 10}
	for y := range 10 {
		for x := range 12 {
			v := byte(255 * ((x + y) % 2))
			copy(p.Pix[4*(y*12+x):], []byte{v, v, v, 255})
		}
	}
	area, err := ReadArea(p, image.Rect(0, 0, 4, 4))
	if err != nil {
		t.Fatal(err)
	}
	// half white, half black is linear 0.5: 116 cbrt(0.5) - 16 (CIE15)
	if want := 116*math.Cbrt(0.5) - 16; math.Abs(area.Lightness-want) > 1e-9 || area.Hue != nil {
		t.Errorf("a checkerboard has L* %g, want %g", area.Lightness, want)
	}
	if !area.OnEdge || math.Abs(area.Spread-50) > 1e-9 || area.Low != 0 || area.High != 100 {
		t.Errorf("its spread is %+v", area)
	}
	corner, err := ReadSpot(p, 0, 0, 3) // clipped to four pixels: two of each
	if err != nil || corner.Pixels != 4 || math.Abs(corner.Lightness-area.Lightness) > 1e-9 || *corner.X != 0 || *corner.Size != 3 {
		t.Errorf("in the corner: %+v, %v", corner, err)
	}
	for _, bad := range []image.Point{{-1, 0}, {12, 0}, {0, 10}} {
		if _, err := ReadSpot(p, bad.X, bad.Y, 1); !errors.Is(err, ErrOutside) {
			t.Errorf("at %v: %v", bad, err)
		}
	}
	if _, err := ReadSpot(p, 0, 0, 4); !errors.Is(err, ErrSize) {
		t.Errorf("of size 4: %v", err)
	}
	p.Pix[3] = 0
	if _, err := ReadSpot(p, 0, 0, 1); !errors.Is(err, ErrOutside) {
		t.Errorf("transparent: %v", err)
	}
	if s, err := ReadSpot(p, 1, 0, 1); err != nil || s.OnEdge || s.Spread != 0 || s.Lightness != 100 || s.Chroma != 0 {
		t.Errorf("one white pixel: %+v, %v", s, err)
	}
}

// The names that scripts rely on; numbers that can't be known are null.
func TestSpotJSON(t *testing.T) {
	names := func(v any) []string {
		data, err := json.Marshal(v)
		if err != nil {
			t.Fatal(err)
		}
		var fields map[string]any
		if err := json.Unmarshal(data, &fields); err != nil {
			t.Fatal(err)
		}
		if hue, ok := fields["hue"]; ok && hue != nil {
			t.Errorf("a grey has hue %v", hue)
		}
		var list []string
		for name := range fields {
			list = append(list, name)
		}
		slices.Sort(list)
		return list
	}
	grey := SpotOf(colour.RGB{R: 128, G: 128, B: 128})
	want := "chroma colour hue layer_grey lightness ok_lightness seen_lightness value"
	if got := strings.Join(names(grey), " "); got != want {
		t.Errorf("a spot has %q, want %q", got, want)
	}
	want = "a b ciede2000 layer_grey_difference lightness_difference tones verdict"
	if got := strings.Join(names(Compare(grey, grey, 2)), " "); got != want {
		t.Errorf("a pair has %q, want %q", got, want)
	}
}

func TestParseColour(t *testing.T) {
	good := map[string]colour.RGB{
		"#e2ab85": {R: 0xe2, G: 0xab, B: 0x85}, "#FFF": {R: 255, G: 255, B: 255}, " #0a3 ": {R: 0, G: 0xaa, B: 0x33},
		"rgb(226 171 133)": {R: 226, G: 171, B: 133}, "rgb(1,2,3)": {R: 1, G: 2, B: 3}, "RGB(0, 0, 255)": {R: 0, G: 0, B: 255},
	}
	for text, want := range good {
		if got, err := colour.Parse(text); err != nil || got != want {
			t.Errorf("%q: %v, %v", text, got, err)
		}
	}
	for _, text := range []string{"", "#", "#12", "#1234", "#12345g", "e2ab85", "rgb(1 2)", "rgb(1 2 256)", "rgb(1 2 -3)", "rgb(1.5 2 3)", "#+12345", "red", "rgb(1 2 3", strings.Repeat("#", 9999)} {
		if c, err := colour.Parse(text); !errors.Is(err, colour.ErrColour) || len(err.Error()) > 300 {
			t.Errorf("%.20q: %v, %v", text, c, err)
		}
	}
}

func FuzzParseColour(f *testing.F) {
	f.Add("#e2ab85")
	f.Add("rgb(1, 2 3)")
	f.Fuzz(func(t *testing.T, text string) {
		c, err := colour.Parse(text)
		if err != nil {
			return
		}
		if again, err := colour.Parse(c.Hex()); err != nil || again != c {
			t.Errorf("%q is %v, printed and read again %v, %v", text, c, again, err)
		}
	})
}

func FuzzLightness(f *testing.F) {
	f.Add(216.0 / 24389)
	f.Fuzz(func(t *testing.T, y float64) {
		v, brighter := colour.Lightness(y), colour.Lightness(y+0.01)
		if !(0 <= v && v <= brighter && brighter <= 100) { // so written that NaN fails too
			t.Errorf("Lightness rises from %g to %g above y = %g", v, brighter, y)
		}
	})
}

func BenchmarkReadSpot11(b *testing.B) { // budget: eight of them are a small part of a frame's reading
	p := noise(1920, 1080, BGRX)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := ReadSpot(p, 900, 500, 11); err != nil {
			b.Fatal(err)
		}
	}
}
