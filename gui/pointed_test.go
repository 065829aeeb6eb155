package gui

import (
	"image"
	"testing"

	"fyne.io/fyne/v2/driver/desktop"

	"app.tonedesk/gui/settings"
	"app.tonedesk/gui/widgets"
)

// Pointing at a local colour says in the picture what runs along its edge and its outline, in the
// least window and in large letters too; when the pointer leaves, the words are gone.
func TestPointingAtAFormSaysWhatIsDrawn(t *testing.T) {
	demo := demoPainting(t)
	for _, of := range []struct {
		width, height float32
		percent       int
	}{{380, 760, 100}, {320, 480, 100}, {320, 480, 200}, {380, 760, 200}} {
		s := settings.Defaults()
		s.Page, s.Width, s.Height, s.TextPercent = settings.PageStructure, of.width, of.height, of.percent
		d := newTestDesk(t, s)
		d.see(t, demo)
		d.searchNow(t)
		d.see(t, demo)
		p, ok := d.page().(*structurePage)
		if !ok {
			t.Fatal("the page isn't open")
		}
		for i, row := range p.families.Rows()[:3] { // each has a line
			row.MouseIn(&desktop.MouseEvent{})
			over := d.Mirror.Overlay(widgets.OverlayOutline)
			if over == nil {
				t.Fatalf("%v: row %d outlines nothing", of, i)
			}
			if top, foot := chipsIn(over, image.Rect(0, 0, over.Rect.Dx(), over.Rect.Dy()/2)), chipsIn(over, image.Rect(0, over.Rect.Dy()/2, over.Rect.Dx(), over.Rect.Dy())); !top && !foot {
				t.Errorf("%v: of row %d nothing is said", of, i)
			}
			row.MouseOut()
			if d.Mirror.Overlay(widgets.OverlayOutline) != nil {
				t.Errorf("%v: of row %d something stays", of, i)
			}
		}
	}
}

// chipsIn reports whether words stand in a part of what lies over the mirror: a run of a chip's dark
// ground as long as no line there is wide.
func chipsIn(img *image.RGBA, part image.Rectangle) bool {
	const long = 24 // pixels
	for y := part.Min.Y; y < part.Max.Y; y++ {
		run := 0
		for x := part.Min.X; x < part.Max.X; x++ {
			if c := img.RGBAAt(x, y); c.A > 200 && c.R < 60 {
				if run++; run >= long {
					return true
				}
			} else {
				run = 0
			}
		}
	}
	return false
}
