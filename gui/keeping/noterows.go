package keeping

import (
	"strconv"
	"strings"

	"app.tonedesk/gui/icons"
	"app.tonedesk/gui/stills/notes"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// noteRow is a note in the list.
type noteRow struct {
	id   string // of the note that a tap selects
	text widgets.NoteText
}

// IconOf is the pictogram of a kind of note, that of its tool; "" for one we don't know.
func IconOf(shape notes.Shape) icons.Name {
	switch s := shape.(type) {
	case notes.Stroke:
		return icons.Stroke
	case notes.Arrow:
		return icons.Arrow
	case notes.Ring:
		return icons.Ring
	case notes.Box:
		return icons.Box
	case notes.Label:
		return icons.Label
	case notes.Spot:
		return icons.Spot
	case notes.Area:
		if s.Side == notes.Shadow {
			return icons.Shadow
		}
		return icons.Light
	}
	return ""
}

// rowsOf lists notes as the list shows them. All that is painted as one side is one area, so what
// is painted without words shares a row with the rest of its side.
func rowsOf(list []notes.Note, measured notes.Measured, selected string, fromWhite bool) (rows []noteRow) {
	numbers, side := notes.Numbers(list), map[notes.Side]int{}
	for i, n := range list {
		if !n.Known() {
			continue
		}
		row := noteRow{n.ID, widgets.NoteText{
			Icon: IconOf(n.Shape), Words: strings.ReplaceAll(n.Text, "\n", " "),
			Reading: wording.SayReading(n.Shape, measured, fromWhite), Selected: n.ID == selected,
		}}
		if numbers[i] > 0 {
			row.text.Number = strconv.Itoa(numbers[i])
		}
		if n.Text == "" {
			row.text.Words, row.text.Quiet = wording.ToolName(string(row.text.Icon)), true
		}
		if a, ok := n.Shape.(notes.Area); ok && n.Text == "" {
			if at, there := side[a.Side]; there {
				row.text.Selected = row.text.Selected || rows[at].text.Selected
				rows[at] = row
				continue
			}
			side[a.Side] = len(rows)
		}
		rows = append(rows, row)
	}
	return rows
}
