package gui

import (
	"image"
	"slices"
	"strconv"

	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/widgets"
)

// addFamily begins a family set by hand: the next click is its light side, the one after it
// its shadow side.
func (d *Desk) addFamily() {
	if len(d.setup.Families) == setup.MaxHandFamilies {
		d.parts.strip.Say(widgets.MessageNote, "Six families set by hand are the most. Take one away first.")
		return
	}
	d.ask(askLight)
}

// familyClicked takes a click, or an area dragged over, as a side of a new family.
func (d *Desk) familyClicked(p setup.Place) {
	if d.asking == askLight {
		d.half = p
		d.ask(askShadow)
		return
	}
	d.ask(askNothing)
	d.change(d.setup.WithFamily(setup.Family{Light: d.half, Shadow: p}), "")
}

// deleteFamily takes a family set by hand away.
func (d *Desk) deleteFamily(i int) {
	if i >= 0 && i < len(d.setup.Families) {
		d.change(d.setup.WithoutFamily(i), "")
	}
}

// sideMark is how the mirror shows a place of family i set by hand, the first or the second;
// turned says that they have changed sides.
func sideMark(f setup.Family, i int, second, turned bool) widgets.Mark {
	p, side := f.Light, "light"
	if second {
		p = f.Shadow
	}
	if second != turned {
		side = "shadow"
	}
	return widgets.Mark{Name: side + strconv.Itoa(i+1), At: p.At, Area: p.Area, Moved: p.Moved}
}

// carriedSide moves side j of the families set by hand: light and shadow of the first, then
// of the next.
func (d *Desk) carriedSide(j int, to image.Point, end bool) {
	if j/2 >= len(d.setup.Families) {
		return
	}
	next := d.setup
	next.Families = slices.Clone(next.Families)
	f := &next.Families[j/2]
	side := &f.Light
	if j%2 == 1 {
		side = &f.Shadow
	}
	*side = side.To(to)
	d.change(next, "carry side "+strconv.Itoa(j))
	if end {
		d.history.Settle()
	}
}
