package gui

import (
	"bytes"
	"encoding/json"
	"fmt"
	"image"
	"image/draw"
	"image/png"
	"math"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"app.tonedesk/analysis/lawtest"
	"app.tonedesk/assets"
	commandline "app.tonedesk/cmd/desk/command"
	"app.tonedesk/gui/settings"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// said runs a command and reads its report, so that the window can be held to what it prints.
func said[T any](t *testing.T, name string, args ...string) (report T) {
	t.Helper()
	var out, errs bytes.Buffer
	if code := commandline.All[name](append([]string{"--json"}, args...), commandline.Streams{In: strings.NewReader(""), Out: &out, Err: &errs}); code != 0 {
		t.Fatalf("desk %s ends with %d: %s", name, code, &errs)
	}
	if err := json.Unmarshal(out.Bytes(), &report); err != nil {
		t.Fatal(err)
	}
	return report
}

// reportedSpot are the figures of a colour in a report.
type reportedSpot struct {
	Colour    string   `json:"colour"`
	Lightness float64  `json:"lightness"`
	Value     float64  `json:"value"`
	LayerGrey float64  `json:"layer_grey"`
	Chroma    float64  `json:"chroma"`
	Hue       *float64 `json:"hue"`
}

// demoPainting is the demo painting as the window sees it.
func demoPainting(t *testing.T) *image.NRGBA {
	t.Helper()
	decoded, err := png.Decode(bytes.NewReader(assets.DemoPNG))
	if err != nil {
		t.Fatal(err)
	}
	img := image.NewNRGBA(decoded.Bounds())
	draw.Draw(img, img.Rect, decoded, image.Point{}, draw.Src)
	return img
}

// printed writes a number as the pages print it.
func printed(v float64, format string) string {
	return strings.ReplaceAll(fmt.Sprintf(format, v), "-", "−")
}

// The figures of the spots and of the groups are those that desk read prints for the demo painting.
func TestWatchSaysWhatReadPrints(t *testing.T) {
	lawtest.SkipRaced(t)
	d, img := newTestDesk(t, settings.Defaults()), demoPainting(t)
	d.see(t, img)
	var at []string
	for i, place := range assets.Places[:2] {
		press(d.Mirror, place.At, 0)
		d.see(t, img)
		at = append(at, fmt.Sprintf("%d,%d", d.setup.Places[i].At.X, d.setup.Places[i].At.Y)) // what the mirror's pixels let one hit
	}
	report := said[struct {
		Spots  []reportedSpot
		Groups []struct {
			Name  string
			Share float64
		}
	}](t, "read", "--no-families", "--spots", strings.Join(at, ";"), "../assets/demo.png")
	state := d.parts.spots.State()
	for i, s := range report.Spots {
		got := state.Texts[i]
		want := wording.FigureText{Lightness: printed(s.Lightness, "%.1f"), Value: printed(s.Value, "%.1f"), LayerGrey: printed(s.LayerGrey, "%.0f"), Chroma: printed(s.Chroma, "%.1f"), Hue: printed(*s.Hue, "%.1f°")}
		if got.Hex != s.Colour || got.FigureText != want {
			t.Errorf("%s: %s %+v, desk read says %s %+v", got.Name, got.Hex, got.FigureText, s.Colour, want)
		}
	}
	a, b := report.Spots[0], report.Spots[1]
	want := wording.FigureText{Lightness: printed(b.Lightness-a.Lightness, "%+.1f"), Value: printed(b.Value-a.Value, "%+.1f"), LayerGrey: printed(b.LayerGrey-a.LayerGrey, "%+.0f"),
		Chroma: printed(b.Chroma-a.Chroma, "%+.1f"), Hue: printed(*b.Hue-*a.Hue, "%+.1f°")} // less than half the circle apart
	if len(report.Spots) != 2 || state.Differences != want {
		t.Errorf("B minus A is %+v, by desk read %+v", state.Differences, want)
	}
	for i, g := range d.parts.spread.State().Groups {
		if r := report.Groups[i]; g.Name != r.Name || math.Abs(g.Share-r.Share) > 1e-12 {
			t.Errorf("group %s has %g, by desk read %s has %g", g.Name, g.Share, r.Name, r.Share)
		}
	}
}

// The colours on the page are those that desk shade and desk match print for the spots.
func TestColoursAreWhatShadePrints(t *testing.T) {
	lawtest.SkipRaced(t)
	d, img := newTestDesk(t, settings.Defaults()), demoPainting(t)
	p := openColours(t, d)
	d.see(t, img)
	for _, place := range assets.Places[:2] {
		press(d.Mirror, place.At, fyne.KeyModifier(0))
		d.see(t, img)
	}
	texts := spotsState(d).Texts
	type step struct{ Colour *string }
	report := said[struct{ Ramp, Lights, Accents []step }](t, "shade", texts[1].Hex)
	ramp := []step{report.Lights[1], report.Lights[0], {&texts[1].Hex}, report.Ramp[0], report.Ramp[1], report.Ramp[2]}
	for what, pair := range map[string]struct {
		got  []widgets.Swatch
		want []step
	}{"ramp": {p.proposals.Ramp.Swatches(), ramp}, "hues": {p.proposals.Accents.Swatches(), report.Accents}} {
		if len(pair.got) != len(pair.want) || len(pair.got) == 0 {
			t.Fatalf("%s: %d swatches, want %d", what, len(pair.got), len(pair.want))
		}
		for i, w := range pair.got {
			if c := pair.want[i].Colour; w.None != (c == nil) || c != nil && w.Colour.Hex() != *c {
				t.Errorf("%s %d: %s", what, i, w.Colour.Hex())
			}
		}
	}
	for i, order := range [][2]string{{texts[1].Hex, texts[0].Hex}, {texts[0].Hex, texts[1].Hex}} {
		match := said[struct{ Matched reportedSpot }](t, "match", order[0], order[1])
		if got := p.proposals.Matched.Swatches()[i].Colour.Hex(); got != match.Matched.Colour {
			t.Errorf("matched %d is %s, by desk match %s", i, got, match.Matched.Colour)
		}
	}
}
