package gui

import (
	"image"
	"math"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/families"
	"app.tonedesk/analysis/light"
	"app.tonedesk/analysis/propose"
	"app.tonedesk/analysis/scenetest"
	"app.tonedesk/gui/live"
	"app.tonedesk/gui/settings"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

const oneLightSeed = 6 // an open one: four local colours, and a bluish shadow

// inOneLight is a painted scene in one light, and the same with the shadow of a family painted as its
// light, only darker: straight toward black.
func inOneLight(t *testing.T) (all, odd *image.NRGBA) {
	t.Helper()
	const family = 0
	s := scenetest.OneLight(oneLightSeed, false)
	all, odd = image.NewNRGBA(s.Image.Rect), image.NewNRGBA(s.Image.Rect)
	f := s.Families[family]
	by := colour.Luminance(f.Shadow.Red, f.Shadow.Green, f.Shadow.Blue) / colour.Luminance(f.Light.Red, f.Light.Green, f.Light.Blue)
	black := s.Image.RGBAAt(0, 0)
	black.R, black.G, black.B = code(by*f.Light.Red), code(by*f.Light.Green), code(by*f.Light.Blue)
	for y := range s.Image.Rect.Dy() {
		for x := range s.Image.Rect.Dx() {
			c := s.Image.RGBAAt(x, y)
			all.Set(x, y, c)
			if of, side, ok := s.At(x, y); ok && of == family && side == scenetest.Shadow {
				c = black
			}
			odd.Set(x, y, c)
		}
	}
	return all, odd
}

func code(linear float64) uint8 { return uint8(255*colour.EncodedOf(linear) + 0.5) }

// search sees a picture and finds its local colours, however soon after another one.
func search(t *testing.T, d *Desk, img *image.NRGBA) {
	t.Helper()
	d.see(t, img)
	size := img.Rect.Size()
	p := analysis.Pixels{Pix: img.Pix, Stride: img.Stride, Width: size.X, Height: size.Y, Layout: analysis.RGBA}
	d.families.TakeFound(live.Found{Found: families.Find(p, nil, families.DefaultRules()), Source: d.setup.Source, Size: size})
	d.searchNow(t) // the light
}

// framed counts the shadows of a card that stand out.
func framed(t wording.LightCardText) (n int) {
	for _, s := range t.Shadows {
		if s.Deep || s.Hue {
			n++
		}
	}
	return n
}

// The card says that the shadows of a painted scene agree, and names and frames the one that was
// painted toward black; refused, it doesn't count any more, and kept again it does.
func TestLightCard(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	p := openStructure(t, d)
	all, odd := inOneLight(t)
	d.see(t, all)
	d.searchNow(t)
	if got := p.light.Text(); len(got.Shadows) != 4 || framed(got) != 0 || got.Lines[1] != "One light: all shadows agree." || !strings.HasPrefix(got.Lines[0], "All four lie ") {
		t.Fatalf("%+v", got)
	}
	search(t, d, odd)
	got := p.light.Text()
	if len(got.Shadows) != 4 || framed(got) != 1 || !strings.HasSuffix(got.Lines[1], "disagrees: it keeps its hue, straight toward black.") {
		t.Fatalf("%+v", got)
	}
	row := -1
	for i, s := range got.Shadows {
		for k, r := range p.families.Rows() {
			if s.Hue && r.Text().Shadow == s.Colour {
				row = k
			}
		}
		if s.Deep || s.Hue && s.HueShift == nil {
			t.Errorf("shadow %d: %+v", i, s)
		}
	}
	if row < 0 {
		t.Fatal("what disagrees is not listed")
	}
	p.families.Rows()[row].Cross.Tapped(nil)
	d.searchNow(t)
	if got := p.light.Text(); len(got.Shadows) != 3 || framed(got) != 0 {
		t.Errorf("refused, it still counts: %+v", got)
	}
	d.Undo()
	d.searchNow(t)
	if got := p.light.Text(); len(got.Shadows) != 4 || framed(got) != 1 {
		t.Errorf("undone, it doesn't count: %+v", got)
	}
	search(t, d, form())
	if got := p.light.Text(); len(got.Shadows) != 1 || !strings.HasPrefix(got.Lines[1], "One local colour alone") {
		t.Errorf("%+v", got)
	}
}

// The key shows in the mirror from where the light comes, on any page and for as long as it isn't
// pressed again, and moves nothing else there; flipped, the arrows are mirrored.
func TestLightDirection(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	all, _ := inOneLight(t)
	d.see(t, all)
	if d.families.Search.RunOnce() {
		t.Fatal("local colours are looked for that nobody wants to see")
	}
	fit := d.Mirror.Fit()
	d.TypedRune('i')
	d.see(t, all)
	d.searchNow(t)
	over := d.Mirror.Overlay(widgets.OverlayLight)
	if over == nil || drawnPixels(over) == 0 {
		t.Fatal("nothing is drawn")
	}
	if d.Mirror.Fit() != fit || len(d.Mirror.Marks()) != 0 {
		t.Error("something else changed in the mirror")
	}
	d.openPage(pageIndex(settings.PageStills))
	d.see(t, all)
	if d.Mirror.Overlay(widgets.OverlayLight) != over {
		t.Error("on another page it is drawn anew, or gone")
	}
	d.flip()
	d.see(t, all)
	flipped := d.Mirror.Overlay(widgets.OverlayLight)
	if flipped == nil || flipped == over {
		t.Fatal("flipped, the same is drawn")
	}
	apart := 0
	for y := range over.Rect.Dy() {
		for x := range over.Rect.Dx() {
			if (over.RGBAAt(x, y).A > 127) != (flipped.RGBAAt(over.Rect.Dx()-1-x, y).A > 127) {
				apart++
			}
		}
	}
	if apart*20 > drawnPixels(over) { // edges round otherwise
		t.Errorf("%d of %d pixels are not mirrored", apart, drawnPixels(over))
	}
	d.TypedRune('I')
	if d.Mirror.Overlay(widgets.OverlayLight) != nil {
		t.Error("pressed again, it stays")
	}
}

func drawnPixels(img *image.RGBA) (n int) {
	for i := 3; i < len(img.Pix); i += 4 {
		if img.Pix[i] != 0 {
			n++
		}
	}
	return n
}

// Lights and shadows are proposed as in the picture where one light falls on it, each as light as it is
// to be, among them what the scene's forms are painted with; where that is not known it can't be chosen, and what was chosen holds again
// once it is.
func TestShadowsAsInThisPicture(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	p := openColours(t, d)
	all, _ := inOneLight(t)
	p.from.Entry.OnSubmitted("#c0b0a0")
	d.see(t, all)
	chooser := p.proposals.Knobs.Light
	if chooser.Off(2) == "" {
		t.Fatal("it can be chosen before anything is known")
	}
	d.searchNow(t)
	if why := chooser.Off(2); why != "" {
		t.Fatalf("it can't be chosen: %s", why)
	}
	usual := p.proposals.Ramp.Swatches()[4].Colour
	chooser.Choose(2)
	d.see(t, all)
	l, list := d.families.Light()
	lit := p.proposals.Ramp.Swatches()
	if p.proposals.Knobs.Place() != 2 || lit[4].Colour == usual || !bluer(*l.Ratio) {
		t.Fatalf("chosen is %d, the shadow %s", p.proposals.Knobs.Place(), lit[4].Colour.Hex())
	}
	f := list[l.LocalColours[0].Family]
	p.from.Entry.OnSubmitted(f.Light.Colour.Hex())
	d.see(t, all)
	for _, s := range p.proposals.Shades(f.Light).Ramp {
		if s.Spot != nil && math.Abs(f.Light.Value-s.Spot.Value-s.Tones) > 0.05 { // 8 bits
			t.Errorf("%g tones below the base, want %g", f.Light.Value-s.Spot.Value, s.Tones)
		}
	}
	for _, truth := range scenetest.OneLight(oneLightSeed, false).Families {
		light, shadow := truth.Light.Lab(), truth.Shadow.Lab()
		if truth.Scored && (!proposes(p.proposals.Shades(spotOf(truth.Light)).Ramp[:], shadow) || !proposes(p.proposals.Shades(spotOf(truth.Shadow)).Lights[:], light)) {
			t.Errorf("%s is not proposed from the other side", truth.Name)
		}
	}
	d.Undo()
	d.Undo()
	d.see(t, all)
	if p.proposals.Knobs.Place() == 2 || d.setup.AsLit {
		t.Error("it can't be undone")
	}
	d.Redo()
	d.apply(d.setup.CountingAll())
	d.families.Forget()
	p.handle(0)
	d.see(t, all)
	if p.proposals.Knobs.Place() == 2 || chooser.Off(2) == "" || !d.setup.AsLit {
		t.Errorf("nothing is known, and shadows are as in the picture: %d, %q", p.proposals.Knobs.Place(), chooser.Off(2))
	}
	chooser.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	if p.proposals.Knobs.Place() == 2 {
		t.Error("a key chooses it")
	}
}

// proposes reports whether a step is a colour within CIEDE2000 3, which is what we asked for.
func proposes(steps []propose.Step, c colour.Lab) bool {
	return slices.ContainsFunc(steps, func(s propose.Step) bool { return s.Spot != nil && colour.CIEDE2000(s.Spot.Lab, c) <= 3 })
}

// spotOf reads a colour as a picture's 8 bits have it.
func spotOf(c scenetest.Colour) analysis.Spot {
	return analysis.SpotOf(colour.RGB{R: code(c.Red), G: code(c.Green), B: code(c.Blue)})
}

// bluer reports whether a light leaves more of the blue in its shadow.
func bluer(r light.Ratio) bool { return r.Blue > r.Red }

// Where one light falls on the picture its local colours are shown with the shadows of another light:
// a cooler one's are redder, deeper ones deeper. Each drag is a step of undo, and what is shown is
// what is copied. Where no light is known there is nothing to relight.
func TestRelight(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	p := openColours(t, d)
	all, _ := inOneLight(t)
	d.see(t, all)
	if p.relight.Box.Visible() {
		t.Fatal("it is there before anything is known")
	}
	d.searchNow(t)
	l, _ := d.families.Light()
	own := p.relight.Shadows.Swatches()
	if !p.relight.Box.Visible() || len(own) != len(l.LocalColours) {
		t.Fatalf("%d shadows of %d local colours", len(own), len(l.LocalColours))
	}
	p.relight.Warmer.Slider.TypedKey(&fyne.KeyEvent{Name: fyne.KeyLeft})
	if d.setup.Relit.Warmer != -1 {
		t.Errorf("a key makes the light warmer by %g", d.setup.Relit.Warmer)
	}
	p.relight.Warmer.Slider.SetValue(-40)
	d.see(t, all)
	cooler := p.relight.Shadows.Swatches()
	p.relight.Deeper.Slider.SetValue(1)
	d.see(t, all)
	deeper := p.relight.Shadows.Swatches()
	for i := range own {
		if redOverBlue(cooler[i]) <= redOverBlue(own[i]) || deeper[i].Grey >= cooler[i].Grey {
			t.Errorf("local colour %d: %s, cooler %s, deeper %s", i+1, own[i].Colour.Hex(), cooler[i].Colour.Hex(), deeper[i].Colour.Hex())
		}
	}
	if d.setup.Relit != (light.Change{Warmer: -40, Deeper: 1}) {
		t.Errorf("the light is changed by %+v", d.setup.Relit)
	}
	p.relight.Copy.Tapped(nil)
	for i, s := range deeper {
		if got := d.App.Clipboard().Content(); !strings.Contains(got, s.Colour.Hex()) {
			t.Errorf("copied without shadow %d: %q", i+1, got)
		}
	}
	for range 3 {
		d.Undo()
	}
	d.see(t, all)
	if d.setup.Relit != (light.Change{}) || p.relight.Warmer.Slider.Value != 0 || !slices.Equal(p.relight.Shadows.Swatches(), own) {
		t.Errorf("after undo the light is changed by %+v", d.setup.Relit)
	}
	d.families.Forget()
	d.see(t, all)
	if p.relight.Box.Visible() {
		t.Error("nothing is known, and it is relit")
	}
}

func redOverBlue(s widgets.Swatch) float64 {
	return (float64(s.Colour.R) + 1) / (float64(s.Colour.B) + 1)
}
