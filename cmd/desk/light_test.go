package main

import (
	"encoding/json"
	"image/color"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/scenetest"
	"app.tonedesk/cmd/desk/desktest"
)

// left is how much of the light is left in the shadow of the pictures here, for each channel.
var left = [3]float64{0.22, 0.26, 0.38}

// inShadow is what the light leaves of a colour.
func inShadow(c color.NRGBA) color.NRGBA {
	code := func(v uint8, by float64) uint8 { return colour.Encode(by * colour.Linear(v)) }
	return color.NRGBA{code(c.R, left[0]), code(c.G, left[1]), code(c.B, left[2]), 255}
}

// threeBalls are balls of three colours, lit from the left, on a grey ground; turned has the last
// lit from the right.
func threeBalls(turned bool) func(x, y int) color.NRGBA {
	colours := [3]color.NRGBA{{226, 150, 120, 255}, {120, 180, 90, 255}, {110, 130, 215, 255}}
	return func(x, y int) color.NRGBA {
		for i, c := range colours {
			dx, dy := float64(x)-float64(70+130*i), float64(y)-75
			switch lit := dx < 0; {
			case math.Hypot(dx, dy) > 50:
			case lit != (turned && i == 2):
				return c
			default:
				return inShadow(c)
			}
		}
		return color.NRGBA{228, 228, 228, 255}
	}
}

// lightReport is the light in the JSON of desk read, as a reader of it would write it down.
type lightReport struct {
	Ratio     struct{ Red, Green, Blue float64 }
	Agreement *float64
	OneLight  *bool `json:"one_light"`
	Direction *struct {
		Degrees float64
		Forms   int
	}
	Forms      []struct{ Verdict string }
	OtherForms []otherForm `json:"other_forms"`
}

type otherForm struct {
	Light, Shadow struct{ Colour colour.RGB }
	Verdict       string
}

func lightOf(t *testing.T, path string) (l lightReport) {
	t.Helper()
	e := desktest.Run(t, "", "read", "--json", path)
	e.PlainErrors(t, 0)
	var r struct{ Light lightReport }
	if err := json.Unmarshal([]byte(e.Out), &r); err != nil {
		t.Fatalf("%v: %s", err, e.Out)
	}
	return r.Light
}

func TestReadSaysTheLight(t *testing.T) {
	path := picture(t, "balls.png", 400, 150, threeBalls(false))
	l := lightOf(t, path)
	for i, got := range [3]float64{l.Ratio.Red, l.Ratio.Green, l.Ratio.Blue} {
		if math.Abs(got/left[i]-1) > 0.02 { // half a code in the shadow
			t.Errorf("channel %d: %g is left, want %g", i, got, left[i])
		}
	}
	if l.OneLight == nil || !*l.OneLight || *l.Agreement != 1 || l.Direction == nil || math.Abs(l.Direction.Degrees-180) > 2 || l.Direction.Forms != 3 {
		t.Errorf("%+v", l)
	}
	e := desktest.Run(t, "", "read", path)
	for _, want := range []string{"light      one light: all shadows agree.", "lit from the left, as 3 forms show: 180", "beside the light"} {
		if !strings.Contains(e.Out, want) {
			t.Errorf("says no %q:\n%s", want, e.Out)
		}
	}
	l = lightOf(t, picture(t, "turned.png", 400, 150, threeBalls(true)))
	elsewhere := 0
	for _, f := range l.Forms {
		if f.Verdict == "elsewhere" {
			elsewhere++
		}
	}
	if elsewhere != 1 || l.Direction == nil || math.Abs(l.Direction.Degrees-180) > 2 {
		t.Errorf("%+v", l)
	}
	if e := desktest.Run(t, "", "read", "--json", "--no-families", path); !strings.Contains(e.Out, `"light":null`) {
		t.Errorf("%s", e.Out)
	}
}

// A form of none of the local colours is told by the picture's light, and said; the report holds to its
// schema. A hue turns by more in this shadow than the finder takes for one local colour.
func TestReadSaysOtherForms(t *testing.T) {
	s := scenetest.OneLight(136, true) // an open seed
	path := filepath.Join(t.TempDir(), "scene.png")
	f, err := os.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if err := png.Encode(f, s.Image); err != nil {
		t.Fatal(err)
	}
	l := lightOf(t, path)
	truth := s.Families[slices.IndexFunc(s.Families, func(f scenetest.Truth) bool { return f.Name == s.Turned })]
	told := slices.ContainsFunc(l.OtherForms, func(f otherForm) bool {
		return f.Verdict == "elsewhere" && colour.CIEDE2000(analysis.SpotOf(f.Light.Colour).Lab, truth.Light.Lab()) < 3 && colour.CIEDE2000(analysis.SpotOf(f.Shadow.Colour).Lab, truth.Shadow.Lab()) < 3
	})
	if !told {
		t.Errorf("%s isn't told: %+v", s.Turned, l.OtherForms)
	}
	check(t, reportSchemas(t, "read")["read"], desktest.Run(t, "", "read", "--json", path).Out)
	if said := desktest.Run(t, "", "read", path).Out; !strings.Contains(said, "at the top, seems lit from above") {
		t.Errorf("%s", said)
	}
}

// A colour's shadow as in a picture is what the picture's light leaves of it, within what 8 bits
// and the ratio's own rounding may do.
func TestShadeAsInAPicture(t *testing.T) {
	path := picture(t, "balls.png", 400, 150, threeBalls(false))
	e := desktest.Run(t, "", "shade", "--json", "--as", path, "#d8c060")
	e.PlainErrors(t, 0)
	var r struct {
		As struct{ Shadow, Light struct{ Colour colour.RGB } } `json:"as_picture"`
	}
	if err := json.Unmarshal([]byte(e.Out), &r); err != nil {
		t.Fatal(err)
	}
	want := inShadow(color.NRGBA{0xd8, 0xc0, 0x60, 255})
	got := r.As.Shadow.Colour
	if d := colour.CIEDE2000(labOf(got), labOf(colour.RGB{R: want.R, G: want.G, B: want.B})); d > 1 {
		t.Errorf("%s, want %v, %g apart", got.Hex(), want, d)
	}
	if report := desktest.Run(t, "", "shade", "--as", path, "#d8c060"); !strings.Contains(report.Out, "its shadow") || !strings.Contains(report.Out, got.Hex()) {
		t.Errorf("%s", report.Out)
	}
	flat := picture(t, "flat.png", 60, 50, func(int, int) color.NRGBA { return color.NRGBA{90, 120, 90, 255} })
	for _, as := range []string{flat, filepath.Join(t.TempDir(), "none.png"), "-"} {
		e := desktest.Run(t, "", "shade", "--as", as, "#d8c060")
		e.PlainErrors(t, 1)
		if e.Code == 0 || e.Out != "" {
			t.Errorf("%s: code %d, %s", as, e.Code, e.Out)
		}
	}
}

func labOf(c colour.RGB) colour.Lab {
	return colour.LabOf(colour.Linear(c.R), colour.Linear(c.G), colour.Linear(c.B))
}

// Relit, a picture's local colours keep their lights, and are written as swatches; the picture
// stays as it is.
func TestRelight(t *testing.T) {
	path := picture(t, "balls.png", 400, 150, threeBalls(false))
	before, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	css := filepath.Join(t.TempDir(), "relit.css")
	e := desktest.Run(t, "", "relight", "--json", "--warmer", "60", "--deeper", "1", "--css", css, path)
	e.PlainErrors(t, 0)
	type side struct {
		Colour     colour.RGB
		Value      float64
		TonesBelow float64 `json:"tones_below"`
	}
	var r struct {
		Own, Ratio struct{ Red, Blue float64 }
		Local      []struct{ Light, Was, Shadow side } `json:"local_colours"`
	}
	if err := json.Unmarshal([]byte(strings.Replace(e.Out, "own_ratio", "own", 1)), &r); err != nil || len(r.Local) != 3 {
		t.Fatalf("%v: %s", err, e.Out)
	}
	if r.Ratio.Blue/r.Ratio.Red <= r.Own.Blue/r.Own.Red {
		t.Errorf("a warmer light has no bluer shadows: %+v", r)
	}
	text, err := os.ReadFile(css)
	if err != nil {
		t.Fatal(err)
	}
	deeper := 0
	for _, l := range r.Local {
		if by := l.Was.Value - l.Shadow.Value; by > 0.6 && by < 1.4 { // one factor is another step on each
			deeper++
		}
		if !strings.Contains(string(text), l.Shadow.Colour.Hex()) || !strings.Contains(string(text), l.Light.Colour.Hex()) {
			t.Errorf("%s is not written:\n%s", l.Shadow.Colour.Hex(), text)
		}
	}
	if deeper != 3 {
		t.Errorf("%+v", r.Local)
	}
	if after, err := os.ReadFile(path); err != nil || string(after) != string(before) {
		t.Errorf("the picture was changed: %v", err)
	}
	for _, args := range [][]string{{}, {"-"}, {"--warmer", "200", path}, {"--deeper", "x", path}, {"--force", path}, {"--css", css, path, path}} {
		e := desktest.Run(t, "", append([]string{"relight"}, args...)...)
		e.PlainErrors(t, 1)
		if e.Code != 2 {
			t.Errorf("%v: code %d, %s", args, e.Code, e.Err)
		}
	}
	report := desktest.Run(t, "", "relight", "--warmer=-60", path)
	if !strings.Contains(report.Out, "60 mired cooler") || !strings.Contains(report.Out, "in the chosen light") {
		t.Errorf("%s", report.Out)
	}
}
