package widgets

import (
	"fmt"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"app.tonedesk/gui/icons"
)

// An offer covers no chip, shows all of its words and stays above the tabs, in every window and size of
// text.
func TestOfferLeavesChipsSeen(t *testing.T) {
	const question = "A plain frame, 29 % of the region. Leave it out?" // the longest words are of the spec's own example
	for _, percent := range []int{100, 150, 200} {
		for _, size := range []fyne.Size{{Width: 320, Height: 480}, {Width: 320, Height: 760}, {Width: 380, Height: 760}, {Width: 1100, Height: 760}} {
			for chips := range MostChips + 1 {
				t.Run(fmt.Sprintf("%g x %g, %d %%, %d chips", size.Width, size.Height, percent, chips), func(t *testing.T) {
					inText(t, percent)
					page := Page{proportion: plainProportion}
					rows := pageRowsFor(formOf(size, textScale()), plainProportion, 2)
					at, below := page.said(rows, size)
					m := NewMessages(&heardKeys{}, nil)
					test.WidgetRenderer(m)
					m.chipsIn = rows.mirror.w
					m.setBelow(below)
					m.Resize(at.size())
					states := []Message{{Icon: icons.Warning, Words: "Picture moved"}, {Icon: icons.Freeze, Words: "Frozen 0:42"}}[:chips]
					m.Set(states, Message{Words: question, Acts: []MessageAct{{Name: "Leave it out"}, {Name: "Count it"}}}, Message{})
					top, foot := m.offer.Position().Y, m.offer.Position().Y+m.offer.Size().Height
					for i, chip := range m.chips[:chips] {
						if end := chip.Position().Y + chip.Size().Height; end > top {
							t.Errorf("chip %d ends at %g, the offer begins at %g", i, end, top)
						}
					}
					if end := at.y + foot; end > rows.lower.bottom() && end > rows.mirror.bottom() {
						t.Errorf("the offer ends at %g, the page at %g", end, rows.lower.bottom())
					}
					if seen, all := m.offer.scroll.Size().Height, m.offer.wordsHeight(); seen < all-1 {
						t.Errorf("%g of %g of the words are seen", seen, all)
					}
				})
			}
		}
	}
}
