package widgets

import "testing"

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
