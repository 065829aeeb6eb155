package sheet

import (
	"bytes"
	"image"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"app.tonedesk/analysis/colour"
)

// someParts are parts by chance.
func someParts(t *rapid.T) (parts []Part) {
	for range rapid.IntRange(0, 5).Draw(t, "parts") {
		part := Part{Head: "Light", Name: "Where it goes"}
		for range rapid.IntRange(1, 12).Draw(t, "sentences") {
			part.Say = append(part.Say, strings.Repeat("The shadow lies two tones below. ", rapid.IntRange(1, 8).Draw(t, "long")))
		}
		if rapid.Bool().Draw(t, "picture") {
			part.Picture = image.NewRGBA(image.Rect(0, 0, rapid.IntRange(1, 60).Draw(t, "w"), rapid.IntRange(1, 60).Draw(t, "h")))
		}
		for range rapid.IntRange(0, 7).Draw(t, "rows") {
			part.Rows = append(part.Rows, FamilyRow{Colours: make([]colour.RGB, 3), Greys: make([]uint8, 3), Title: "#e2ab85 disagrees", Text: "light, shadow, and another shadow"})
		}
		for range rapid.IntRange(0, 30).Draw(t, "charts") {
			part.Charts = append(part.Charts, Chart{Name: "dark middle to light middle", First: "2.0", Last: "2.2 tones", Turn: rapid.IntRange(-1, 2).Draw(t, "turn"),
				Points: []ChartPoint{{X: 0, Y: 1}, {X: 0.4, Y: 0}, {X: 1, Y: 0.5, Gap: rapid.Bool().Draw(t, "gap")}}})
		}
		parts = append(parts, part)
	}
	return parts
}

// Whatever was found, all of it stands on the pages, inside their margins, and every head and every
// chart once.
func TestMore(t *testing.T) {
	for _, size := range []Size{A4, Wide} {
		rapid.Check(t, func(t *rapid.T) {
			parts := someParts(t)
			pages := More(size, content(), parts)
			if (len(pages) == 0) != (len(parts) == 0) {
				t.Fatalf("%d pages for %d parts", len(pages), len(parts))
			}
			heads, charts, want := 0, 0, 0
			for n, p := range pages {
				first := ""
				for _, i := range p.items {
					if w, ok := i.(words); ok && (w.text == "Light" || w.text == "Light, continued" || w.text == "2.2 tones") && first == "" {
						first = w.text
					}
					switch i := i.(type) {
					case words:
						if i.text == "Light" {
							heads++
						}
						if i.text == "2.2 tones" {
							charts++
						}
						if i.at.X < margin-0.1 || i.at.Y > size.H-margin+2.1 {
							t.Errorf("%q lies at %v", i.text, i.at)
						}
					case picture:
						if i.box.right() > size.W-margin+0.1 || i.box.bottom() > size.H-margin+0.1 {
							t.Errorf("a picture lies in %v", i.box)
						}
					case fill:
						if i.box.right() > size.W-margin+0.1 || i.box.bottom() > size.H-margin+0.1 {
							t.Errorf("a swatch lies in %v", i.box)
						}
					}
				}
				if first == "2.2 tones" {
					t.Errorf("page %d begins without a head", n)
				}
			}
			for _, part := range parts {
				want += len(part.Charts)
			}
			if heads != len(parts) || charts != want {
				t.Errorf("%d heads of %d, %d charts of %d", heads, len(parts), charts, want)
			}
		})
	}
}

// Pages make one PDF file and one picture, below each other; a page alone is what it was.
func TestPages(t *testing.T) {
	first := New(A4, content())
	more := More(A4, content(), []Part{{Head: "Light", Say: []string{"One light."}}})
	pages := append(Pages{first}, more...)
	img := pages.Image(2)
	if img.Rect != image.Rect(0, 0, 420, 1188) {
		t.Errorf("painted in %v", img.Rect)
	}
	if alone := first.Image(2); differing(alone, img.SubImage(alone.Rect).(*image.RGBA), 0) > 0 {
		t.Error("the first page is another one beside more")
	}
	var b bytes.Buffer
	if err := pages.PDF(&b, "Ball", time.Date(2026, 1, 2, 10, 30, 0, 0, time.UTC)); err != nil {
		t.Fatal(err)
	}
	if n := bytes.Count(b.Bytes(), []byte("/Type /Page\n")); n != 2 {
		t.Errorf("%d pages in the file", n)
	}
}
