package host

import "app.tonedesk/gui/widgets"

// messageKind says what a message is about. A stronger one hides a weaker one, but for a note:
// that answers what the painter just did, and is said before it. A note goes with the next one
// or a press of the button.
type messageKind uint8

const (
	messageIdle      messageKind = iota
	MessageDemo                  // nothing was chosen yet
	MessageWorkspace             // a workspace lies around the canvas
	MessageCovered               // our own window lies over the picture
	MessageMoved                 // the picture jumped
	MessageFlashes               // the picture flashes, and is shown less often
	MessageNote                  // an answer to what the painter just did
	MessageTrouble               // the source can't be read
	MessageUnsaved               // what is marked on a still is not saved
	messageKinds
)

// MessageAct is what a message's button does. Without do it only takes the message away.
type MessageAct struct {
	Name string
	Do   func()
}

// Messages are what the window has to say to the painter, one of each kind: the one place
// that knows which of them is shown.
type Messages struct {
	Bar  *widgets.MessageBar
	Said [messageKinds]string
	Acts [messageKinds]MessageAct
	Else [messageKinds]MessageAct // the other answer to a question; without a name it is none

	Changed func() // what is shown is another now; may be nil
}

// Note answers what the painter just did.
func (m *Messages) Note(sentence string) { m.Say(MessageNote, sentence) }

// Say shows a sentence until something else is said of that kind, or its button pressed.
func (m *Messages) Say(kind messageKind, sentence string) {
	m.Offer(kind, sentence, MessageAct{Name: "Close"})
}

// Offer is say with another button.
func (m *Messages) Offer(kind messageKind, sentence string, act MessageAct) {
	if m.Said[kind] == sentence && m.Acts[kind].Name == act.Name {
		return
	}
	m.Said[kind], m.Acts[kind], m.Else[kind] = sentence, act, MessageAct{}
	m.show()
}

// Ask is offer with two answers, both of which do something.
func (m *Messages) Ask(kind messageKind, sentence string, act, other MessageAct) {
	same := m.Said[kind] == sentence && m.Acts[kind].Name == act.Name
	m.Said[kind], m.Acts[kind], m.Else[kind] = sentence, act, other
	if !same {
		m.show()
	}
}

// Clear takes a kind's sentence away.
func (m *Messages) Clear(kind messageKind) {
	if m.Said[kind] != "" {
		m.Said[kind] = ""
		m.show()
	}
}

// Top is the kind that is shown.
func (m *Messages) Top() messageKind {
	for kind := messageKinds - 1; kind > messageIdle; kind-- {
		if m.Said[kind] != "" {
			return kind
		}
	}
	return messageIdle
}

func (m *Messages) show() {
	kind := m.Top()
	words := m.Said[kind]
	if note := m.Said[MessageNote]; note != "" && kind > MessageNote {
		words = note + "\n" + words
	}
	act := func() {
		if kind > MessageNote && m.Acts[MessageNote].Do == nil { // it was read; one with a button of its own stays
			m.Clear(MessageNote)
		}
		if do := m.Acts[kind].Do; do != nil {
			do()
			return
		}
		m.Clear(kind)
	}
	if other := m.Else[kind]; other.Name != "" {
		m.Bar.SetQuestion(words, [2]string{m.Acts[kind].Name, other.Name}, [2]func(){act, func() { m.Else[kind].Do() }})
	} else {
		m.Bar.Set(words, m.Acts[kind].Name, act)
	}
	if m.Changed != nil {
		m.Changed()
	}
}
