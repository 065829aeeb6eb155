package gui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/propose"
	"app.tonedesk/analysis/swatches"
	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// basePanel shows the colour from which others are proposed, and takes a typed one.
type basePanel struct {
	d      *Desk
	box    *fyne.Container
	swatch *widgets.SwatchRow
	words  *widget.Label
	entry  *colourEntry
	follow *widgets.Button
	shades *propose.Shades // handed out last
}

func newBasePanel(d *Desk) *basePanel {
	b := &basePanel{d: d, words: widgets.SmallLabel(), entry: newColourEntry(d)}
	b.swatch = widgets.NewSwatchRow(widgets.SwatchPlan{Height: widgets.SwatchHeight, Greys: 2 * widgets.Step}, d.swatchActs())
	b.follow = widgets.NewButton("Spot", d, func() { d.setBase(nil) })
	b.follow.Explain(d.parts.tips, "Begin from the selected spot again")
	copyAll := widgets.NewButton("Copy all", d, func() { b.rows(d.copySwatches) })
	copyAll.Explain(d.parts.tips, "Copy all proposals as text")
	save := widgets.NewButton("Save", d, func() {
		b.rows(func(rows []swatches.Row) { d.askSwatches(rows, b.shades, "colours") })
	})
	save.Explain(d.parts.tips, "Save all proposals as a picture, CSS, JSON or a list")
	row := container.NewGridWithColumns(2, widgets.Inset(b.swatch), container.NewVBox(widgets.Inset(b.entry), container.NewHBox(save, copyAll, b.follow)))
	b.box = widgets.OnPanel(b.words, row)
	return b
}

// rows hands the proposals to do, if there are any.
func (b *basePanel) rows(do func([]swatches.Row)) {
	base, _, ok := b.d.base()
	if !ok {
		b.d.parts.strip.Say(widgets.MessageNote, "There is no colour to begin from. Click a spot in the picture first.")
		return
	}
	b.shades = propose.Shade(base, b.d.setup.Shade)
	do(swatches.OfShades(b.shades))
}

// show renews the panel; ok says whether there is a colour at all.
func (b *basePanel) show(base analysis.Spot, name string, ok bool) {
	words := "From " + name + ", " + base.Colour.Hex() + ". A click on a swatch copies its code; a right click goes on from it."
	if !ok {
		words = "Click a spot in the picture, or type a colour, to see what can be painted next to it."
	}
	resized := widgets.SetWords(b.words, words)
	if ok {
		b.swatch.Set([]widgets.Swatch{spotSwatch(base, "")})
	} else {
		b.swatch.Set(nil)
	}
	typed := b.d.setup.Typed != nil
	if b.follow.Hidden == typed {
		b.follow.Hidden = !typed
		resized = true
	}
	if resized {
		b.d.relayPage()
	}
}

// base is the colour to begin from: a typed one, else the selected spot, else the last one
// that was set.
func (d *Desk) base() (base analysis.Spot, name string, ok bool) {
	if d.setup.Typed != nil {
		return analysis.SpotOf(*d.setup.Typed), "the colour chosen", true
	}
	i := d.selected
	if i < 0 {
		i = min(len(d.spots), 2) - 1 // B, else A
	}
	if i < 0 || i >= len(d.spots) || d.spots[i].Err != nil {
		return analysis.Spot{}, "", false
	}
	return d.spots[i].Spot, "spot " + setup.SpotName(i), true
}

// setBase makes a colour the one to begin from; nil follows the spots.
func (d *Desk) setBase(c *colour.RGB) {
	next := d.setup
	next.Typed = c
	d.change(next, "")
}

// colourEntry takes a typed colour.
type colourEntry struct {
	widget.Entry
	d *Desk
}

func newColourEntry(d *Desk) *colourEntry {
	e := &colourEntry{d: d}
	e.PlaceHolder = "#rrggbb"
	e.ExtendBaseWidget(e)
	e.OnSubmitted = e.take
	return e
}

// take begins from what was typed, or says why that is no colour.
func (e *colourEntry) take(text string) {
	c, err := colour.Parse(text)
	if err != nil {
		e.d.parts.strip.Say(widgets.MessageNote, wording.Explain("use "+wording.Quote(text), err))
		return
	}
	e.SetText("")
	e.d.parts.strip.Clear(widgets.MessageNote)
	e.d.setBase(&c)
	e.d.focusMirror()
}

// FocusGained reveals it.
func (e *colourEntry) FocusGained() {
	e.d.Reveal(e)
	e.Entry.FocusGained()
}

// TypedKey gives up with Esc.
func (e *colourEntry) TypedKey(k *fyne.KeyEvent) {
	if k.Name == fyne.KeyEscape {
		e.SetText("")
		e.d.focusMirror()
		return
	}
	e.Entry.TypedKey(k)
}

// keepShade keeps for the next start how colours are proposed.
func (d *Desk) keepShade() {
	if d.settings.Shade != d.setup.Shade {
		d.settings.Shade = d.setup.Shade
		d.keep()
	}
}
