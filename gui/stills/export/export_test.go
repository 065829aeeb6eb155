package export

import (
	"errors"
	"image"
	"image/color"
	"io/fs"
	"math"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/families"
	"app.tonedesk/analysis/lawtest"
	"app.tonedesk/capture/picturefile"
	"app.tonedesk/gui/files"
	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/stills"
	"app.tonedesk/gui/stills/ink"
	"app.tonedesk/gui/stills/notes"
	"app.tonedesk/gui/stills/sheet"
	"app.tonedesk/gui/wording"
)

// plainSay returns a text with ordinary spaces.
func plainSay(text string) string { return strings.ReplaceAll(text, wording.Nbsp, " ") }

// halfLight is light grey on the left and dark grey on the right.
func halfLight(w, h int) analysis.Pixels {
	p := analysis.Pixels{Pix: make([]byte, 4*w*h), Stride: 4 * w, Width: w, Height: h}
	for i := range w * h {
		grey := uint8(200)
		if i%w >= w/2 {
			grey = 80
		}
		copy(p.Pix[4*i:], []byte{grey, grey, grey, 255})
	}
	return p
}

func contentOf(t *testing.T, s SheetSubject) sheet.Content {
	t.Helper()
	c, err := SheetContent(s)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func someSubject() SheetSubject {
	p := halfLight(120, 80)
	spot := notes.Spot{At: ink.Pt(30, 40), Reading: analysis.SpotOf(colour.RGB{R: 200, G: 200, B: 200})}
	return SheetSubject{
		Title: "Half light", Time: time.Date(2026, 3, 4, 12, 30, 0, 0, time.UTC), Display: "sRGB", Picture: p,
		Source: stills.Source{Kind: stills.FromScreen},
		Notes: []notes.Note{
			notes.New(notes.Ring{From: ink.Pt(5, 5), To: ink.Pt(50, 50), Width: 2}, ""),
			notes.New(spot, "half-tone"),
			notes.New(notes.Arrow{From: ink.Pt(5, 5), To: ink.Pt(50, 50), Width: 2}, "lose this edge"),
			notes.New(notes.Area{Side: notes.Light, Points: []ink.Point{ink.Pt(20, 20)}, Width: 20}, ""),
			notes.New(notes.Area{Side: notes.Shadow, Points: []ink.Point{ink.Pt(90, 20)}, Width: 20}, "turn it"),
		},
	}
}

// What stands on the sheet is what the window measures and what the notes say, with the same
// numbers.
func TestSheetContent(t *testing.T) {
	s := someSubject()
	family := families.Of(analysis.SpotOf(colour.RGB{R: 230, G: 180, B: 140}), analysis.SpotOf(colour.RGB{R: 150, G: 70, B: 60}), families.DefaultRules())
	s.Families = &families.Found{List: []families.Family{family, family, family, family, family, family, family}}
	c := contentOf(t, s)
	if len(c.Families) != mostFamilies || len(c.Families[0].Colours) != 2 || !strings.Contains(c.Families[0].Title, "tones") {
		t.Errorf("families %+v", c.Families)
	}
	if c.FamiliesLeft != 1 {
		t.Errorf("of 7 families %d are said to be left", c.FamiliesLeft)
	}
	said := []string{plainSay(c.Painted)}
	for _, n := range c.Notes {
		said = append(said, strconv.Itoa(n.Number), plainSay(n.Text), plainSay(n.Reading))
	}
	light, shadow := analysis.SpotOf(colour.RGB{R: 200, G: 200, B: 200}), analysis.SpotOf(colour.RGB{R: 80, G: 80, B: 80})
	apart := wording.Tenth(light.Value - shadow.Value)
	want := []string{
		"Painted areas. Light: lightness " + wording.Tenth(light.Lightness) + ", value " + wording.Tenth(light.Value) + ", varies by 0.0. Shadow: lightness " +
			wording.Tenth(shadow.Lightness) + ", value " + wording.Tenth(shadow.Value) + ", varies by 0.0. " + apart +
			" tones apart; the shadow's lightest tenth is " + apart + " tones darker than the light's darkest tenth.",
		"1", "half-tone", "lightness " + wording.Tenth(light.Lightness) + ", value " + wording.Tenth(light.Value),
		"2", "lose this edge", "",
		"3", "turn it", apart + " tones",
	}
	if strings.Join(said, "|") != strings.Join(want, "|") {
		t.Errorf("%q, want %q", said, want)
	}
	if c.Notes[0].Colour == nil || c.Notes[0].Grey != 200 || c.Notes[1].Colour != nil {
		t.Errorf("%+v", c.Notes)
	}
	if got := plainSay(c.About); got != "4 March 2026, 12:30 · part of the screen, 120 × 80 pixels · 3 notes, 2 more without words" {
		t.Errorf("about %q", got)
	}
	if len(c.Shares) != 2 || plainSay(c.Shares[0].Words) != "dark 50 %" || c.Histogram == nil {
		t.Errorf("%+v", c.Shares)
	}
	if c := contentOf(t, SheetSubject{Title: "x", Picture: halfLight(4, 4)}); len(c.Families) != 0 || len(c.Notes) != 0 {
		t.Errorf("nothing to say gives %+v, %+v", c.Families, c.Notes)
	}
}

// A sheet shows no family that is unsure or refused, but what is kept: also where it is not found,
// as long as it is there.
func TestSheetOfJudged(t *testing.T) {
	s := someSubject()
	grey := func(v uint8) colour.RGB { return colour.RGB{R: v, G: v, B: v} }
	family := func(light, shadow colour.RGB, confidence float64) families.Family {
		f := families.Of(analysis.SpotOf(light), analysis.SpotOf(shadow), families.DefaultRules())
		f.Confidence = &confidence
		return f
	}
	red, darkRed, blue, darkBlue := colour.RGB{R: 230, G: 90, B: 80}, colour.RGB{R: 140, G: 30, B: 40}, colour.RGB{R: 90, G: 120, B: 230}, colour.RGB{R: 40, G: 50, B: 130}
	s.Families = &families.Found{List: []families.Family{family(red, darkRed, 0.9), family(blue, darkBlue, 0.2), family(grey(240), grey(20), 0.3)}}
	at := func(c colour.RGB, x int) setup.Side { return setup.Side{Colour: c, At: image.Pt(x, 40)} }
	s.Judged = []setup.Judged{
		{Light: at(red, 20), Shadow: at(darkRed, 100)},
		{Kept: true, Light: at(blue, 20), Shadow: at(darkBlue, 100)},
		{Kept: true, Light: at(grey(200), 20), Shadow: at(grey(80), 100)},                   // not found, but painted there
		{Kept: true, Light: at(colour.RGB{G: 200}, 20), Shadow: at(colour.RGB{G: 80}, 100)}, // painted over
		{Kept: true, Light: at(grey(190), 5000), Shadow: at(grey(70), 100)},                 // outside
	}
	var got [][]colour.RGB
	for _, row := range contentOf(t, s).Families {
		got = append(got, row.Colours)
	}
	want := [][]colour.RGB{{blue, darkBlue}, {grey(200), grey(80)}}
	if !slices.EqualFunc(got, want, func(a, b []colour.RGB) bool { return slices.Equal(a, b) }) {
		t.Errorf("the sheet shows %v, want %v", got, want)
	}
	if kept := s.meta().LocalColours; len(kept) != 4 || !kept[0].Kept {
		t.Errorf("with the figures goes %+v", kept)
	}
}

// The window and the sheet say the same of painted areas, with all figures, whichever way
// round they lie.
func TestSayMeasured(t *testing.T) {
	light, shadow := analysis.SpotOf(colour.RGB{R: 200, G: 200, B: 200}), analysis.SpotOf(colour.RGB{R: 80, G: 80, B: 80})
	side := func(s analysis.Spot) string {
		return "lightness " + wording.Tenth(s.Lightness) + ", value " + wording.Tenth(s.Value) + ", varies by 0.0"
	}
	nan := math.NaN()
	for want, m := range map[string]notes.Measured{
		"Paint with Light and Shadow to measure two parts against each other.": {Tones: nan, Overlap: nan},
		"Light: " + side(light) + ".":                                          {Light: &light, Tones: nan, Overlap: nan},
		"Shadow: " + side(shadow) + ".":                                        {Shadow: &shadow, Tones: nan, Overlap: nan},
		"Light: " + side(light) + ". Shadow: " + side(shadow) + ". 4.5 tones apart; the shadow's lightest tenth is 4.4 tones darker than the light's darkest tenth.": {
			Light: &light, Shadow: &shadow, Tones: 4.5, Overlap: -4.4},
		"Light: " + side(light) + ". Shadow: " + side(shadow) + ". 1.0 tones apart; they overlap, the shadow's lightest tenth is 0.3 tones lighter than the light's darkest tenth.": {
			Light: &light, Shadow: &shadow, Tones: 1, Overlap: 0.3},
		"Light: " + side(shadow) + ". Shadow: " + side(light) + ". The other way round: the light is 4.5 tones darker than the shadow; they overlap, the shadow's lightest tenth is 4.5 tones lighter than the light's darkest tenth.": {
			Light: &shadow, Shadow: &light, Tones: -4.5, Overlap: 4.5},
		"Light: " + side(light) + ". Shadow: " + side(light) + ". Light and shadow have the same value; the shadow's lightest tenth is as light as the light's darkest tenth.": {
			Light: &light, Shadow: &light, Tones: -0.04, Overlap: 0.04},
	} {
		if got := plainSay(wording.SayMeasured(m)); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
	p := halfLight(40, 40)
	area := func(side notes.Side, x float64) notes.Note {
		return notes.New(notes.Area{Side: side, Points: []ink.Point{{X: x, Y: 10}, {X: x, Y: 30}}, Width: 6}, "")
	}
	list := []notes.Note{area(notes.Light, 30), area(notes.Shadow, 10)}
	painted := notes.NewPainted(p)
	painted.Set(list)
	if c := contentOf(t, SheetSubject{Title: "x", Picture: p, Notes: list}); len(c.Notes) != 0 || !strings.HasSuffix(c.Painted, wording.SayMeasured(painted.Measure())) {
		t.Errorf("the sheet says %q, %+v", c.Painted, c.Notes)
	}
}

// A still is exported as a file of the owner's, whole or not at all.
func TestExportSaves(t *testing.T) {
	lawtest.SkipRaced(t)
	dir, s := t.TempDir(), someSubject()
	h := Export{Page: sheet.A4}
	for _, ending := range stills.Endings() {
		path := filepath.Join(dir, "half"+strings.ToUpper(ending))
		if err := h.Save(files.To{Path: path, Over: true}, s); err != nil {
			t.Fatal(err)
		}
		if info, err := os.Stat(path); err != nil || info.Mode().Perm() != 0o600 && runtime.GOOS != "windows" || info.Size() == 0 {
			t.Errorf("%s: %v, %v", path, info, err)
		}
	}
	h.Picture = true
	path := filepath.Join(dir, "notes.png")
	if err := h.Save(files.To{Path: path, Over: true}, s); err != nil {
		t.Fatal(err)
	}
	p, err := picturefile.Open(path)
	if err != nil || p.Size.X != 120 || p.Size.Y != 80 {
		t.Fatalf("%v, %v", p, err)
	}
	// Where no note is, the picture is as it was.
	if at := 4*(70*120+110) + 0; p.Pix[at] != 80 || p.Pix[at+2] != 80 {
		t.Errorf("the picture has changed: %v", p.Pix[at:at+4])
	}
	if err := h.Save(files.To{Path: filepath.Join(dir, "x.gif"), Over: true}, s); !errors.Is(err, stills.ErrEnding) {
		t.Errorf("gif: %v", err)
	}
	if err := h.Save(files.To{Path: path}, s); !errors.Is(err, fs.ErrExist) {
		t.Errorf("over a file that is there: %v", err)
	}
	if err := os.Mkdir(filepath.Join(dir, "d.png"), 0o700); err != nil {
		t.Fatal(err)
	}
	if err := h.Save(files.To{Path: filepath.Join(dir, "d.png"), Over: true}, s); err == nil {
		t.Error("a folder was written over")
	}
	if left, err := filepath.Glob(filepath.Join(dir, ".*")); err != nil || len(left) != 0 {
		t.Errorf("left over: %v, %v", left, err)
	}
}

// rounded is how far a sample may be where notes are drawn on a layer of their own first, which
// rounds once more each time that they cover each other (our choice).
const rounded = 2

// The merged image of an OpenRaster file is the picture with its notes.
func TestMergedImage(t *testing.T) {
	dir, s := t.TempDir(), someSubject()
	layers, whole := filepath.Join(dir, "x.ora"), filepath.Join(dir, "x.png")
	if err := (Export{}).Save(files.To{Path: layers}, s); err != nil {
		t.Fatal(err)
	}
	if err := (Export{Picture: true}).Save(files.To{Path: whole}, s); err != nil {
		t.Fatal(err)
	}
	a, errA := picturefile.Open(layers)
	b, errB := picturefile.Open(whole)
	if errA != nil || errB != nil || a.Size != b.Size {
		t.Fatalf("%v, %v", errA, errB)
	}
	for i := range a.Pix {
		if math.Abs(float64(a.Pix[i])-float64(b.Pix[i])) > rounded {
			t.Fatalf("the merged image is not the picture with its notes: byte %d is %d, not %d", i, a.Pix[i], b.Pix[i])
		}
	}
}

// A sheet is white paper where the picture is transparent, in every picture on it; where
// nothing is counted it says so.
func TestSheetOfTransparent(t *testing.T) {
	p := halfLight(40, 40)
	for i := range 40 * 20 {
		copy(p.Pix[4*i:], []byte{0, 0, 0, 0})
	}
	c := contentOf(t, SheetSubject{Title: "x", Picture: p})
	for i, img := range []*image.RGBA{c.Picture, c.Greys, c.Bands} {
		size := img.Rect.Size()
		top, below := img.RGBAAt(size.X/4, size.Y/4), img.RGBAAt(3*size.X/4, 3*size.Y/4)
		if top != (color.RGBA{255, 255, 255, 255}) && i < 2 || top.R <= below.R || top.A != 255 {
			t.Errorf("picture %d: the ground is %v over %v", i, top, below)
		}
	}
	if n := c.Histogram[255]; n != 0 {
		t.Errorf("%d pixels of the ground are counted", n)
	}
	clear(p.Pix)
	if c := contentOf(t, SheetSubject{Title: "x", Picture: p}); c.Histogram != nil || !strings.HasPrefix(c.Figures, "Nothing can be measured") {
		t.Errorf("nothing in it gives %q", c.Figures)
	}
}
