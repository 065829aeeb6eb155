package gui

import (
	"image"
	"image/draw"
	"strings"
	"testing"

	"app.tonedesk/analysis/lawtest"
	"app.tonedesk/gui/guitest"
	"app.tonedesk/gui/settings"
)

// The pages in a narrow window, over a picture that has a form in it.
func TestPagesLook(t *testing.T) {
	lawtest.SkipRaced(t)
	for _, page := range []string{settings.PageStructure, settings.PageColours, settings.PageStills} {
		t.Run(page, func(t *testing.T) {
			s := settings.Defaults()
			s.Page, s.Height = page, 900
			d := newTestDesk(t, s)
			d.see(t, form())
			if page == settings.PageStructure {
				d.searchNow(t)
			}
			press(d.Mirror, image.Pt(150, 150), 0)
			press(d.Mirror, image.Pt(270, 150), 0)
			d.Mirror.MouseOut()
			d.see(t, form())
			d.see(t, form())
			d.Window.Canvas().Unfocus()
			guitest.AssertPicture(t, "page_"+strings.ToLower(page)+"_380", d.Window.Canvas().Capture())
		})
	}
}

// Notes over the mirror, one of them selected.
func TestNotesLook(t *testing.T) {
	lawtest.SkipRaced(t)
	s := settings.Defaults()
	s.Width, s.Height = 600, 900
	d := newTestDesk(t, s)
	openNewStill(t, d, form())
	m := d.Mirror
	d.marker.setTool(2)
	drag(m, image.Pt(40, 40), image.Pt(120, 90))
	d.marker.setTool(7)
	drag(m, image.Pt(120, 120), image.Pt(120, 200))
	d.marker.setTool(8)
	drag(m, image.Pt(270, 110), image.Pt(270, 190))
	d.marker.setTool(4)
	drag(m, image.Pt(60, 200), image.Pt(340, 280))
	m.MouseOut()
	d.see(t, form())
	d.Window.Canvas().Unfocus()
	whole := d.Window.Canvas().Capture()
	at := d.App.Driver().AbsolutePositionForObject(m).Add(m.Fit().Pos)
	box := image.Rect(int(at.X), int(at.Y), int(at.X+m.Fit().Size.Width), int(at.Y+m.Fit().Size.Height))
	picture := image.NewNRGBA(image.Rectangle{Max: box.Size()})
	draw.Draw(picture, picture.Rect, whole, box.Min, draw.Src)
	guitest.AssertPicture(t, "still_notes", picture)
}
