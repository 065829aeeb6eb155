package gui

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
	stripDemo              // nothing was chosen yet
	stripCovered           // our own window lies over the picture
	stripMoved             // the picture jumped
	stripNote              // an answer to what the painter just did
	stripTrouble           // the source can't be read
	stripUnsaved           // what is marked on a still is not saved
	stripKinds
)

// strip is the line between source bar and mirror: a sentence and one button. It takes no
// room while there is nothing to say.
type strip struct {
	box    *fyne.Container
	back   *canvas.Rectangle
	text   *widget.Label
	button *button
	said   [stripKinds]string
	acts   [stripKinds]stripAct
	resize func() // the page's rows have to be laid anew
}

// stripAct is what a strip's button does.
type stripAct struct {
	name string
	do   func()
}

func newStrip(keys keySink, resize func()) *strip {
	s := &strip{back: canvas.NewRectangle(nil), text: widget.NewLabel(""), resize: resize}
	s.text.Wrapping = fyne.TextWrapWord
	s.text.SizeName = theme.SizeNameCaptionText
	s.button = newButton("", keys, nil)
	row := container.NewBorder(nil, nil, nil, container.NewCenter(s.button), s.text)
	s.box = container.New(layout.NewStackLayout(), s.back, container.New(layout.NewCustomPaddedLayout(0, 0, Step, Step), row))
	s.box.Hide()
	return s
}

// say shows a sentence until something else is said of that kind, or its button pressed.
func (s *strip) say(kind stripKind, sentence string) {
	s.sayWith(kind, sentence, stripAct{name: "Close"})
}

// sayWith is say with another button. An act without do only takes the sentence away.
func (s *strip) sayWith(kind stripKind, sentence string, act stripAct) {
	if s.said[kind] == sentence && s.acts[kind].name == act.name {
		return
	}
	s.said[kind], s.acts[kind] = sentence, act
	s.show()
}

// clear takes a kind's sentence away.
func (s *strip) clear(kind stripKind) {
	if s.said[kind] != "" {
		s.said[kind] = ""
		s.show()
	}
}

// top is the kind that is shown.
func (s *strip) top() stripKind {
	for kind := stripKinds - 1; kind > stripIdle; kind-- {
		if s.said[kind] != "" {
			return kind
		}
	}
	return stripIdle
}

func (s *strip) show() {
	kind := s.top()
	if kind == stripIdle {
		s.box.Hide()
		s.resize()
		return
	}
	s.text.SetText(s.said[kind])
	s.button.SetText(s.acts[kind].name)
	s.button.OnTapped = func() {
		if do := s.acts[kind].do; do != nil {
			do()
			return
		}
		s.clear(kind)
	}
	s.box.Show()
	s.resize()
}

func (s *strip) colour(th fyne.Theme, v fyne.ThemeVariant) {
	s.back.FillColor = th.Color(ColorNamePanel, v)
	s.back.Refresh()
}
