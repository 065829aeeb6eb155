package gui

import (
	"cmp"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"app.tonedesk/gui/widgets"
)

// tracedPlace is something that can be pressed.
type tracedPlace struct {
	Words string     `json:"words"`
	On    bool       `json:"on"`
	Box   [4]float32 `json:"box"` // where it lies in the window, as tabs
}

// tracedMenu is what can be chosen in the menu or dialog that is open or, where none is, at the first
// start.
func tracedMenu(d *Desk) []tracedPlace {
	if m := d.Menu(); m != nil {
		return placesOf(d, m.Cells())
	}
	if dialog, is := d.Window.Canvas().Overlays().Top().(*widget.PopUp); is {
		places := placesIn(d, dialog.Content)
		if len(places) > 0 && places[0].Box[1] == 0 { // not drawn as yet
			d.Later(traceAgain, d.Changed)
		}
		return places
	}
	if !chosen(d) {
		return placesOf(d, d.parts.start.ways.Cells())
	}
	return nil
}

// tracedBar are the buttons of the bar, of the strip and of the open panel.
func tracedBar(d *Desk) []tracedPlace {
	bar := d.parts.bar
	button := func(words string, on bool, in, b fyne.CanvasObject) widgets.Cell {
		return widgets.Cell{Words: words, On: on, Part: b, At: in.Position().Add(b.Position())}
	}
	cells := []widgets.Cell{
		button("Source", false, bar, bar.Source), button("Freeze", d.frozen, bar, bar.Freeze),
		button("View", false, bar, bar.View), button("Menu", false, bar, bar.More),
	}
	strip := d.parts.strip
	cells = append(cells, button("Read under the pointer", strip.Under.On(), strip, strip.Under), button("Zoom out", false, strip, strip.Out), button("Zoom in", false, strip, strip.In))
	if s := d.parts.sheet; s != nil {
		cells = append(append(cells, button("Done", false, s, s.Done)), s.Cells()...)
	}
	return placesOf(d, cells)
}

// traceButtons adds buttons of the open page, by their words or, without any, by what their tips say.
func (l *traceLine) traceButtons(d *Desk, buttons ...*widgets.Button) {
	for _, b := range buttons {
		l.Places = append(l.Places, tracedPlace{cmp.Or(b.Text, b.Tip()), b.On(), d.boxOf(b)})
	}
}

// placesIn are the buttons and the words to choose from in a part.
func placesIn(d *Desk, o fyne.CanvasObject) (places []tracedPlace) {
	if !o.Visible() {
		return nil
	}
	switch o := o.(type) {
	case *fyne.Container:
		for _, inside := range o.Objects {
			places = append(places, placesIn(d, inside)...)
		}
	case *widgets.Button:
		places = append(places, tracedPlace{cmp.Or(o.Text, o.Tip()), o.On(), d.boxOf(o)})
	case *widgets.Chooser:
		for i := range o.Count() {
			at, size := o.Target(i)
			places = append(places, tracedPlace{o.Word(i), i == o.Chosen(), d.boxIn(o, at, size)})
		}
	}
	return places
}

func placesOf(d *Desk, cells []widgets.Cell) (places []tracedPlace) {
	scale := d.Mirror.Scale()
	for _, c := range cells {
		size := c.Part.Size()
		places = append(places, tracedPlace{c.Words, c.On, [4]float32{c.At.X * scale, c.At.Y * scale, size.Width * scale, size.Height * scale}})
	}
	return places
}
