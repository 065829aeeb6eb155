package widgets

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/gui/guitest"
	"app.tonedesk/gui/settings"
	"app.tonedesk/gui/wording"
)

// Sentence, cards and spread with all that they can show, in the widths they have in a
// window 380 and 320 wide, the second at two pixels a unit.
func TestPartsLook(t *testing.T) {
	for _, tt := range []struct {
		name         string
		ground       settings.Ground
		width, scale float32
	}{
		{"parts_dark_380", settings.GroundDark, 364, 1},
		{"parts_middle_320", settings.GroundMiddle, 304, 2},
	} {
		t.Run(tt.name, func(t *testing.T) {
			app := test.NewTempApp(t)
			app.Settings().SetTheme(NewTheme(tt.ground))
			skin := analysis.SpotOf(colour.RGB{R: 226, G: 171, B: 133})
			shadow := analysis.SpotOf(colour.RGB{R: 178, G: 106, B: 92})
			shadow.OnEdge = true
			first, second := NewVerdict(), NewVerdict()
			first.Set(wording.SayPair(analysis.Compare(skin, shadow, 2), "A", "B"))
			alike := wording.SayPair(pairOf(60, 60, 2), "A", "B")
			alike.Remark = wording.SayRemark(analysis.ShowsDifference)
			second.Set(alike)
			cards, spread := NewCardGrid(CardActs{}), NewSpread(SpreadActs{})
			cards.Set([]wording.CardText{
				wording.SayCard("A", skin, wording.SpotState{Selected: true}), wording.SayCard("B", shadow, wording.SpotState{}),
				wording.SayCard("C", analysis.SpotOf(colour.RGB{B: 255}), wording.SpotState{}), wording.SayLostCard("D", false),
			})
			spread.Set(scene())
			w := test.NewTempWindow(t, container.NewVBox(first, second, cards, spread))
			w.SetPadded(false)
			w.Canvas().(test.WindowlessCanvas).SetScale(tt.scale)
			w.Resize(fyne.NewSize(tt.width, 700))
			w.Resize(fyne.NewSize(tt.width, w.Content().MinSize().Height)) // the cards know their width now
			guitest.AssertPicture(t, tt.name, w.Canvas().Capture())
		})
	}
}
