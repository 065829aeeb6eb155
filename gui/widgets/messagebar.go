package widgets

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"
)

// MessageKind says what a message is about. A stronger one hides a weaker one; a note goes
// with the next message or a press of its button.
type MessageKind uint8

// The kinds of messages, the weakest first.
const (
	noMessage      MessageKind = iota
	MessageDemo                // nothing was chosen yet
	MessageCovered             // our own window lies over the picture
	MessageMoved               // the picture jumped
	MessageNote                // an answer to what the painter just did
	MessageTrouble             // the source can't be read
	MessageUnsaved             // what is marked on a still is not saved
	messageKinds
)

// MessageAct is what a message's button does.
type MessageAct struct {
	Name string // on the button
	Do   func() // nil only takes the message away
}

// MessageBar is the line between source bar and mirror: a sentence and one button. It takes
// no room while there is nothing to say.
type MessageBar struct {
	widget.BaseWidget
	row    *fyne.Container
	text   *widget.Label
	button *Button
	said   [messageKinds]string
	acts   [messageKinds]MessageAct
	resize func()
}

// NewMessageBar returns a bar with nothing to say. It calls resize whenever it may ask for
// another height.
func NewMessageBar(keys Keys, resize func()) *MessageBar {
	m := &MessageBar{text: SmallLabel(), resize: resize}
	m.button = NewButton("", keys, m.Press)
	row := container.NewBorder(nil, nil, nil, container.NewCenter(m.button), m.text)
	m.row = container.NewStack(newPanel(0), container.New(layout.NewCustomPaddedLayout(0, 0, Step, Step), row))
	m.Hidden = true
	m.ExtendBaseWidget(m)
	return m
}

// CreateRenderer shows the sentence beside its button.
func (m *MessageBar) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(m.row) }

// Refresh lays the sentence and its button anew.
func (m *MessageBar) Refresh() {
	m.row.Refresh()
	m.BaseWidget.Refresh()
}

// Say shows a sentence until something else is said of that kind, or its button pressed.
func (m *MessageBar) Say(kind MessageKind, sentence string) {
	m.SayWith(kind, sentence, MessageAct{Name: "Close"})
}

// SayWith is Say with another button.
func (m *MessageBar) SayWith(kind MessageKind, sentence string, act MessageAct) {
	if m.said[kind] != sentence || m.acts[kind].Name != act.Name {
		m.said[kind], m.acts[kind] = sentence, act
		m.show()
	}
}

// Clear takes a kind's sentence away.
func (m *MessageBar) Clear(kind MessageKind) {
	if m.said[kind] != "" {
		m.said[kind] = ""
		m.show()
	}
}

// Said returns the sentence of a kind, which a stronger one may hide; "" for none.
func (m *MessageBar) Said(kind MessageKind) string { return m.said[kind] }

// Shown returns the sentence that is seen; "" for none.
func (m *MessageBar) Shown() string { return m.said[m.top()] }

// Press is a press of the button that is seen.
func (m *MessageBar) Press() {
	kind := m.top()
	if do := m.acts[kind].Do; do != nil {
		do()
		return
	}
	m.Clear(kind)
}

// top is the kind that is seen.
func (m *MessageBar) top() MessageKind {
	for kind := messageKinds - 1; kind > noMessage; kind-- {
		if m.said[kind] != "" {
			return kind
		}
	}
	return noMessage
}

func (m *MessageBar) show() {
	if kind := m.top(); kind != noMessage {
		m.text.SetText(m.said[kind])
		m.button.SetText(m.acts[kind].Name)
		m.Show()
	} else {
		m.Hide()
	}
	m.resize()
}
