package gui

import (
	"image"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/gui/language"
	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/structure"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// asking is what the next click or drag in the mirror is for.
type asking uint8

const (
	askNothing asking = iota // it measures
	askNarrow                // the part to watch from now on
	askArea                  // an area to leave out
	askColour                // a colour to leave out
	askMeasure               // an area to measure, by keys
	askForm                  // a form, whose local colour is set by hand
	askOther                 // its other side
	askBetter                // a better place for one of its sides
	askFocus                 // where the eye should go
)

// askWords tell on the mirror what is asked for.
var askWords = map[asking]language.Words{
	askNarrow:  "Drag over the part to watch",
	askArea:    "Drag over what to leave out",
	askColour:  "Click the colour to leave out",
	askMeasure: "Drag over an area to measure",
	askForm:    "Click a form: its light and shadow are proposed",
	askOther:   "Click its other side",
	askBetter:  "Click to correct a side. Esc: it is right",
	askFocus:   wording.FocusAsk,
}

// askedSide is what is asked for of a family set by hand.
var askedSide = map[asking]structure.Side{askForm: structure.AnySide, askOther: structure.OtherSide, askBetter: structure.BetterSide, askFocus: structure.FocusPlace}

// askSide takes the next click for a family set by hand, or no longer.
func (d *Desk) askSide(s structure.Side) {
	for what, side := range askedSide {
		if side == s {
			d.ask(what)
			return
		}
	}
	d.ask(askNothing)
}

// ask takes the next click or drag for something; asked twice, it gives up.
func (d *Desk) ask(what asking) {
	if d.asking == what {
		what = askNothing
	}
	d.asking = what
	d.Mirror.Ask(askWords[what].String())
	if d.Mirror.Overlay(widgets.OverlayOutline) != nil {
		d.families.ShowOutline() // with its words, or without
	}
	if what != askNothing {
		d.FocusMirror()
	}
}

// clicked is a click on a pixel of the source.
func (d *Desk) clicked(at image.Point, add bool) {
	switch d.asking {
	case askColour:
		d.pick = &at
		d.ask(askNothing)
		d.refresh()
	case askForm, askOther, askBetter, askFocus:
		d.families.Clicked(askedSide[d.asking], setup.Place{At: at})
	case askNothing:
		d.placeSpot(setup.Place{At: at}, add)
	default: // a corner of the area, by keys or by a click
		d.Mirror.BeginAreaAt(at)
	}
}

// dragged is an area of the source.
func (d *Desk) dragged(area image.Rectangle, add bool) {
	what := d.asking
	if side, ok := askedSide[what]; ok {
		d.families.Clicked(side, setup.Place{At: setup.Place{Area: area}.Centre(), Area: area})
		return
	}
	d.ask(askNothing)
	switch what {
	case askNarrow:
		d.narrow(area)
	case askArea:
		d.change(d.setup.LeavingOut(area), "")
	default:
		d.placeSpot(setup.Place{At: setup.Place{Area: area}.Centre(), Area: area}, add)
	}
}

// narrow watches a part of what is watched.
func (d *Desk) narrow(area image.Rectangle) {
	if area.Dx() < setup.LeastSide || area.Dy() < setup.LeastSide {
		d.Messages.Note(language.Say("Too small to watch: drag over at least %d × %d pixels", setup.LeastSide, setup.LeastSide))
		return
	}
	from := d.setup.Source
	from.Region = area
	d.watch(from)
}

// leaveOutColour leaves out the colour of a place, where it hangs together with the place or
// the border; nil where that is transparent.
func (d *Desk) leaveOutColour(at image.Point, seen *colour.RGB) {
	if seen == nil {
		d.Messages.Note(language.Say("Transparent there: it is not counted anyway"))
		return
	}
	d.change(d.setup.LeavingOutColour(analysis.Seed{At: at, Colour: *seen, Within: d.settings.LikeWithin}), "")
}

// placeSpot sets A, or B again, or adds one.
func (d *Desk) placeSpot(p setup.Place, add bool) {
	if add && len(d.setup.Places) == setup.MaxSpots {
		d.Messages.Note(language.Say("Eight spots are the most: delete one first"))
		return
	}
	next, at := d.setup.With(p, add)
	d.selected = at
	d.change(next, "")
}

// makePair makes two places the spots A and B.
func (d *Desk) makePair(a, b setup.Place) {
	d.selected = 1
	d.history.Settle()
	d.change(d.setup.Placed(0, a).Placed(1, b), "")
}

// carried moves a spot; end says that the drag is over.
func (d *Desk) carried(i int, to image.Point, end bool) {
	if i >= len(d.setup.Places) {
		d.families.Carried(i-len(d.setup.Places), to, end)
		return
	}
	d.selected = i
	d.change(d.setup.Placed(i, d.setup.Places[i].To(to)), "carry "+setup.SpotName(i))
	if end {
		d.history.Settle()
	}
}

// selectSpot makes a spot the one that keys work on; -1 is none.
func (d *Desk) selectSpot(i int) {
	if i >= len(d.setup.Places) {
		return // a side of a family: it is carried, not worked on by keys
	}
	if i == d.selected {
		return
	}
	d.selected = i
	d.history.Settle()
	d.showMarks()
	d.refresh()
}

// nextSpot selects one spot after the other, and after the last none.
func (d *Desk) nextSpot() {
	d.Mirror.EndKeys()
	next := d.selected + 1
	if next >= len(d.setup.Places) {
		next = -1
	}
	d.selectSpot(next)
}

// deleteSpot takes a spot away.
func (d *Desk) deleteSpot(i int) {
	if i == d.selected && d.marker.Delete() {
		return
	}
	if i < 0 || i >= len(d.setup.Places) {
		return
	}
	d.selected = -1
	d.change(d.setup.Without(i), "")
}

// spotsAreRight says of every spot that it lies where it should, though the picture moved.
func (d *Desk) spotsAreRight() { d.change(d.setup.AllMoved(false), "") }

// copyHex copies the colour of a spot.
func (d *Desk) copyHex(i int) {
	if c, ok := d.pointer.Colour(); ok {
		d.CopyText(c.Hex())
		return
	}
	if i < 0 && len(d.last.spots) > 0 {
		i = len(d.last.spots) - 1
	}
	if i < 0 || i >= len(d.last.spots) || d.last.spots[i].Err != nil {
		d.Messages.Note(language.Say("No spot to copy: click one first"))
		return
	}
	d.CopyText(d.last.spots[i].Colour.Hex())
}

// looked follows the pointer or the key cursor.
func (d *Desk) looked(at image.Point, inside bool) {
	d.pointer.Look(at, inside)
	d.refresh()
}
