package gui

import (
	"image"
	"image/color"
	"io"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/families"
	"app.tonedesk/analysis/lawtest"
	"app.tonedesk/analysis/propose"
	"app.tonedesk/analysis/swatches"
	"app.tonedesk/gui/guitest"
	"app.tonedesk/gui/host"
	"app.tonedesk/gui/settings"
	"app.tonedesk/gui/widgets"
)

func openColours(t *testing.T, d *Desk) *coloursPage {
	t.Helper()
	d.openPage(pageIndex(settings.PageColours))
	p, ok := d.page().(*coloursPage)
	if !ok {
		t.Fatal("the page of colours is not open")
	}
	return p
}

// swatchAt returns a point on swatch i.
func swatchAt(s *widgets.SwatchRow, i int) *fyne.PointEvent {
	pos, size := s.Box(i)
	return &fyne.PointEvent{Position: pos.AddXY(size.Width/2, size.Height/2)}
}

func TestColoursFollowTheSpot(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	p := openColours(t, d)
	img := guitest.Halves(guitest.Light, guitest.Shadow)
	d.see(t, img)
	if !p.proposals.Box.Hidden {
		t.Error("colours are proposed from nothing")
	}
	press(d.Mirror, image.Pt(100, 150), 0)
	d.see(t, img)
	if p.proposals.Box.Hidden || len(p.proposals.Ramp.Swatches()) != 6 || p.proposals.Ramp.Swatches()[2].Colour.Hex() != "#e2ab85" {
		t.Fatalf("the ramp is %+v", p.proposals.Ramp.Swatches())
	}
	base := analysis.SpotOf(p.proposals.Ramp.Swatches()[2].Colour)
	for i, tones := range []float64{-2, -1, 0, 1, 2, 3} { // tones are steps of value (D1535)
		s := analysis.SpotOf(p.proposals.Ramp.Swatches()[i].Colour)
		if p.proposals.Ramp.Swatches()[i].None {
			continue // no room
		}
		if got := base.Value - s.Value; math.Abs(got-tones) > 0.03 { // 0.2 L* and a little
			t.Errorf("swatch %d is %.2f tones darker, want %g", i, got, tones)
		}
	}
	for _, w := range p.proposals.Accents.Swatches() {
		if l := analysis.SpotOf(w.Colour).Lightness; math.Abs(l-base.Lightness) > 0.2 {
			t.Errorf("accent %s has lightness %.2f, the base %.2f", w.Colour.Hex(), l, base.Lightness)
		}
	}
	press(d.Mirror, image.Pt(300, 150), 0)
	d.see(t, img)
	if got := p.proposals.Ramp.Swatches()[2].Colour.Hex(); got != "#b26a5c" {
		t.Errorf("with B set the ramp begins at %s", got)
	}
	d.selectSpot(0)
	d.see(t, img)
	if got := p.proposals.Ramp.Swatches()[2].Colour.Hex(); got != "#e2ab85" {
		t.Errorf("with A selected the ramp begins at %s", got)
	}
	matched := analysis.SpotOf(p.proposals.Matched.Swatches()[1].Colour) // B as light as A
	if math.Abs(matched.Lightness-base.Lightness) > 0.2 {
		t.Errorf("B brought to A has lightness %.2f, A %.2f", matched.Lightness, base.Lightness)
	}
	d.TypedRune('b')
	if got := d.App.Clipboard().Content(); got != p.proposals.Matched.Swatches()[1].Colour.Hex() {
		t.Errorf("B copies %q", got)
	}
}

func TestSwatchCopiesAndLeadsOn(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	p := openColours(t, d)
	img := guitest.Halves(guitest.Light, guitest.Shadow)
	d.see(t, img)
	p.from.Entry.OnSubmitted("no colour")
	if got := d.Messages.Said[host.MessageError]; !strings.Contains(got, "not a colour") {
		t.Errorf("what is no colour is answered by %q", got)
	}
	p.from.Entry.OnSubmitted("#e2c044")
	d.see(t, img)
	if got := p.proposals.Ramp.Swatches()[2].Colour.Hex(); got != "#e2c044" {
		t.Fatalf("the ramp begins at %s", got)
	}
	p.proposals.Ramp.Tapped(swatchAt(p.proposals.Ramp, 4))
	if got, want := d.App.Clipboard().Content(), p.proposals.Ramp.Swatches()[4].Colour.Hex(); got != want {
		t.Errorf("a click copies %q, want %q", got, want)
	}
	next := p.proposals.Ramp.Swatches()[3].Colour
	p.proposals.Ramp.TappedSecondary(swatchAt(p.proposals.Ramp, 3))
	d.see(t, img)
	if p.proposals.Ramp.Swatches()[2].Colour != next {
		t.Errorf("a right click goes on from %s, want %s", p.proposals.Ramp.Swatches()[2].Colour.Hex(), next.Hex())
	}
	d.Undo()
	d.see(t, img)
	if got := p.proposals.Ramp.Swatches()[2].Colour.Hex(); got != "#e2c044" {
		t.Errorf("after undo the ramp begins at %s", got)
	}
	p.proposals.Ramp.FocusGained()
	p.proposals.Ramp.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	p.proposals.Ramp.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	if got, want := d.App.Clipboard().Content(), p.proposals.Ramp.Swatches()[1].Colour.Hex(); got != want {
		t.Errorf("Enter copies %q, want %q", got, want)
	}
}

func TestShadeSettings(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	p := openColours(t, d)
	img := guitest.Halves(guitest.Light, guitest.Shadow)
	d.Mirror.Resize(fyne.NewSize(300, 200))
	p.from.Entry.OnSubmitted("#e2c044")
	d.see(t, img)
	before := p.proposals.Ramp.Swatches()[4].Colour
	p.proposals.Knobs.Turn.Slider.OnChanged(0.3) // as in a drag
	p.proposals.Knobs.Turn.Slider.OnChanged(0.5)
	p.proposals.Knobs.Turn.Slider.OnChangeEnded(0.5)
	d.see(t, img)
	if d.settings.Shade.Turn != 0.5 || p.proposals.Ramp.Swatches()[4].Colour == before {
		t.Errorf("turned by %g, the second step stays %s", d.settings.Shade.Turn, before.Hex())
	}
	d.Undo() // the drag is one step
	d.see(t, img)
	if d.setup.Shade.Turn != propose.DefaultTurn || p.proposals.Ramp.Swatches()[4].Colour != before || math.Abs(p.proposals.Knobs.Turn.Slider.Value-propose.DefaultTurn) > 1e-9 {
		t.Errorf("after undo the turn is %g, its slider at %g", d.setup.Shade.Turn, p.proposals.Knobs.Turn.Slider.Value)
	}
	for i, want := range []float64{propose.WarmLightShadow, propose.CoolLightShadow} {
		p.proposals.Knobs.SetLight(i)
		if d.setup.Shade.ShadowHue != want || p.proposals.Knobs.Place() != i {
			t.Errorf("light %d has its shadow at %g", i, d.setup.Shade.ShadowHue)
		}
	}
}

func TestJudgesAChosenShadow(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	p := openColours(t, d)
	// a yellow gone straight toward black (common practice, no source): same hue and
	// saturation, two tones and more darker
	img := guitest.Halves(color.NRGBA{0xe2, 0xc0, 0x44, 255}, color.NRGBA{0xa4, 0x8a, 0x2b, 255})
	d.see(t, img)
	press(d.Mirror, image.Pt(300, 150), 0) // the shadow first: the lighter one is the light
	press(d.Mirror, image.Pt(100, 150), 0)
	d.see(t, img)
	if got := p.judged.Words.Text; !strings.Contains(got, ". Straight toward black") || len(p.judged.Judged.Swatches()) != 3 {
		t.Fatalf("it says %q of %d swatches", got, len(p.judged.Judged.Swatches()))
	}
	f := families.Of(analysis.SpotOf(p.judged.Judged.Swatches()[0].Colour), analysis.SpotOf(p.judged.Judged.Swatches()[2].Colour), families.DefaultRules())
	if len(f.Verdict) != 1 || f.Verdict[0] != families.Reads {
		t.Errorf("the colour offered instead is judged %v", f.Verdict)
	}
}

func TestPaletteOfThePicture(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	p := openColours(t, d)
	img := guitest.Halves(guitest.Light, guitest.Shadow)
	d.see(t, img) // asks for a copy, and hands it over
	if c := p.palette.Colours.Swatches(); len(c) != 2 || c[0].Colour.Hex() != "#b26a5c" || c[1].Colour.Hex() != "#e2ab85" {
		t.Errorf("the palette of two colours is %+v", c)
	}
}

// The base follows the spot unless it is held: by the pin, by the other button on a swatch, or by
// typing. Letting go returns to the spot, and each is a step of undo.
func TestHoldTheBase(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	p := openColours(t, d)
	img := guitest.Halves(guitest.Light, guitest.Shadow)
	look := func(what, from, code string, held bool) {
		t.Helper()
		d.see(t, img)
		if p.from.From.Words() != from || p.from.Code.Words() != code || p.from.Pin.On() != held {
			t.Errorf("%s: %s %q, held %v; want %s %q", what, p.from.Code.Words(), p.from.From.Words(), p.from.Pin.On(), code, from)
		}
	}
	d.see(t, img)
	if !p.from.Pin.Off() {
		t.Error("nothing can be held")
	}
	press(d.Mirror, image.Pt(100, 150), 0)
	look("a spot", "follows spot A", "#e2ab85", false)
	p.from.Pin.Tapped(nil)
	press(d.Mirror, image.Pt(300, 150), 0)
	look("held", "held", "#e2ab85", true)
	p.from.Pin.Tapped(nil)
	look("let go", "follows spot B", "#b26a5c", false)
	d.selectSpot(0)
	look("selected", "follows spot A", "#e2ab85", false)
	p.from.Entry.OnSubmitted("#e2c044")
	look("typed", "typed", "#e2c044", true)
	next := p.proposals.Ramp.Swatches()[3].Colour
	p.proposals.Ramp.TappedSecondary(swatchAt(p.proposals.Ramp, 3))
	look("taken from a swatch", "held", next.Hex(), true)
	d.Undo()
	look("after undo", "typed", "#e2c044", true)
}

// The settings stand in place of the second card, and the ramp stays.
func TestAdjust(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	p := openColours(t, d)
	img := guitest.Halves(guitest.Light, guitest.Shadow)
	d.see(t, img)
	press(d.Mirror, image.Pt(100, 150), 0)
	d.see(t, img)
	for _, on := range []bool{false, true, false} {
		if p.proposals.Adjust.On() != on || p.proposals.Knobs.Box.Visible() != on || !p.proposals.Ramp.Visible() {
			t.Errorf("adjusting %v: settings shown %v", on, p.proposals.Knobs.Box.Visible())
		}
		p.proposals.Adjust.Tapped(nil)
	}
}

// A press on the strip of hues copies the cell that it ends on, wherever it began.
func TestHuesAreCopied(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	p := openColours(t, d)
	img := guitest.Halves(guitest.Light, guitest.Shadow)
	d.see(t, img)
	press(d.Mirror, image.Pt(100, 150), 0)
	d.see(t, img)
	strip := p.proposals.Accents
	at := func(i int) fyne.PointEvent {
		pos, size := strip.Box(i)
		return fyne.PointEvent{Position: pos.AddXY(size.Width/2, size.Height/2)}
	}
	strip.MouseDown(&desktop.MouseEvent{PointEvent: at(3), Button: desktop.MouseButtonPrimary})
	strip.Dragged(&fyne.DragEvent{PointEvent: at(7)})
	strip.DragEnd()
	if got, want := d.App.Clipboard().Content(), strip.Swatches()[7].Colour.Hex(); got != want {
		t.Errorf("copied %q, want %q", got, want)
	}
	strip.MouseDown(&desktop.MouseEvent{PointEvent: at(5), Button: desktop.MouseButtonPrimary})
	strip.MouseUp(&desktop.MouseEvent{PointEvent: at(5), Button: desktop.MouseButtonPrimary})
	if got, want := d.App.Clipboard().Content(), strip.Swatches()[5].Colour.Hex(); got != want {
		t.Errorf("copied %q, want %q", got, want)
	}
}

func TestSaveSwatches(t *testing.T) {
	lawtest.SkipRaced(t)
	d := newTestDesk(t, settings.Defaults())
	shades := propose.Shade(analysis.SpotOf(colour.RGB{R: 0xe2, G: 0xab, B: 0x85}), propose.DefaultOptions())
	rows := swatches.OfShades(shades)
	dir := t.TempDir()
	for ending, want := range map[string]string{".png": "\x89PNG", ".css": ":root", ".json": `"ramp"`, "-codes.txt": "#e2ab85", ".txt": "shadow 1"} {
		path := filepath.Join(dir, "colours"+ending)
		for _, f := range swatchFormats {
			if f.suffix+f.ending == ending {
				d.saves.save(path, func(w io.Writer) error { return f.write(w, rows, shades) })
			}
		}
		data, err := os.ReadFile(path)
		if err != nil || !strings.Contains(string(data), want) {
			t.Errorf("%s holds %.60q, %v", ending, data, err)
		}
		if info, err := os.Stat(path); err == nil && info.Mode().Perm() != 0o600 {
			t.Errorf("%s has mode %v", ending, info.Mode())
		}
	}
}
