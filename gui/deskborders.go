package gui

import "app.tonedesk/gui/language"

// borderMoved sets the groups' borders by hand, as the spread shows them, with border i at a
// lightness (L*). The moves of one drag are one step of undo.
func (d *Desk) borderMoved(i int, to float64, end bool) {
	borders := d.parts.spread.Borders()
	if i >= len(borders) {
		return
	}
	borders[i] = to
	next := d.setup
	next.Borders = borders
	d.change(next, "border")
	if end {
		d.history.Settle()
	}
}

// bordersAutomatic lets the borders be found by themselves again.
func (d *Desk) bordersAutomatic() {
	if len(d.setup.Borders) == 0 {
		d.Messages.Note(language.Say("The borders are found by themselves already"))
		return
	}
	next := d.setup
	next.Borders = nil
	d.change(next, "")
}

// setGroups asks for a number of groups, 0 for as many as the picture needs, with borders
// that are found by themselves.
func (d *Desk) setGroups(n int) {
	if len(d.setup.Borders) > 0 {
		d.bordersAutomatic()
	}
	d.settings.Groups = n
	d.settled()
}
