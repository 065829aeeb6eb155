package gui

import "app.tonedesk/gui/widgets"

// messageKind says what a message is about. A stronger one hides a weaker one; a note goes
// with the next message or a press of its button.
type messageKind uint8

const (
	messageIdle    messageKind = iota
	messageDemo                // nothing was chosen yet
	messageCovered             // our own window lies over the picture
	messageMoved               // the picture jumped
	messageNote                // an answer to what the painter just did
	messageTrouble             // the source can't be read
	messageUnsaved             // what is marked on a still is not saved
	messageKinds
)

// messageAct is what a message's button does. Without do it only takes the message away.
type messageAct struct {
	name string
	do   func()
}

// messages are what the window has to say to the painter, one of each kind: the one place
// that knows which of them is shown.
type messages struct {
	bar  *widgets.MessageBar
	said [messageKinds]string
	acts [messageKinds]messageAct
}

// note answers what the painter just did.
func (m *messages) note(sentence string) { m.say(messageNote, sentence) }

// say shows a sentence until something else is said of that kind, or its button pressed.
func (m *messages) say(kind messageKind, sentence string) {
	m.offer(kind, sentence, messageAct{name: "Close"})
}

// offer is say with another button.
func (m *messages) offer(kind messageKind, sentence string, act messageAct) {
	if m.said[kind] == sentence && m.acts[kind].name == act.name {
		return
	}
	m.said[kind], m.acts[kind] = sentence, act
	m.show()
}

// clear takes a kind's sentence away.
func (m *messages) clear(kind messageKind) {
	if m.said[kind] != "" {
		m.said[kind] = ""
		m.show()
	}
}

// top is the kind that is shown.
func (m *messages) top() messageKind {
	for kind := messageKinds - 1; kind > messageIdle; kind-- {
		if m.said[kind] != "" {
			return kind
		}
	}
	return messageIdle
}

func (m *messages) show() {
	kind := m.top()
	m.bar.Set(m.said[kind], m.acts[kind].name, func() {
		if do := m.acts[kind].do; do != nil {
			do()
			return
		}
		m.clear(kind)
	})
}
