package widgets

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"

	"app.tonedesk/gui/language"
	"app.tonedesk/gui/wording"
)

// mostChanges is how many groups a picture has at most.
const mostChanges = 4

// changeColumns is how many columns the table has: group, before, now, value.
const changeColumns = 4

// ChangeTable shows what became of each group: its share before and now, and its value. In large text
// each name stands over its figures.
type ChangeTable struct {
	drawn
	rows  []wording.GroupRow
	cells [1 + mostChanges][changeColumns]*canvas.Text
}

// NewChangeTable returns a table of no groups.
func NewChangeTable() *ChangeTable {
	t := &ChangeTable{}
	for i := range t.cells {
		for k := range t.cells[i] {
			size := TextSize
			if i == 0 {
				size = SmallSize
			}
			t.cells[i][k] = t.addText(size, fyne.TextStyle{})
		}
	}
	t.draw(t)
	return t
}

// Set shows groups, the lightest first.
func (t *ChangeTable) Set(rows []wording.GroupRow) {
	t.rows = rows
	t.redraw()
}

// Rows are those that are shown.
func (t *ChangeTable) Rows() []wording.GroupRow { return t.rows }

// words are what stands in a row, the first of which heads the columns.
func (t *ChangeTable) words(i int) [changeColumns]string {
	if i == 0 {
		return [changeColumns]string{"", language.Say("before"), language.Say("now"), language.Say("value")}
	}
	r := nth(t.rows, i-1)
	return [changeColumns]string{r.Name, r.Before, r.Now, r.Value}
}

func (t *ChangeTable) write(size fyne.Size, of colours) {
	for i := range t.cells {
		ink, plain := theme.ColorNameForeground, TextSize()
		if i == 0 {
			ink, plain = ColorNameQuiet, SmallSize()
		}
		for k, words := range t.words(i) {
			cell := t.cells[i][k]
			cell.TextSize = plain * t.smaller(size.Width)
			say(cell, words, of(ink))
		}
	}
}

// The widest that may stand in each column; which of the names it is depends on the language.
var changeWidest = [changeColumns][]language.Words{{"dark middle", "light middle"}, {"100 %"}, {"100 %"}, {"10.0 → 10.0"}}

// widestOf is the width of the widest of such words, in letters of a part of their size.
func widestOf(words []language.Words, letters float32) (wide float32) {
	for _, w := range words {
		wide = max(wide, fyne.MeasureText(w.String(), TextSize()*letters, fyne.TextStyle{}).Width)
	}
	return wide
}

// smaller is by how much the letters are to be smaller than plain so that a width takes the columns.
func (t *ChangeTable) smaller(width float32) float32 {
	if t.stacks(width) {
		return lettersFor(width, changeWidest[1:])
	}
	return lettersFor(width, changeWidest[:])
}

// stacks reports whether the names stand over their figures: beside them the letters would be too small.
func (t *ChangeTable) stacks(width float32) bool {
	return lettersFor(width, changeWidest[:]) < leastAnswer
}

// lettersFor is the part of their size, 1 at most, in which columns of such words fit into a width.
func lettersFor(width float32, columns [][]language.Words) float32 {
	need := float32(0)
	for _, words := range columns {
		need += widestOf(words, 1) + Step
	}
	return min(1, max(width, 1)/need)
}

// changeRights returns the right edges of the figures' columns in a table of a width, whose columns
// need so much each.
func changeRights(width float32, need [changeColumns]float32) (right [changeColumns]float32) {
	spare := width
	for _, w := range need {
		spare -= w
	}
	gap := min(max(spare/3, Step/2), 5*Step)
	right[3] = width
	right[2] = right[3] - need[3] - gap
	right[1] = right[2] - need[2] - gap
	return right
}

func (t *ChangeTable) place(size fyne.Size) {
	var need [changeColumns]float32
	for k, words := range changeWidest {
		need[k] = widestOf(words, t.smaller(size.Width))
	}
	stacks := t.stacks(size.Width)
	if stacks {
		need[0] = 0
	}
	right, high := changeRights(size.Width, need), t.line()
	for i := range t.cells {
		line := float32(i)
		if stacks && i > 0 {
			line = float32(2*i - 1)
		}
		for k, cell := range t.cells[i] {
			x, y := float32(0), line
			if k > 0 {
				x = right[k] - cell.MinSize().Width
			}
			if k > 0 && stacks && i > 0 {
				y++
			}
			placeText(cell, round(x), round(y*high))
		}
	}
}

// line is the height of a row.
func (t *ChangeTable) line() float32 { return t.cells[1][0].MinSize().Height + 1 }

// leastTable is the table's width in the narrowest window.
const leastTable = 36 * Step

// minSize is as high as its lines in the width of now.
func (t *ChangeTable) minSize() fyne.Size {
	lines := 1 + len(t.rows)
	if t.stacks(max(t.Size().Width, leastTable)) {
		lines += len(t.rows)
	}
	return fyne.NewSize(30*Step, round(t.line()*float32(lines)))
}
