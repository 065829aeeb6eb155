package main

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"math"
	"os"
	"runtime"
	"strconv"
	"strings"
	"sync"
	"testing"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/assets"
)

// painting is the embedded painting, decoded once.
var painting = sync.OnceValues(func() (image.Image, error) {
	return png.Decode(bytes.NewReader(assets.DemoPNG))
})

// painted returns the embedded painting.
func painted(t *testing.T) image.Image {
	t.Helper()
	m, err := painting()
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// spot reads one pixel of m.
func spot(m image.Image, at image.Point) analysis.Spot {
	r, g, b, _ := m.At(at.X, at.Y).RGBA()
	return analysis.SpotOf(colour.RGB{R: uint8(r >> 8), G: uint8(g >> 8), B: uint8(b >> 8)})
}

// place finds one declared place by its name.
func place(t *testing.T, name string) assets.Place {
	t.Helper()
	for _, p := range assets.Places {
		if p.Name == name {
			return p
		}
	}
	t.Fatalf("no place named %q", name)
	return assets.Place{}
}

func TestEmbeddedPicturesAreWhatTheGeneratorPaints(t *testing.T) {
	icon, err := png.Decode(bytes.NewReader(assets.Icon))
	if err != nil {
		t.Fatal(err)
	}
	same(t, "demo.png", painted(t), paintScene())
	same(t, "icon.png", icon, paintIcon())
}

// same fails if two pictures differ. Where the processor fuses a multiplication and an
// addition, an edge may round the other way; amd64 never does.
func same(t *testing.T, name string, got, want image.Image) {
	t.Helper()
	if got.Bounds() != want.Bounds() {
		t.Fatalf("%s is %v, the generator paints %v: run go generate ./assets", name, got.Bounds(), want.Bounds())
	}
	var slack uint32
	if runtime.GOARCH != "amd64" {
		slack = 2 << 8
	}
	for y := range want.Bounds().Dy() {
		for x := range want.Bounds().Dx() {
			r0, g0, b0, a0 := got.At(x, y).RGBA()
			r1, g1, b1, a1 := want.At(x, y).RGBA()
			if far(r0, r1, slack) || far(g0, g1, slack) || far(b0, b1, slack) || far(a0, a1, slack) {
				t.Fatalf("%s differs at %d,%d: run go generate ./assets", name, x, y)
			}
		}
	}
}

// far says whether two levels differ by more than slack.
func far(a, b, slack uint32) bool { return max(a, b)-min(a, b) > slack }

func TestPicturesAreSmallEnoughToCarry(t *testing.T) {
	if n := len(assets.DemoPNG); n > 300_000 {
		t.Errorf("demo.png has %d bytes, want at most 300000", n)
	}
	if n := len(assets.Icon); n > 20_000 {
		t.Errorf("icon.png has %d bytes, want at most 20000", n)
	}
}

// The generator's own table must be that of the published formula.
func TestLightnessTableIsByThePublishedFormula(t *testing.T) {
	text, err := os.ReadFile("testdata/munsell_value_to_y.csv")
	if err != nil {
		t.Fatal(err)
	}
	r := csv.NewReader(bytes.NewReader(text))
	r.Comment = '#'
	rows, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if len(rows) != 1+len(lightnessOf) {
		t.Fatalf("%d rows, want %d", len(rows), 1+len(lightnessOf))
	}
	for i, row := range rows[1:] { // source: ASTM D1535-08e1 by the file's first lines
		want, err := strconv.ParseFloat(row[4], 64)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(lightnessOf[i]-want) > 1e-6 {
			t.Errorf("value %s: lightness %g, want %g", row[0], lightnessOf[i], want)
		}
	}
}

// valueTol is what rounding to 8 bits may cost: half a level of each primary moves L* by
// up to 0.3 in the darks, a thirtieth of a step.
const valueTol = 0.04

func TestDeclaredValuesAreMeasured(t *testing.T) {
	m := painted(t)
	for _, p := range assets.Places {
		if got := spot(m, p.At); math.Abs(got.Value-p.Value) > valueTol {
			t.Errorf("%s at %v: value %.3f, want %g", p.Name, p.At, got.Value, p.Value)
		}
	}
}

func TestDeclaredPlacesAreThePalette(t *testing.T) {
	for name, f := range map[string]family{"skin": skin, "hair": hair, "coat": coat, "scarf": scarf} {
		light, shadow := place(t, name+", light"), place(t, name+", shadow")
		if light.Value != f.light.value || shadow.Value != f.shadow.value {
			t.Errorf("%s: places say %g and %g, the palette %g and %g", name, light.Value, shadow.Value, f.light.value, f.shadow.value)
		}
	}
}

func TestShadowsLieTwoToThreeTonesBelowTheirLight(t *testing.T) {
	m := painted(t)
	for _, name := range []string{"skin", "hair", "coat", "scarf"} {
		light, shadow := spot(m, place(t, name+", light").At), spot(m, place(t, name+", shadow").At)
		want := 2.5 // as the palette declares for each family
		if got := light.Value - shadow.Value; math.Abs(got-want) > 2*valueTol {
			t.Errorf("%s: %.3f tones from light to shadow, want %g", name, got, want)
		}
	}
}

func TestAccentsKeepTheirShadowsLightnessAndGainChroma(t *testing.T) {
	m := painted(t)
	for _, name := range []string{"skin", "hair", "coat"} {
		shadow, accent := spot(m, place(t, name+", shadow").At), spot(m, place(t, name+", accent").At)
		if d := math.Abs(accent.Lightness - shadow.Lightness); d > 0.5 {
			t.Errorf("%s: accent differs by %.2f L*, want at most 0.5", name, d)
		}
		if accent.Chroma < shadow.Chroma+10 {
			t.Errorf("%s: accent's chroma %.1f is hardly above the shadow's %.1f", name, accent.Chroma, shadow.Chroma)
		}
	}
}

// The scarf's shadow goes straight toward black: in linear light its three primaries
// stand in the light side's proportions. 8-bit levels blur that by a few hundredths.
func TestScarfGoesStraightTowardBlack(t *testing.T) {
	m := painted(t)
	light, shadow := spot(m, place(t, "scarf, light").At).Colour, spot(m, place(t, "scarf, shadow").At).Colour
	lin := func(v uint8) float64 { // IEC 61966-2-1; all levels here are above its linear part
		return math.Pow((float64(v)/255+0.055)/1.055, 2.4)
	}
	k := lin(shadow.R) / lin(light.R)
	for _, c := range [][2]uint8{{light.G, shadow.G}, {light.B, shadow.B}} {
		if got := lin(c[1]) / lin(c[0]); math.Abs(got/k-1) > 0.04 {
			t.Errorf("a primary is scaled by %.3f, red by %.3f: the shadow turns its hue", got, k)
		}
	}
}

func TestLinesAreTintedButForTheNeutralBlackOne(t *testing.T) {
	used := colours(painted(t))
	for name, f := range map[string]family{"skin": skin, "hair": hair, "coat": coat, "scarf": scarf} {
		c := squeeze(f)
		neutral := c.line.R == c.line.G && c.line.G == c.line.B
		if neutral != (name == "scarf") {
			t.Errorf("%s: line %v", name, c.line)
		}
		if !used[c.line] {
			t.Errorf("%s: line %v is nowhere in the painting", name, c.line)
		}
	}
}

// colours returns the colours of an opaque picture.
func colours(m image.Image) map[color.NRGBA]bool {
	used := map[color.NRGBA]bool{}
	var last color.NRGBA
	for y := range m.Bounds().Dy() {
		for x := range m.Bounds().Dx() {
			r, g, b, _ := m.At(x, y).RGBA()
			if c := (color.NRGBA{uint8(r >> 8), uint8(g >> 8), uint8(b >> 8), 255}); c != last {
				last, used[c] = c, true
			}
		}
	}
	return used
}

func TestIconIsNeutral(t *testing.T) {
	m, err := png.Decode(bytes.NewReader(assets.Icon))
	if err != nil {
		t.Fatal(err)
	}
	for y := range m.Bounds().Dy() {
		for x := range m.Bounds().Dx() {
			if r, g, b, _ := m.At(x, y).RGBA(); r != g || g != b {
				t.Fatalf("pixel %d,%d is %d %d %d", x, y, r, g, b)
			}
		}
	}
}

func TestMixRefusesWhatTheDisplayCannotShow(t *testing.T) {
	defer func() {
		if said := fmt.Sprint(recover()); !strings.Contains(said, "outside sRGB") {
			t.Errorf("mix says %q", said)
		}
	}()
	t.Errorf("mix made %v of a colour outside sRGB", mix(paint{5, 200, 30}))
}
