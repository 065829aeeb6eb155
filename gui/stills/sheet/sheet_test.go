package sheet

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"image/png"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
	"pgregory.net/rapid"

	"app.tonedesk/analysis/colour"
	_ "app.tonedesk/analysis/lawtest" // the same cases every time
	"app.tonedesk/gui/stills/ink"
)

// boxes lists everything that has a place of its own on a page.
func (p plan) boxes() []Box {
	return append([]Box{p.picture, p.greys, p.bands, p.spread}, p.columns...)
}

// For pictures of all shapes, everything lies on the page, clear of its margins, and nothing
// over another; the picture is the largest thing and the lists have room.
func TestPlan(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		size := rapid.SampledFrom([]Size{A4, Wide}).Draw(t, "size")
		shape := math.Exp2(rapid.Float64Range(-2, 2).Draw(t, "shape"))
		p := planPage(size, shape)
		all := p.boxes()
		for i, b := range all {
			if b.X < margin-1e-9 || b.Y < margin+headRoom || b.right() > size.W-margin+1e-9 || b.bottom() > size.H-margin+1e-9 || b.W < 20 || b.H < 10 {
				t.Fatalf("box %d, %+v, does not lie on the page", i, b)
			}
			for k, o := range all[:i] {
				if b.X < o.right()-1e-9 && o.X < b.right()-1e-9 && b.Y < o.bottom()-1e-9 && o.Y < b.bottom()-1e-9 {
					t.Fatalf("boxes %d and %d lie over each other: %+v, %+v", k, i, o, b)
				}
			}
		}
		shown := func(b Box) Box { return b.fit(int(1000*shape), 1000) }
		if shown(p.picture).W <= shown(p.greys).W {
			t.Fatalf("the greys are larger than the picture: %+v, %+v", p.picture, p.greys)
		}
		if p.columns[0].H < 60 {
			t.Fatalf("%g mm are left for the lists", p.columns[0].H)
		}
	})
}

// A page is as large as its size says.
func TestPageSize(t *testing.T) {
	// ISO 216: A4 is 210 mm by 297 mm.
	if got := New(A4, content()).Image(10).Rect.Size(); got != image.Pt(2100, 2970) {
		t.Errorf("A4 has %v pixels at 10 a mm", got)
	}
	if w := Wide.W / Wide.H; math.Abs(w-16.0/9) > 1e-9 {
		t.Errorf("16:9 is %g", w)
	}
}

// scene is an invented picture: a ball in the light of a window, w wide.
func scene(w, h int, colours bool) *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			u, v := (float64(x)-0.5*float64(w))/float64(h), (float64(y)-0.55*float64(h))/float64(h)
			g := 0.75 - 0.3*v
			if d := math.Hypot(u, v); d < 0.3 {
				g = 0.2
				if u+v < 0.1*math.Sin(8*v) {
					g = 0.85 - d
				}
			}
			c := color.RGBA{uint8(255 * g), uint8(255 * g), uint8(255 * g), 255}
			if colours {
				c = color.RGBA{uint8(255 * math.Pow(g, 0.7)), uint8(235 * g), uint8(200 * g * g), 255}
			}
			img.SetRGBA(x, y, c)
		}
	}
	return img
}

// content is a page's worth of everything.
func content() Content {
	var histogram [256]int
	for bin := range histogram {
		histogram[bin] = int(1000 * math.Exp(-math.Pow(float64(bin-70)/20, 2)))
		histogram[bin] += int(3000 * math.Exp(-math.Pow(float64(bin-190)/30, 2)))
	}
	histogram[120] = 2_000_000 // a spike, which is cut
	spot := colour.RGB{R: 230, G: 180, B: 140}
	return Content{
		Title: "Ball by a window", About: "2 January 2026, 10:30 · part of the screen, 600 × 400 pixels",
		Foot:    "Measured as a display with sRGB shows it.",
		Picture: scene(600, 400, true), Greys: scene(300, 200, false), Bands: scene(300, 200, false),
		Histogram: &histogram, Figures: "Mean value 5.9, middle key; groups 3.1 tones apart, murk 4 %",
		Shares: []Share{{0, 51, "dark 31 %"}, {51, 100, "light 69 %"}},
		Families: []FamilyRow{
			{[]colour.RGB{spot, {R: 150, G: 70, B: 60}, {R: 240, G: 80, B: 60}}, []uint8{190, 96, 120}, "2.4 tones: reads", "42 % of the picture; hue shift 21.0° toward red, 40 % more saturated"},
			{[]colour.RGB{{R: 255, G: 255, B: 255}, {R: 190, G: 200, B: 220}}, []uint8{255, 198}, "1.6 tones", ""},
		},
		Notes: []NoteRow{
			{1, nil, 0, "The edge of the cast shadow is as hard far from the ball as beside it; let it grow softer.", "2.5 tones"},
			{2, &spot, 190, "half-tone", "lightness 76.0, value 7.5"},
			{12, nil, 0, "A_word_that_is_longer_than_any_line_can_be_and_so_has_to_be_broken_somewhere", ""},
		},
		Painted: "Painted light of value 7.8; shadow of value 5.3; 2.5 tones apart",
	}
}

// The page looks as it did when somebody looked at it: as in package gui, up to one pixel in
// a hundred may differ by more than 8 of 255.
func TestPageLooks(t *testing.T) {
	for name, size := range map[string]Size{"a4": A4, "wide": Wide} {
		got := New(size, content()).Image(3)
		path := filepath.Join("testdata", name+".png")
		want, err := readPNG(path)
		if err == nil && want.Rect == got.Rect {
			if n := differing(want, got, 8); n*100 <= len(got.Pix)/4 {
				continue
			} else {
				err = image.ErrFormat
				t.Errorf("%s: %d pixels differ", name, n)
			}
		}
		failed := filepath.Join("testdata", "failed", name+".png")
		if err := os.MkdirAll(filepath.Dir(failed), 0o755); err != nil {
			t.Fatal(err)
		}
		var b bytes.Buffer
		if err := png.Encode(&b, got); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(failed, b.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
		t.Errorf("%s is not its master (%v); what was drawn lies in %s", name, err, failed)
	}
}

func readPNG(path string) (*image.RGBA, error) {
	data, err := os.ReadFile(path)
	if err != nil {
		return nil, err
	}
	img, err := png.Decode(bytes.NewReader(data))
	if err != nil {
		return nil, err
	}
	m := image.NewRGBA(img.Bounds())
	draw.Draw(m, m.Rect, img, img.Bounds().Min, draw.Src)
	return m, nil
}

// differing returns how many pixels differ by more than tolerance in a channel.
func differing(a, b *image.RGBA, tolerance int) (n int) {
	for i := 0; i < len(a.Pix); i += 4 {
		for c := range 4 {
			if d := int(a.Pix[i+c]) - int(b.Pix[i+c]); d > tolerance || d < -tolerance {
				n++
				break
			}
		}
	}
	return n
}

// A general PDF reader (poppler) finds one page of the right size, all words as text, and
// shows what is painted: on average, over squares of 4 mm, within 20 of 255. Letters come
// from two rasterizers and pictures are reduced by two methods, so that single pixels differ.
func TestPDFInAnotherReader(t *testing.T) {
	for _, tool := range []string{"pdftoppm", "pdftotext", "pdfinfo"} {
		if _, err := exec.LookPath(tool); err != nil {
			t.Skip(tool + " is not here")
		}
	}
	for name, size := range map[string]Size{"a4": A4, "wide": Wide} {
		page := New(size, content())
		var b bytes.Buffer
		if err := page.PDF(&b, "Ball by a window", time.Date(2026, 1, 2, 10, 30, 0, 0, time.UTC)); err != nil {
			t.Fatal(err)
		}
		path := filepath.Join(t.TempDir(), name+".pdf")
		if err := os.WriteFile(path, b.Bytes(), 0o600); err != nil {
			t.Fatal(err)
		}
		info := output(t, "pdfinfo", path)
		if !strings.Contains(info, "Title:           Ball by a window") || !strings.Contains(info, "Pages:           1") {
			t.Errorf("%s: %s", name, info)
		}
		text := output(t, "pdftotext", "-layout", path, "-")
		for _, want := range []string{"Ball by a window", "2 January 2026, 10:30 · part of the screen, 600 × 400 pixels", "half-tone", "lightness 76.0, value 7.5", "dark 31 %", "hue shift 21.0° toward"} {
			if !strings.Contains(text, want) {
				t.Errorf("%s: %q is not in\n%s", name, want, text)
			}
		}
		const perMM = 4
		output(t, "pdftoppm", "-png", "-r", "101.6", "-singlefile", path, strings.TrimSuffix(path, ".pdf"))
		shown, err := readPNG(strings.TrimSuffix(path, ".pdf") + ".png")
		if err != nil {
			t.Fatal(err)
		}
		painted := page.Image(perMM)
		if d := shown.Rect.Size().Sub(painted.Rect.Size()); d.X < -1 || d.X > 1 || d.Y < -1 || d.Y > 1 {
			t.Fatalf("%s is shown with %v pixels, painted with %v", name, shown.Rect.Size(), painted.Rect.Size())
		}
		if worst, at := farthest(shown, painted, 4*perMM); worst > 20 {
			t.Errorf("%s: at %v the reader shows %.1f of 255 away from what is painted", name, at, worst)
		}
	}
}

// The same pages give the same bytes, whatever pictures they have, of one width or one content.
func TestPDFIsTheSameEveryTime(t *testing.T) {
	c := content()
	c.Greys, c.Bands = image.NewRGBA(image.Rect(0, 0, 40, 30)), image.NewRGBA(image.Rect(0, 0, 40, 30))
	draw.Draw(c.Greys, c.Greys.Rect, image.White, image.Point{}, draw.Src)
	draw.Draw(c.Bands, c.Bands.Rect, image.Black, image.Point{}, draw.Src)
	other := c
	other.Greys, other.Picture = c.Bands, c.Greys
	var first []byte
	for range 20 {
		var b bytes.Buffer
		if err := (Pages{New(A4, c), New(A4, other)}).PDF(&b, "Ball by a window", time.Date(2026, 1, 2, 10, 30, 0, 0, time.UTC)); err != nil {
			t.Fatal(err)
		}
		if first == nil {
			first = b.Bytes()
		} else if !bytes.Equal(first, b.Bytes()) {
			t.Fatal("other bytes")
		}
	}
}

// Borrowed letters are drawn in a PDF file where they are painted, with the text between them: a
// reader (poppler) shows the same page, as above, and finds the rest of the text.
func TestPDFDrawsBorrowedLetters(t *testing.T) {
	for _, tool := range []string{"pdftoppm", "pdftotext"} {
		if _, err := exec.LookPath(tool); err != nil {
			t.Skip(tool + " is not here")
		}
	}
	ink.Borrow(func(r rune, _ bool) (float64, []sfnt.Segment) { // a square with a round side, on the line
		at := func(x, y float64) fixed.Point26_6 {
			return fixed.Point26_6{X: fixed.Int26_6(x * 1024 * 64), Y: fixed.Int26_6(y * 1024 * 64)}
		}
		return 1, []sfnt.Segment{{Op: sfnt.SegmentOpMoveTo, Args: [3]fixed.Point26_6{at(0, 0)}},
			{Op: sfnt.SegmentOpQuadTo, Args: [3]fixed.Point26_6{at(0.5, -0.2), at(0.9, 0)}},
			{Op: sfnt.SegmentOpLineTo, Args: [3]fixed.Point26_6{at(0.9, -0.9)}}, {Op: sfnt.SegmentOpLineTo, Args: [3]fixed.Point26_6{at(0, -0.9)}}}
	})
	t.Cleanup(func() { ink.Borrow(nil) })
	c := content()
	c.Title, c.Figures = "窓辺のボール ball 明暗", strings.Repeat("明度 76.0、値 7.5。", 3)
	page, path := New(A4, c), filepath.Join(t.TempDir(), "sheet.pdf")
	var b bytes.Buffer
	if err := page.PDF(&b, c.Title, time.Date(2026, 1, 2, 10, 30, 0, 0, time.UTC)); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, b.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	if text := output(t, "pdftotext", "-layout", path, "-"); !strings.Contains(text, "ball") || !strings.Contains(text, "76.0") {
		t.Errorf("the text between borrowed letters is not in\n%s", text)
	}
	output(t, "pdftoppm", "-png", "-r", "101.6", "-singlefile", path, strings.TrimSuffix(path, ".pdf"))
	shown, err := readPNG(strings.TrimSuffix(path, ".pdf") + ".png")
	if err != nil {
		t.Fatal(err)
	}
	if worst, at := farthest(shown, page.Image(4), 16); worst > 20 {
		t.Errorf("at %v the reader shows %.1f of 255 away from what is painted", at, worst)
	}
	painted := page.Image(4) // the title's first letters are there at all
	dark := 0
	for x := 4 * 12; x < 4*24; x++ {
		if shown.RGBAAt(x, 4*15).R < 128 && painted.RGBAAt(x, 4*15).R < 128 {
			dark++
		}
	}
	if dark < 30 {
		t.Errorf("of a line through the first letters %d pixels are dark", dark)
	}
}

func output(t *testing.T, name string, args ...string) string {
	t.Helper()
	out, err := exec.Command(name, args...).CombinedOutput()
	if err != nil {
		t.Fatalf("%s: %v\n%s", name, err, out)
	}
	return string(out)
}

// farthest returns the largest difference of the two pictures' means over squares.
func farthest(a, b *image.RGBA, side int) (worst float64, at image.Point) {
	in := a.Rect.Intersect(b.Rect)
	for y := 0; y+side <= in.Max.Y; y += side {
		for x := 0; x+side <= in.Max.X; x += side {
			var sum [3]int
			for v := y; v < y+side; v++ {
				for u := x; u < x+side; u++ {
					p, q := a.RGBAAt(u, v), b.RGBAAt(u, v)
					sum[0] += int(p.R) - int(q.R)
					sum[1] += int(p.G) - int(q.G)
					sum[2] += int(p.B) - int(q.B)
				}
			}
			for _, s := range sum {
				if d := math.Abs(float64(s)) / float64(side*side); d > worst {
					worst, at = d, image.Pt(x, y)
				}
			}
		}
	}
	return worst, at
}

// saidLeft returns how many notes and families a page says to be left.
func saidLeft(p *Page) (notes, families int) {
	for _, i := range p.items {
		w, ok := i.(words)
		if !ok || !strings.HasPrefix(w.text, "and ") {
			continue
		}
		for part := range strings.SplitSeq(w.text, "and ") {
			n, what := 0, ""
			_, _ = fmt.Sscanf(part, "%d more %s", &n, &what) // the first part is empty
			switch {
			case strings.HasPrefix(what, "note"):
				notes = n
			case strings.HasPrefix(what, "local"):
				families = n
			}
		}
	}
	return notes, families
}

// numbersOn returns the numbers of the notes that a page lists.
func numbersOn(p *Page) (numbers []int) {
	for _, i := range p.items {
		if w, ok := i.(words); ok && w.face == ink.Bold && w.size == smallText {
			n, _ := strconv.Atoi(w.text)
			numbers = append(numbers, n)
		}
	}
	return numbers
}

// Families that are not listed are said like those that find no room.
func TestMoreFamilies(t *testing.T) {
	c := content()
	c.FamiliesLeft = 3
	if notes, families := saidLeft(New(A4, c)); notes != 0 || families != 3 {
		t.Errorf("%d and %d are said to be left, want 3 families", notes, families)
	}
}

// Of any notes a page lists the first, in their order, and says how many more there are; nothing
// on it stands outside its margins.
func TestListedAndLeft(t *testing.T) {
	all := content()
	rapid.Check(t, func(t *rapid.T) {
		c := all
		c.Notes, c.Families = nil, c.Families[:rapid.IntRange(0, 2).Draw(t, "families")]
		count, long := rapid.IntRange(0, 90).Draw(t, "notes"), rapid.IntRange(0, 120).Draw(t, "words")
		for i := range count {
			text := strings.Repeat("softer ", rapid.IntRange(0, long).Draw(t, "long"))
			c.Notes = append(c.Notes, NoteRow{i + 1, nil, 0, text, rapid.SampledFrom([]string{"", "2.5 tones"}).Draw(t, "reading")})
		}
		size := rapid.SampledFrom([]Size{A4, Wide}).Draw(t, "size")
		p := New(size, c)
		left, _ := saidLeft(p)
		numbers := numbersOn(p)
		for i, n := range numbers {
			if n != i+1 {
				t.Fatalf("note %d stands at place %d", n, i+1)
			}
		}
		if len(numbers)+left != count {
			t.Fatalf("of %d notes %d are listed and %d said to be left", count, len(numbers), left)
		}
		for _, i := range p.items {
			if w, ok := i.(words); ok && (w.at.Y > size.H-margin+2+1e-9 || w.at.X+ink.Width(w.face, w.text, w.size) > size.W-margin+2) { // half of the spread's last step
				t.Fatalf("%q stands at %v, outside the margins", w.text, w.at)
			}
		}
	})
}

// Where there is room a note is listed in full; where many are long they all are, shortened.
func TestLongNotesAreListed(t *testing.T) {
	c := content()
	text := strings.TrimSpace(strings.Repeat("softer edge here ", 60))
	c.Notes = []NoteRow{{1, nil, 0, text, ""}}
	said := ""
	for _, i := range New(A4, c).items {
		if w, ok := i.(words); ok && w.size == bodyText && (strings.Contains(w.text, "softer") || strings.Contains(w.text, "edge")) {
			said += w.text + " "
		}
	}
	if strings.TrimSpace(said) != text {
		t.Errorf("the list says %q", said)
	}
	for i := range 13 {
		c.Notes = append(c.Notes, NoteRow{i + 2, nil, 0, text, ""})
	}
	c.Families = nil
	if n := len(numbersOn(New(A4, c))); n != len(c.Notes) {
		t.Errorf("of %d long notes %d are listed", len(c.Notes), n)
	}
}

// No sentence of ours is cut on a sheet, however much there is to say of a local colour, nor is a long name.
func TestNothingIsCut(t *testing.T) {
	long := "42 % of the picture; hue shift 121.0° toward magenta, 140 % more saturated; its core-shadow accent #e55149 is " +
		"hue shift 24.0°, 0.1 lighter; blue line #102049, 3.4 tones below; along 14 % of its way the line vanishes"
	c := content()
	c.Title = strings.Repeat("A ball by a window in the evening ", 5) // 170 letters; a name has 200 at most
	c.Figures = strings.Repeat(c.Figures+"; ", 2)
	for i := range c.Families {
		c.Families[i].Text, c.Families[i].Title = long, "12.4 tones: a strong step, and straight toward black"
	}
	c.Painted = strings.Repeat("Painted areas. Light: lightness 78.4, value 7.8, varies by 14.5. ", 4) // however many local colours are left
	for len(c.Families) < 12 {
		c.Families = append(c.Families, c.Families[0])
	}
	for name, size := range map[string]Size{"a4": A4, "wide": Wide} {
		p, all := New(size, c), ""
		for _, item := range p.items {
			if w, ok := item.(words); ok {
				all += w.text + " "
				if strings.HasSuffix(w.text, "…") || w.at.X+ink.Width(w.face, w.text, w.size) > p.Width-margin+2 { // the scale of the spread stands out by half a figure
					t.Errorf("%s: %q ends at %g of %g", name, w.text, w.at.X+ink.Width(w.face, w.text, w.size), p.Width-margin)
				}
			}
		}
		if _, left := saidLeft(p); left == 0 && !strings.Contains(all, "the line vanishes") {
			t.Errorf("%s: the end of a local colour's words is missing", name)
		}
	}
}
