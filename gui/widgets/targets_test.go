package widgets

import (
	"fmt"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"app.tonedesk/analysis"
	"app.tonedesk/gui/wording"
)

// extents are the sides of what a press means, as asked every half unit across a widget: where it
// begins and ends in each direction along lines through one of its points.
func extents(size fyne.Size, through fyne.Position, means func(at fyne.Position) bool) (width, height float32) {
	const step = 0.5
	for x := float32(0); x < size.Width; x += step {
		if means(fyne.NewPos(x, through.Y)) {
			width += step
		}
	}
	for y := float32(0); y < size.Height; y += step {
		if means(fyne.NewPos(through.X, y)) {
			height += step
		}
	}
	return width, height
}

// Where a widget has several targets, each is large enough for a pen: 32 in both directions. A spot's mark
// on the picture is not: it is taken hold of within 11 of its middle at most, since a press beside it is to
// measure what lies there, and the arrow keys move the spot too (our choice).
func TestPartsAreLargeEnough(t *testing.T) {
	test.NewTempApp(t).Settings().SetTheme(NewTheme("dark", 100))
	check := func(what string, width, height float32) {
		t.Helper()
		if width < 32 || height < 32 {
			t.Errorf("%s is %g x %g", what, width, height)
		}
	}
	for _, page := range []float32{364, 304} {
		row := newSpotRow(0, SpotActs{})
		row.set(wording.SpotText{Name: "A", Hex: "#dddddd"}, true, true)
		w := test.NewTempWindow(t, row)
		w.SetPadded(false)
		row.Resize(fyne.NewSize(page, Row()))
		p := planTable(page, 1, plainWidth)
		for what, at := range map[rowPart]float32{rowItself: 40, rowHex: p.hex + 2, rowCross: p.cross + 2} {
			if what == rowHex && p.hex == 0 {
				continue
			}
			width, height := extents(row.Size(), fyne.NewPos(at, 16), func(at fyne.Position) bool { return row.partAt(at) == what })
			check(fmt.Sprintf("part %d of a row in %g", what, page), width, height)
		}
		for _, low := range []bool{false, true} {
			plan := planPair(page, 1, low, plainWidth)
			side := newPairSide(0, SpotActs{})
			side.set(wording.SpotText{Name: "A", Hex: "#dddddd"}, plan)
			side.Resize(fyne.NewSize(plan.column, plan.foot))
			width, height := extents(side.Size(), fyne.NewPos(plan.column/2, plan.codeMiddle), side.onCode)
			check(fmt.Sprintf("a code in %g, low %v", page, low), width, height)
			width, height = extents(side.Size(), fyne.NewPos(plan.column/2, plan.top+2), func(at fyne.Position) bool { return !side.onCode(at) })
			check(fmt.Sprintf("a spot in %g, low %v", page, low), width, height)
		}
		spread := NewSpread(SpreadActs{})
		spread.Resize(fyne.NewSize(page, spreadLeast()))
		spread.Set(SpreadState{Groups: []analysis.Group{{From: 0, To: 40}, {From: 40, To: 100}}})
		width, _ := extents(spread.Size(), fyne.NewPos(0, 40), func(at fyne.Position) bool { return spread.borderAt(at.X) == 0 })
		check("a border", width, spread.Size().Height)
	}
	check("the grip of the dividing line", gripTarget, gripTarget)
}
