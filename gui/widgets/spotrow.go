package widgets

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"

	"app.tonedesk/gui/icons"
	"app.tonedesk/gui/wording"
)

// spotRow is a row of the table of spots. A tap on it selects the spot, one on the code copies
// it, one on the cross deletes the spot.
type spotRow struct {
	drawn
	focus
	index int
	acts  SpotActs
	text  wording.SpotText
	first bool // of the rows: the hairline goes over it
	last  bool

	back, bar, hairline *canvas.Rectangle
	colourBox, greyBox  *canvas.Rectangle
	name, hex           *canvas.Text
	figures             [len(tableHeads)]*canvas.Text
	cross               *canvas.Image
	line, frame         *canvas.Rectangle // the last around the letter of what is fixed
}

func newSpotRow(index int, acts SpotActs) *spotRow {
	r := &spotRow{index: index, acts: acts}
	r.focus = focus{keys: acts.Keys, owner: r, changed: r.redraw}
	r.back, r.bar, r.hairline = add(&r.drawn, newPanelBox()), r.addBox(), r.addBox()
	r.bar.CornerRadius = 1.5
	r.colourBox, r.greyBox = r.addBox(), r.addBox()
	r.name, r.hex = r.addText(TextSize, fyne.TextStyle{Bold: true}), r.addText(SmallSize, fyne.TextStyle{})
	for i := range r.figures {
		r.figures[i] = r.addText(TextSize, fyne.TextStyle{})
	}
	r.cross, r.frame = r.addIcon(), add(&r.drawn, newLetterFrame())
	r.line = add(&r.drawn, newFocusLine(Radius))
	r.draw(r)
	return r
}

func (r *spotRow) set(t wording.SpotText, first, last bool) {
	if t != r.text || first != r.first || last != r.last {
		r.text, r.first, r.last = t, first, last
		r.redraw()
	}
}

// rowPart is a part of a row that a press is for.
type rowPart uint8

const (
	rowItself rowPart = iota
	rowHex
	rowCross
)

// partAt returns what lies at a place.
func (r *spotRow) partAt(at fyne.Position) rowPart {
	p := planTable(r.Size().Width, textScale(), plainWidth)
	switch {
	case at.X >= p.cross:
		return rowCross
	case p.hex > 0 && !r.text.Lost && at.X >= p.hex-Step/2 && at.X <= p.hex+r.hex.Size().Width+Step/2:
		return rowHex
	}
	return rowItself
}

// Tapped does what the tapped part is for.
func (r *spotRow) Tapped(e *fyne.PointEvent) {
	r.acts.Tips.Leave()
	switch r.partAt(e.Position) {
	case rowCross:
		r.acts.Delete(r.index)
	case rowHex:
		r.acts.Copy(r.index)
	default:
		r.acts.Select(r.index)
	}
}

// MouseIn is MouseMoved.
func (r *spotRow) MouseIn(e *desktop.MouseEvent) { r.MouseMoved(e) }

// MouseMoved lets the tip come of the part under the pointer; that of the row says what is to be
// known of the spot.
func (r *spotRow) MouseMoved(e *desktop.MouseEvent) {
	switch r.partAt(e.Position) {
	case rowCross:
		r.acts.Tips.enter(crossTip.String(), r.cross)
	case rowHex:
		r.acts.Tips.enter(hexTip.String(), r.hex)
	default:
		tip := r.text.Note
		if tip != "" {
			tip = r.text.Name + " " + tip
		}
		r.acts.Tips.enter(tip, r.name)
	}
}

// MouseOut lets the tip go.
func (r *spotRow) MouseOut() { r.acts.Tips.Leave() }

// Cursor is the hand: rows are there to be pressed.
func (r *spotRow) Cursor() desktop.Cursor { return desktop.PointerCursor }

// TypedKey copies with Enter or Space and deletes with Delete.
func (r *spotRow) TypedKey(e *fyne.KeyEvent) { r.acts.key(e, r.index, r.text) }

func (r *spotRow) write(size fyne.Size, of colours) {
	t, fore := r.text, of(theme.ColorNameForeground)
	p := planTable(size.Width, textScale(), plainWidth)
	fill(r.back, of(ColorNameRaised))
	show(r.back, t.Selected)
	fill(r.bar, of(ColorNameFocusLine))
	show(r.bar, t.Selected)
	fill(r.hairline, of(ColorNameHairline))
	if t.Lost {
		fill(r.colourBox, of(ColorNamePanel))
		fill(r.greyBox, of(ColorNamePanel))
	} else {
		fill(r.colourBox, rgbFill(t.Colour))
		fill(r.greyBox, greyFill(t.Grey))
	}
	r.hex.TextSize = 12 * p.scale
	say(r.name, t.Name, fore)
	say(r.hex, t.Hex, fore)
	show(r.hex, p.hex > 0)
	for i, words := range []string{t.Lightness, t.Value, t.LayerGrey, t.FromFirst} {
		r.figures[i].TextSize = 13 * p.scale
		say(r.figures[i], words, fore)
		show(r.figures[i], i != 2 || p.layer)
	}
	ink := ColorNameQuiet
	if t.Selected {
		ink = theme.ColorNameForeground
	}
	picture(r.cross, icons.Close, ink)
	showLetterFrame(r.frame, t.Fixed, of)
	showFocus(r.line, r.focused, of)
}

// place puts the figures flush right in their columns.
func (r *spotRow) place(size fyne.Size) {
	p := planTable(size.Width, textScale(), plainWidth)
	put(r.back, fyne.NewPos(Step/2, 0), size.SubtractWidthHeight(Step, 0))
	put(r.bar, fyne.NewPos(Step/2, Step/2), fyne.NewSize(3, size.Height-Step))
	top, bottom := float32(0), size.Height
	put(r.hairline, fyne.NewPos(p.swatches-1, 0), fyne.NewSize(2*tableSwatch+2, size.Height))
	if r.first {
		top++
	}
	if r.last {
		bottom--
	}
	put(r.colourBox, fyne.NewPos(p.swatches, top), fyne.NewSize(2*tableSwatch, bottom-top))
	put(r.greyBox, fyne.NewPos(p.swatches+tableSwatch, top), fyne.NewSize(tableSwatch, bottom-top))
	y := size.Height/2 + halfCapital*textScale()
	setOn(r.name, p.letter-r.name.MinSize().Width/2, y)
	placeLetterFrame(r.frame, r.name, fyne.NewPos(p.letter-r.name.MinSize().Width/2, y))
	y = size.Height/2 + halfCapital*p.scale
	setLeft(r.hex, span{left: p.hex, baseline: y})
	for i, figure := range r.figures {
		setRight(figure, span{right: p.ends[i], baseline: y})
	}
	icon := SmallIcon()
	put(r.cross, fyne.NewPos(p.cross+(Row()-icon)/2-1, (size.Height-icon)/2), fyne.NewSquareSize(icon))
	put(r.line, fyne.NewPos(Step/4, 1), size.SubtractWidthHeight(Step/2, 2))
}

// minSize is a row's.
func (r *spotRow) minSize() fyne.Size { return fyne.NewSize(18*Step, Row()) }
