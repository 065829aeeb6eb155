package export

import (
	"bytes"
	"image"
	"image/draw"
	"image/png"
	"strings"
	"testing"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/families"
	"app.tonedesk/assets"
	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/stills"
	"app.tonedesk/gui/stills/sheet"
	"app.tonedesk/gui/wording"
)

// Only what was found stands behind the sheet's first page: nothing of two greys, the light of the
// demo painting, and how a picture grew where that is known.
func TestMoreParts(t *testing.T) {
	plain := SheetSubject{Title: "Greys", Picture: halfLight(60, 40)}
	plain.Families = families.Find(plain.Picture, nil, families.DefaultRules())
	heads := func(s SheetSubject) (all string) {
		parts, err := moreParts(s)
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range parts {
			all += p.Head + ";"
			for _, said := range p.Say {
				if !strings.HasSuffix(said, ".") {
					t.Errorf("%q has no stop", said)
				}
			}
		}
		return all
	}
	if got := heads(plain); got != "" {
		t.Errorf("of two greys there is %q", got)
	}
	if pages, err := (Export{Page: sheet.A4}).pages(plain); err != nil || len(pages) != 1 {
		t.Errorf("%d pages: %v", len(pages), err)
	}
	plain.Focus = []setup.Place{{At: image.Pt(30, 20)}, {At: image.Pt(5, 5)}}
	if got := heads(plain); got != "Focus: where should the eye go?;" {
		t.Errorf("with marked places there is %q", got)
	}
	plain.Focus = nil
	plain.Grew = &wording.GrowthText{Title: "since 21:40 dark has grown", About: "2 pictures", Lines: []wording.GrowthLine{{Name: "dark", Points: []wording.GrowthPoint{{X: 0}, {X: 1, Y: 1}}, Turn: -1}}}
	if got := heads(plain); got != "How it grew;" {
		t.Errorf("with how it grew there is %q", got)
	}
	if pages, err := (Export{Page: sheet.A4}).pages(plain); err != nil || len(pages) != 2 {
		t.Errorf("%d pages: %v", len(pages), err)
	}
	decoded, err := png.Decode(bytes.NewReader(assets.DemoPNG))
	if err != nil {
		t.Fatal(err)
	}
	img := image.NewRGBA(decoded.Bounds())
	draw.Draw(img, img.Rect, decoded, decoded.Bounds().Min, draw.Src)
	demo := SheetSubject{Title: "Demo", Picture: analysis.Pixels{Pix: img.Pix, Stride: img.Stride, Width: img.Rect.Dx(), Height: img.Rect.Dy()}}
	demo.Families = families.Find(demo.Picture, nil, families.DefaultRules())
	if got := heads(demo); !strings.HasPrefix(got, "Light: do the shadows agree?;") {
		t.Errorf("of the demo painting there is %q", got)
	}
}

// The part on focus says whether the strongest contrast, of which there is none but at one border,
// lies where the eye should go, and draws round both.
func TestFocusPart(t *testing.T) {
	p := halfLight(200, 100) // the border stands in the middle
	paper, err := stills.OnPaper(p)
	if err != nil {
		t.Fatal(err)
	}
	for said, x := range map[string]int{"lies where you want it": 100, "lies elsewhere": 20} {
		part, ok := focusPart(SheetSubject{Picture: p, Focus: []setup.Place{{At: image.Pt(x, 50)}}}, paper)
		if !ok || !strings.Contains(part.Say[0], said) {
			t.Fatalf("marked at %d: %q", x, part.Say)
		}
		drawn := func(x int) bool { // in a column of the picture, 0 to 200, whose greys are 200 and 80
			size := part.Picture.Rect.Size()
			for y := range size.Y {
				if grey := part.Picture.RGBAAt(x*size.X/p.Width, y).R; grey > 220 || grey < 60 {
					return true
				}
			}
			return false
		}
		if !drawn(x) || !drawn(100) || drawn(60) {
			t.Errorf("marked at %d: drawn there %v, at the border %v, between %v", x, drawn(x), drawn(100), drawn(60))
		}
	}
	if _, ok := focusPart(SheetSubject{Picture: p}, paper); ok {
		t.Error("there is a part where nothing is marked")
	}
}
