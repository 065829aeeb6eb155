package keeping

import (
	"testing"

	"app.tonedesk/gui/icons"
	"app.tonedesk/gui/stills/ink"
	"app.tonedesk/gui/stills/notes"
)

// Every note has a row with its number as on the picture, but what is painted without words: that
// is one row a side, and a tap on it selects what was painted last.
func TestRowsOfNotes(t *testing.T) {
	area := func(side notes.Side) notes.Shape {
		return notes.Area{Side: side, Points: []ink.Point{ink.Pt(5, 5)}, Width: 4}
	}
	arrow := notes.New(notes.Arrow{To: ink.Pt(9, 9), Width: 1}, "sharpest\nedge")
	box := notes.New(notes.Box{To: ink.Pt(9, 9), Width: 1}, "")
	light, shadow, more := notes.New(area(notes.Light), ""), notes.New(area(notes.Shadow), ""), notes.New(area(notes.Shadow), "")
	said := notes.New(area(notes.Shadow), "toward orange")
	for name, tt := range map[string]struct {
		list     []notes.Note
		selected string
		want     []noteRow
	}{
		"none": {},
		"a number for words": {list: []notes.Note{box, arrow}, selected: arrow.ID, want: []noteRow{
			rowWith(box.ID, "", icons.Box, "Box", true, false), rowWith(arrow.ID, "1", icons.Arrow, "sharpest edge", false, true),
		}},
		"a row a side": {list: []notes.Note{light, shadow, arrow, more}, selected: shadow.ID, want: []noteRow{
			rowWith(light.ID, "", icons.Light, "Light", true, false), rowWith(more.ID, "", icons.Shadow, "Shadow", true, true), rowWith(arrow.ID, "1", icons.Arrow, "sharpest edge", false, false),
		}},
		"words of their own": {list: []notes.Note{shadow, said}, want: []noteRow{
			rowWith(shadow.ID, "", icons.Shadow, "Shadow", true, false), rowWith(said.ID, "1", icons.Shadow, "toward orange", false, false),
		}},
	} {
		got := rowsOf(tt.list, notes.Measured{}, tt.selected, false)
		if len(got) != len(tt.want) {
			t.Errorf("%s: %+v", name, got)
			continue
		}
		for i, row := range got {
			if row != tt.want[i] {
				t.Errorf("%s: row %d is %+v, want %+v", name, i, row, tt.want[i])
			}
		}
	}
}

func rowWith(id, number string, icon icons.Name, words string, quiet, selected bool) (r noteRow) {
	r.id = id
	r.text.Number, r.text.Icon, r.text.Words, r.text.Quiet, r.text.Selected = number, icon, words, quiet, selected
	return r
}
