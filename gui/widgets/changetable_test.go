package widgets

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"app.tonedesk/gui/language"
	"app.tonedesk/gui/wording"
)

// The letters of what became of the groups stay nearly as large as they were asked for, in every window
// and size of text.
func TestChangesStayLarge(t *testing.T) {
	for _, percent := range []int{100, 150, 200} {
		inText(t, percent)
		for _, width := range []float32{leastTable, 348} {
			if got := NewChangeTable().smaller(width); got < leastAnswer {
				t.Errorf("%d %%, %g wide: letters of %g of their size", percent, width, got)
			}
		}
	}
}

// Names and figures stay apart, whichever name is the longest in a language.
func TestChangesStayApart(t *testing.T) {
	const apart = 3 // at least: about a blank
	for _, l := range []language.Language{language.English, language.German, language.Spanish} {
		if err := language.Use(l); err != nil {
			t.Fatal(err)
		}
		t.Cleanup(func() { _ = language.Use(language.English) })
		for _, percent := range []int{100, 150, 200} {
			inText(t, percent)
			for width := float32(leastTable); width <= 480; width += 4 {
				table := NewChangeTable()
				var rows []wording.GroupRow
				for _, name := range []string{"light", "light middle", "dark middle", "dark"} {
					rows = append(rows, wording.GroupRow{Name: language.Name(name), Before: "100 %", Now: "100 %", Value: "10.0 → 10.0"})
				}
				table.Set(rows)
				test.WidgetRenderer(table)
				table.Resize(fyne.NewSize(width, 40*Step))
				for i := range table.cells {
					end := float32(-apart)
					for _, cell := range table.cells[i] {
						if x := cell.Position().X; cell.Text != "" && (x < end+apart || x+cell.MinSize().Width > width+0.5) && !(table.stacks(width) && cell == table.cells[i][1]) {
							t.Fatalf("%s, %d %%, %g wide: %q begins at %g, what is before it ends at %g", l, percent, width, cell.Text, x, end)
						}
						end = cell.Position().X + cell.MinSize().Width
					}
				}
			}
		}
	}
}
