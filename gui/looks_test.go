package gui

import (
	"image"
	"image/draw"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"

	"app.tonedesk/analysis"
	"app.tonedesk/lawtest"
)

// Sentence, cards and spread with all that they can show, in the widths they have in a
// window 380 and 320 wide, the second at two pixels a unit.
func TestPartsLook(t *testing.T) {
	lawtest.SkipRaced(t)
	for _, tt := range []struct {
		name         string
		ground       Ground
		width, scale float32
	}{
		{"parts_dark_380", GroundDark, 364, 1},
		{"parts_middle_320", GroundMiddle, 304, 2},
	} {
		t.Run(tt.name, func(t *testing.T) {
			app := test.NewTempApp(t)
			app.Settings().SetTheme(NewTheme(tt.ground))
			skin := analysis.SpotOf(analysis.RGB{R: 226, G: 171, B: 133})
			shadow := analysis.SpotOf(analysis.RGB{R: 178, G: 106, B: 92})
			shadow.OnEdge = true
			first, second := NewVerdict(), NewVerdict()
			first.Set(SayPair(analysis.Compare(skin, shadow, 2), "A", "B"))
			alike := SayPair(pairOf(60, 60, 2), "A", "B")
			alike.Remark = sayRemark(analysis.ShowsDifference)
			second.Set(alike)
			cards, spread := NewCardGrid(CardActs{}), NewSpread(SpreadActs{})
			cards.Set([]CardText{
				SayCard("A", skin, SpotState{Selected: true}), SayCard("B", shadow, SpotState{}),
				SayCard("C", analysis.SpotOf(analysis.RGB{B: 255}), SpotState{}), SayLostCard("D", false),
			})
			spread.Set(scene())
			w := test.NewTempWindow(t, container.NewVBox(first, second, cards, spread))
			w.SetPadded(false)
			w.Canvas().(test.WindowlessCanvas).SetScale(tt.scale)
			w.Resize(fyne.NewSize(tt.width, 700))
			w.Resize(fyne.NewSize(tt.width, w.Content().MinSize().Height)) // the cards know their width now
			assertPicture(t, tt.name, w.Canvas().Capture())
		})
	}
}

// The pages in a narrow window, over a picture that has a form in it.
func TestPagesLook(t *testing.T) {
	lawtest.SkipRaced(t)
	for _, page := range []string{structureName, coloursName, stillsName} {
		t.Run(page, func(t *testing.T) {
			s := Defaults()
			s.Page, s.Height = page, 900
			d := newTestDesk(t, s)
			d.see(t, form())
			if page == structureName {
				d.searchNow(t)
			}
			d.parts.mirror.press(image.Pt(150, 150), 0)
			d.parts.mirror.press(image.Pt(270, 150), 0)
			d.parts.mirror.MouseOut()
			d.see(t, form())
			d.see(t, form())
			d.window.Canvas().Unfocus()
			assertPicture(t, "page_"+strings.ToLower(page)+"_380", d.window.Canvas().Capture())
		})
	}
}

// Notes over the mirror, one of them selected.
func TestNotesLook(t *testing.T) {
	lawtest.SkipRaced(t)
	s := Defaults()
	s.Width, s.Height = 600, 900
	d := newTestDesk(t, s)
	openNewStill(t, d, form())
	m := d.parts.mirror
	d.setTool(2)
	m.drag(image.Pt(40, 40), image.Pt(120, 90))
	d.setTool(7)
	m.drag(image.Pt(120, 120), image.Pt(120, 200))
	d.setTool(8)
	m.drag(image.Pt(270, 110), image.Pt(270, 190))
	d.setTool(4)
	m.drag(image.Pt(60, 200), image.Pt(340, 280))
	m.MouseOut()
	d.see(t, form())
	d.window.Canvas().Unfocus()
	whole := d.window.Canvas().Capture()
	at := d.app.Driver().AbsolutePositionForObject(m).Add(m.fit.Pos)
	box := image.Rect(int(at.X), int(at.Y), int(at.X+m.fit.Size.Width), int(at.Y+m.fit.Size.Height))
	picture := image.NewNRGBA(image.Rectangle{Max: box.Size()})
	draw.Draw(picture, picture.Rect, whole, box.Min, draw.Src)
	assertPicture(t, "still_notes", picture)
}
