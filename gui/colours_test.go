package gui

import (
	"image"
	"image/color"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/swatches"
	"app.tonedesk/lawtest"
)

func openColours(t *testing.T, d *Desk) *coloursPage {
	t.Helper()
	d.openPage(pageIndex(coloursName))
	p, ok := d.page().(*coloursPage)
	if !ok {
		t.Fatal("the page of colours is not open")
	}
	return p
}

// on returns a point on swatch i.
func (s *SwatchRow) on(i int) *fyne.PointEvent {
	pos, size := s.plan.box(i, len(s.swatches), s.Size().Width)
	return &fyne.PointEvent{Position: pos.AddXY(size.Width/2, size.Height/2)}
}

func TestColoursFollowTheSpot(t *testing.T) {
	d := newTestDesk(t, Defaults())
	p := openColours(t, d)
	img := halves(testLight, testShadow)
	d.see(t, img)
	if !p.whole.Hidden {
		t.Error("colours are proposed from nothing")
	}
	d.parts.mirror.press(image.Pt(100, 150), 0)
	d.see(t, img)
	if p.whole.Hidden || len(p.ramp.swatches) != 6 || p.ramp.swatches[2].Colour.Hex() != "#e2ab85" {
		t.Fatalf("the ramp is %+v", p.ramp.swatches)
	}
	base := analysis.SpotOf(p.ramp.swatches[2].Colour)
	for i, tones := range []float64{-2, -1, 0, 1, 2, 3} { // tones are steps of value (D1535)
		s := analysis.SpotOf(p.ramp.swatches[i].Colour)
		if p.ramp.swatches[i].None {
			continue // no room
		}
		if got := base.Value - s.Value; math.Abs(got-tones) > 0.03 { // 0.2 L* and a little
			t.Errorf("swatch %d is %.2f tones darker, want %g", i, got, tones)
		}
	}
	for _, w := range p.accents.swatches {
		if l := analysis.SpotOf(w.Colour).Lightness; math.Abs(l-base.Lightness) > 0.2 {
			t.Errorf("accent %s has lightness %.2f, the base %.2f", w.Colour.Hex(), l, base.Lightness)
		}
	}
	d.parts.mirror.press(image.Pt(300, 150), 0)
	d.see(t, img)
	if got := p.ramp.swatches[2].Colour.Hex(); got != "#b26a5c" {
		t.Errorf("with B set the ramp begins at %s", got)
	}
	d.selectSpot(0)
	d.see(t, img)
	if got := p.ramp.swatches[2].Colour.Hex(); got != "#e2ab85" {
		t.Errorf("with A selected the ramp begins at %s", got)
	}
	matched := analysis.SpotOf(p.matched.swatches[1].Colour) // B as light as A
	if math.Abs(matched.Lightness-base.Lightness) > 0.2 {
		t.Errorf("B brought to A has lightness %.2f, A %.2f", matched.Lightness, base.Lightness)
	}
	d.typedRune('b')
	if got := d.app.Clipboard().Content(); got != p.matched.swatches[1].Colour.Hex() {
		t.Errorf("B copies %q", got)
	}
}

func TestSwatchCopiesAndLeadsOn(t *testing.T) {
	d := newTestDesk(t, Defaults())
	p := openColours(t, d)
	img := halves(testLight, testShadow)
	d.see(t, img)
	p.from.entry.take("no colour")
	if got := d.parts.strip.said[stripNote]; !strings.Contains(got, "not a colour") {
		t.Errorf("what is no colour is answered by %q", got)
	}
	p.from.entry.take("#e2c044")
	d.see(t, img)
	if got := p.ramp.swatches[2].Colour.Hex(); got != "#e2c044" {
		t.Fatalf("the ramp begins at %s", got)
	}
	p.ramp.Tapped(p.ramp.on(4))
	if got, want := d.app.Clipboard().Content(), p.ramp.swatches[4].Colour.Hex(); got != want {
		t.Errorf("a click copies %q, want %q", got, want)
	}
	next := p.ramp.swatches[3].Colour
	p.ramp.TappedSecondary(p.ramp.on(3))
	d.see(t, img)
	if p.ramp.swatches[2].Colour != next {
		t.Errorf("a right click goes on from %s, want %s", p.ramp.swatches[2].Colour.Hex(), next.Hex())
	}
	d.Undo()
	d.see(t, img)
	if got := p.ramp.swatches[2].Colour.Hex(); got != "#e2c044" {
		t.Errorf("after undo the ramp begins at %s", got)
	}
	p.ramp.FocusGained()
	p.ramp.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	p.ramp.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	if got, want := d.app.Clipboard().Content(), p.ramp.swatches[1].Colour.Hex(); got != want {
		t.Errorf("Enter copies %q, want %q", got, want)
	}
}

func TestShadeSettings(t *testing.T) {
	d := newTestDesk(t, Defaults())
	p := openColours(t, d)
	img := halves(testLight, testShadow)
	d.parts.mirror.Resize(fyne.NewSize(300, 200))
	p.from.entry.take("#e2c044")
	d.see(t, img)
	before := p.ramp.swatches[4].Colour
	p.knobs.turn.slider.OnChanged(0.3) // as in a drag
	p.knobs.turn.slider.OnChanged(0.5)
	p.knobs.turn.slider.OnChangeEnded(0.5)
	d.see(t, img)
	if d.settings.Shade.Turn != 0.5 || p.ramp.swatches[4].Colour == before {
		t.Errorf("turned by %g, the second step stays %s", d.settings.Shade.Turn, before.Hex())
	}
	d.Undo() // the drag is one step
	d.see(t, img)
	if d.setup.Shade.Turn != analysis.DefaultTurn || p.ramp.swatches[4].Colour != before || p.knobs.turn.slider.Value != analysis.DefaultTurn {
		t.Errorf("after undo the turn is %g, its slider at %g", d.setup.Shade.Turn, p.knobs.turn.slider.Value)
	}
	for i, want := range []float64{analysis.WarmLightShadow, analysis.CoolLightShadow} {
		p.knobs.setLight(i)
		if d.setup.Shade.ShadowHue != want || p.knobs.place() != i {
			t.Errorf("light %d has its shadow at %g", i, d.setup.Shade.ShadowHue)
		}
	}
	if p.knobs.setLight(2); p.knobs.place() != 2 {
		t.Error("the shadow's hue can't be set free")
	}
}

func TestJudgesAChosenShadow(t *testing.T) {
	d := newTestDesk(t, Defaults())
	p := openColours(t, d)
	// a yellow gone straight toward black (common practice, no source): same hue and
	// saturation, two tones and more darker
	img := halves(color.NRGBA{0xe2, 0xc0, 0x44, 255}, color.NRGBA{0xa4, 0x8a, 0x2b, 255})
	d.see(t, img)
	d.parts.mirror.press(image.Pt(300, 150), 0) // the shadow first: the lighter one is the light
	d.parts.mirror.press(image.Pt(100, 150), 0)
	d.see(t, img)
	if got := p.judgeWords.Text; !strings.Contains(got, ". Goes straight toward black") || len(p.judged.swatches) != 3 {
		t.Fatalf("it says %q of %d swatches", got, len(p.judged.swatches))
	}
	f := analysis.FamilyOf(analysis.SpotOf(p.judged.swatches[0].Colour), analysis.SpotOf(p.judged.swatches[2].Colour), analysis.DefaultFamilyRules())
	if len(f.Verdict) != 1 || f.Verdict[0] != analysis.Reads {
		t.Errorf("the colour offered instead is judged %v", f.Verdict)
	}
}

func TestPaletteOfThePicture(t *testing.T) {
	d := newTestDesk(t, Defaults())
	p := openColours(t, d)
	img := halves(testLight, testShadow)
	d.see(t, img) // asks for a copy, and hands it over
	if c := p.palette.colours.swatches; len(c) != 2 || c[0].Colour.Hex() != "#b26a5c" || c[1].Colour.Hex() != "#e2ab85" {
		t.Errorf("the palette of two colours is %+v", c)
	}
	if s := p.palette.spread.swatches; len(s) != 10 || s[7].None || s[5].None || !s[0].None { // values 7.3 and 5.1 (D1535)
		t.Errorf("the spread of values is %+v", s)
	}
}

func TestSaveSwatches(t *testing.T) {
	lawtest.SkipRaced(t)
	d := newTestDesk(t, Defaults())
	shades := analysis.Shade(analysis.SpotOf(analysis.RGB{R: 0xe2, G: 0xab, B: 0x85}), analysis.DefaultShadeOptions())
	rows := swatches.OfShades(shades)
	dir := t.TempDir()
	for ending, want := range map[string]string{".png": "\x89PNG", ".css": ":root", ".json": `"ramp"`, ".hex": "#e2ab85", ".txt": "shadow 1"} {
		path := filepath.Join(dir, "colours"+ending)
		d.saveSwatches(path, rows, shades)
		data, err := os.ReadFile(path)
		if err != nil || !strings.Contains(string(data), want) {
			t.Errorf("%s holds %.60q, %v", ending, data, err)
		}
		if info, err := os.Stat(path); err == nil && info.Mode().Perm() != 0o600 {
			t.Errorf("%s has mode %v", ending, info.Mode())
		}
	}
	d.saveSwatches(filepath.Join(dir, "colours.odd"), rows, shades)
	if got := d.parts.strip.said[stripNote]; !strings.Contains(got, "end the name with .png") {
		t.Errorf("an unknown ending is answered by %q", got)
	}
}
