package widgets

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"

	"app.tonedesk/gui/language"
	"app.tonedesk/gui/wording"
)

// SpotActs are the callbacks for what the painter does with spot i.
type SpotActs struct {
	Copy, Select, Delete func(i int)
	Keys                 Keys  // gets the keys that a spot has no use for
	Tips                 *Tips // says what the parts are for
}

// key copies with Enter or Space and deletes with Delete.
func (a SpotActs) key(e *fyne.KeyEvent, i int, t wording.SpotText) {
	switch {
	case presses(e):
		if !t.Lost && !t.Empty {
			a.Copy(i)
		}
	case deletes(e):
		a.Delete(i)
	default:
		a.Keys.TypedKey(e.Name)
	}
}

// What the tips say.
const (
	hexTip   language.Words = "Copy the code, Enter"
	crossTip language.Words = "Delete the spot, Delete"
)

// pairSide is one spot of a pair: its letter, colour over grey, and the code. A tap on it selects
// the spot, one on the code copies it.
type pairSide struct {
	drawn
	focus
	index int
	acts  SpotActs
	text  wording.SpotText
	plan  pairPlan

	name, hex, fixed        *canvas.Text // the last: that it is
	bar, colourBox, greyBox *canvas.Rectangle
	frame                   *canvas.Rectangle // around the letter of what is fixed
	line                    *canvas.Rectangle
}

func newPairSide(index int, acts SpotActs) *pairSide {
	s := &pairSide{index: index, acts: acts}
	s.focus = focus{keys: acts.Keys, owner: s, changed: s.redraw}
	s.colourBox, s.greyBox, s.bar = s.addBox(), s.addBox(), s.addBox()
	s.bar.CornerRadius = 1
	s.name = s.addText(TextSize, fyne.TextStyle{Bold: true})
	s.hex = s.addText(SmallSize, fyne.TextStyle{})
	s.fixed, s.frame = s.addText(SmallSize, fyne.TextStyle{}), add(&s.drawn, newLetterFrame())
	s.line = add(&s.drawn, newFocusLine(Radius))
	s.draw(s)
	return s
}

// set shows a spot, laid out as the card plans it.
func (s *pairSide) set(t wording.SpotText, p pairPlan) {
	s.text, s.plan = t, p
	s.redraw()
}

// onCode reports whether a place is meant for the code: for a pen that reaches into the grey.
func (s *pairSide) onCode(at fyne.Position) bool {
	return !s.text.Lost && at.Y >= s.plan.foot-max(Row(), s.plan.end)
}

// Tapped does what the tapped part is for.
func (s *pairSide) Tapped(e *fyne.PointEvent) {
	s.acts.Tips.Leave()
	switch {
	case s.text.Empty:
	case s.onCode(e.Position):
		s.acts.Copy(s.index)
	default:
		s.acts.Select(s.index)
	}
}

// MouseIn is MouseMoved.
func (s *pairSide) MouseIn(e *desktop.MouseEvent) { s.MouseMoved(e) }

// MouseMoved lets the tip of the code come.
func (s *pairSide) MouseMoved(e *desktop.MouseEvent) {
	if !s.text.Empty && s.onCode(e.Position) {
		s.acts.Tips.enter(hexTip.String(), s.hex)
		return
	}
	s.acts.Tips.Leave()
}

// MouseOut lets the tip go.
func (s *pairSide) MouseOut() { s.acts.Tips.Leave() }

// Cursor is the hand: it is there to be pressed.
func (s *pairSide) Cursor() desktop.Cursor { return desktop.PointerCursor }

// TypedKey copies with Enter or Space and deletes with Delete.
func (s *pairSide) TypedKey(e *fyne.KeyEvent) { s.acts.key(e, s.index, s.text) }

func (s *pairSide) write(_ fyne.Size, of colours) {
	t, fore := s.text, of(theme.ColorNameForeground)
	ink := fore
	if t.Empty {
		ink = of(ColorNameQuiet)
	}
	s.name.TextSize, s.hex.TextSize = TextSize(), SmallSize()
	say(s.name, t.Name, ink)
	say(s.hex, t.Hex, fore)
	s.fixed.TextSize = SmallSize()
	say(s.fixed, wordIf(t.Fixed, language.Say("fixed")), of(ColorNameQuiet))
	showLetterFrame(s.frame, t.Fixed, of)
	fill(s.bar, of(ColorNameFocusLine))
	show(s.bar, t.Selected)
	if t.Empty || t.Lost {
		fill(s.colourBox, of(ColorNamePanel))
		fill(s.greyBox, of(ColorNamePanel))
	} else {
		fill(s.colourBox, rgbFill(t.Colour))
		fill(s.greyBox, greyFill(t.Grey))
	}
	showFocus(s.line, s.focused, of)
}

// place puts the colour over its grey, edge to edge, and centres letter and code on them.
func (s *pairSide) place(size fyne.Size) {
	p := s.plan
	// The colour lies under the grey too: no gap can open between the two.
	put(s.colourBox, fyne.NewPos(0, p.top), fyne.NewSize(size.Width, 2*p.half))
	put(s.greyBox, fyne.NewPos(0, p.top+p.half), fyne.NewSize(size.Width, p.half))
	letter, word := s.name.MinSize().Width, s.fixed.MinSize().Width
	left := (size.Width - letter) / 2
	if s.text.Fixed {
		left = max((size.Width-letter-Step-word)/2, frameAround)
		setOn(s.fixed, left+letter+Step, p.letters)
		placeLetterFrame(s.frame, s.name, fyne.NewPos(left, p.letters))
	}
	setOn(s.name, left, p.letters)
	setOn(s.hex, (size.Width-s.hex.MinSize().Width)/2, p.codes)
	wide := min(size.Width-2*Step, 6*Step)
	put(s.bar, fyne.NewPos((size.Width-wide)/2, p.top-4), fyne.NewSize(wide, 2))
	put(s.line, fyne.NewPos(0, 0), size)
}
