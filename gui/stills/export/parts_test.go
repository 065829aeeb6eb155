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
