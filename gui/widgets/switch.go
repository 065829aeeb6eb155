package widgets

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"

	"app.tonedesk/gui/language"
)

// Switch is on or off, as its word, its shape and its place say: on, a disc stands at the right of
// a bar; off, at the left of a ring.
type Switch struct {
	drawn
	focus
	on     bool
	change func(on bool)

	track, bar, line *canvas.Rectangle
	disc, ring       *canvas.Circle
	word             *canvas.Text
}

// NewSwitch returns a switch; change is called with what the painter wants, and it is so at once.
func NewSwitch(on bool, keys Keys, change func(on bool)) *Switch {
	s := &Switch{on: on, change: change}
	s.focus = focus{keys: keys, owner: s, changed: s.redraw}
	s.word = s.addText(SmallSize, fyne.TextStyle{})
	s.track, s.bar = s.addBox(), s.addBox()
	s.disc, s.ring = add(&s.drawn, canvas.NewCircle(color.Transparent)), add(&s.drawn, canvas.NewCircle(color.Transparent))
	s.line = add(&s.drawn, newFocusLine(Radius+FocusGap))
	s.draw(s)
	return s
}

// Set shows another state, without calling change.
func (s *Switch) Set(on bool) {
	s.on = on
	s.redraw()
}

// On reports whether it is on.
func (s *Switch) On() bool { return s.on }

// Tapped switches.
func (s *Switch) Tapped(*fyne.PointEvent) {
	s.Set(!s.on)
	s.change(s.on)
}

// TypedKey switches with Space and Enter.
func (s *Switch) TypedKey(e *fyne.KeyEvent) {
	if presses(e) {
		s.Tapped(nil)
	} else {
		s.keys.TypedKey(e.Name)
	}
}

// switchSize is that of the track, which grows with the text.
func switchSize() fyne.Size {
	return fyne.NewSize(round(4.5*Step*textScale()), round(2.5*Step*textScale()))
}

func (s *Switch) write(_ fyne.Size, of colours) {
	track, word := theme.ColorNameInputBackground, language.Say("off")
	if s.on {
		track, word = ColorNameOn, language.Say("on")
	}
	s.track.CornerRadius, s.track.StrokeWidth, s.track.StrokeColor = switchSize().Height/2, 1, of(ColorNameOff)
	fill(s.track, of(track))
	fill(s.bar, of(ColorNameFocusLine))
	show(s.bar, s.on)
	s.disc.FillColor = of(theme.ColorNameForeground)
	s.ring.StrokeColor, s.ring.StrokeWidth = of(ColorNameQuiet), 1.5
	show(s.ring, !s.on)
	say(s.word, word, of(ColorNameQuiet))
	showFocus(s.line, s.focused, of)
}

func (s *Switch) place(size fyne.Size) {
	track := switchSize()
	x, y := size.Width-track.Width, (size.Height-track.Height)/2
	put(s.track, fyne.NewPos(x, y), track)
	putAround(s.line, fyne.NewPos(x, y), track)
	inset, side, small := round(3*textScale()), track.Height-2*round(3*textScale()), round(8*textScale())
	left, right := x+inset, x+track.Width-inset-side
	disc := left
	if s.on {
		disc = right
	}
	put(s.disc, fyne.NewPos(disc, y+inset), fyne.NewSquareSize(side))
	put(s.bar, fyne.NewPos(x+track.Height/2-1, y+(track.Height-small)/2), fyne.NewSize(footHigh, small))
	put(s.ring, fyne.NewPos(right+(side-small)/2, y+(track.Height-small)/2), fyne.NewSquareSize(small))
	placeText(s.word, x-Step-s.word.MinSize().Width, (size.Height-s.word.MinSize().Height)/2)
}

func (s *Switch) minSize() fyne.Size {
	return fyne.NewSize(switchSize().Width+Step+smallWidth(language.Say("off")), Row())
}
