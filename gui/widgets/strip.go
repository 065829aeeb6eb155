package widgets

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// stripKind says what a message is about. A stronger one hides a weaker one; a note goes
// with the next message or a press of its button.
type stripKind uint8

const (
	stripIdle    stripKind = iota
	StripDemo              // nothing was chosen yet
	StripCovered           // our own window lies over the picture
	StripMoved             // the picture jumped
	StripNote              // an answer to what the painter just did
	StripTrouble           // the source can't be read
	StripUnsaved           // what is marked on a still is not saved
	stripKinds
)

// Strip is the line between source bar and mirror: a sentence and one button. It takes no
// room while there is nothing to say.
type Strip struct {
	Box    *fyne.Container
	back   *canvas.Rectangle
	Text   *widget.Label
	button *Button
	Said   [stripKinds]string
	Acts   [stripKinds]StripAct
	resize func() // the page's rows have to be laid anew
}

// StripAct is what a strip's button does.
type StripAct struct {
	Name string
	Do   func()
}

func NewStrip(keys Keys, resize func()) *Strip {
	s := &Strip{back: canvas.NewRectangle(nil), Text: widget.NewLabel(""), resize: resize}
	s.Text.Wrapping = fyne.TextWrapWord
	s.Text.SizeName = theme.SizeNameCaptionText
	s.button = NewButton("", keys, nil)
	row := container.NewBorder(nil, nil, nil, container.NewCenter(s.button), s.Text)
	s.Box = container.New(layout.NewStackLayout(), s.back, container.New(layout.NewCustomPaddedLayout(0, 0, Step, Step), row))
	s.Box.Hide()
	return s
}

// Say shows a sentence until something else is said of that kind, or its button pressed.
func (s *Strip) Say(kind stripKind, sentence string) {
	s.SayWith(kind, sentence, StripAct{Name: "Close"})
}

// SayWith is say with another button. An act without do only takes the sentence away.
func (s *Strip) SayWith(kind stripKind, sentence string, act StripAct) {
	if s.Said[kind] == sentence && s.Acts[kind].Name == act.Name {
		return
	}
	s.Said[kind], s.Acts[kind] = sentence, act
	s.show()
}

// Clear takes a kind's sentence away.
func (s *Strip) Clear(kind stripKind) {
	if s.Said[kind] != "" {
		s.Said[kind] = ""
		s.show()
	}
}

// Top is the kind that is shown.
func (s *Strip) Top() stripKind {
	for kind := stripKinds - 1; kind > stripIdle; kind-- {
		if s.Said[kind] != "" {
			return kind
		}
	}
	return stripIdle
}

func (s *Strip) show() {
	kind := s.Top()
	if kind == stripIdle {
		s.Box.Hide()
		s.resize()
		return
	}
	s.Text.SetText(s.Said[kind])
	s.button.SetText(s.Acts[kind].Name)
	s.button.OnTapped = func() {
		if do := s.Acts[kind].Do; do != nil {
			do()
			return
		}
		s.Clear(kind)
	}
	s.Box.Show()
	s.resize()
}

func (s *Strip) Colour(th fyne.Theme, v fyne.ThemeVariant) {
	s.back.FillColor = th.Color(ColorNamePanel, v)
	s.back.Refresh()
}
