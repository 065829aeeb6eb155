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
	"slices"
	"strings"
	"testing"
	"time"

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

// Lines are no wider than they may be, say all that was said, and are no more than allowed.
func TestWrap(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringMatching(`[a-zäß ]{0,60}`).Draw(t, "text")
		width := rapid.Float64Range(8, 60).Draw(t, "width")
		most := rapid.IntRange(1, 30).Draw(t, "most")
		lines := wrap(text, bodyText, width, most)
		if len(lines) > most {
			t.Fatalf("%d lines, %d are allowed", len(lines), most)
		}
		for _, line := range lines {
			if ink.Width(ink.Regular, line, bodyText) > width+1e-9 {
				t.Fatalf("%q is wider than %g", line, width)
			}
		}
		bare := func(s string) string { return strings.Join(strings.Fields(s), "") }
		if all := bare(strings.Join(lines, "")); all != bare(text) && !strings.HasSuffix(all, "…") {
			t.Fatalf("%q becomes %q", text, lines)
		}
	})
	if got := wrap("one\ntwo", bodyText, 50, 9); len(got) != 2 || got[1] != "two" {
		t.Errorf("%q", got)
	}
	// No line ends at a space that forbids it (Unicode, UAX 14, class GL).
	for _, space := range []string{"\u00a0", "\u202f", "\u2007"} {
		text := "apart by 12.5" + space + "tones"
		for width := 20.0; width < 60; width++ {
			whole := slices.ContainsFunc(wrap(text, bodyText, width, 9), func(line string) bool {
				return strings.HasSuffix(line, ink.Shown("12.5"+space+"tones"))
			})
			if !whole && ink.Width(ink.Regular, "12.5"+space+"tones", bodyText) <= width {
				t.Errorf("%+q in %g mm: %q", text, width, wrap(text, bodyText, width, 9))
			}
		}
	}
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
			{1, nil, 0, "The edge of the cast shadow is as hard far from the ball as beside it; let it grow softer."},
			{2, &spot, 190, "lightness 76.0, value 7.5: half-tone"},
			{12, nil, 0, "A_word_that_is_longer_than_any_line_can_be_and_so_has_to_be_broken_somewhere"},
			{0, nil, 0, "Painted light of value 7.8; shadow of value 5.3; 2.5 tones apart"},
		},
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
		for _, want := range []string{"Ball by a window", "2 January 2026, 10:30 · part of the screen, 600 × 400 pixels", "lightness 76.0, value 7.5: half-tone", "dark 31 %", "hue shift 21.0° toward"} {
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

// saidLeft returns how many rows a page says to be left.
func saidLeft(p *Page) (left int) {
	for _, i := range p.items {
		if w, ok := i.(words); ok {
			_, _ = fmt.Sscanf(w.text, "and %d more", &left) // most words say something else
		}
	}
	return left
}

// Families that are not listed are said like those that find no room.
func TestMoreFamilies(t *testing.T) {
	c := content()
	c.FamiliesLeft = 3
	if said := saidLeft(New(A4, c)); said != 3 {
		t.Errorf("%d are said to be left, want 3", said)
	}
}

// More notes than there is room for: what is left is said, and the page stays whole.
func TestTooMuchForOnePage(t *testing.T) {
	c := content()
	for range 300 {
		c.Notes = append(c.Notes, NoteRow{5, nil, 0, "another word on this"})
	}
	p := New(A4, c)
	if said := saidLeft(p); said < 100 || said >= len(c.Notes)+len(c.Families) {
		t.Errorf("%d are said to be left", said)
	}
	for _, i := range p.items {
		if w, ok := i.(words); ok && w.at.Y > A4.H-margin+2+1e-9 {
			t.Fatalf("%q stands below the page", w.text)
		}
	}
}
