package host

import (
	"cmp"
	"time"

	"app.tonedesk/gui/icons"
	"app.tonedesk/gui/widgets"
)

// messageKind says what a message is about.
type messageKind uint8

const (
	MessageLost      messageKind = iota // what is watched can't be read, or not yet
	MessagePointing                     // the painter points at a window to follow
	MessageMoved                        // the picture jumped, and the spots could not follow
	MessageCovered                      // our own window lies over the picture
	MessageFrozen                       // the picture is held
	MessagePart                         // a part of it isn't counted
	MessageFlashes                      // it flashes, and is shown less often
	MessageKeeps                        // the picture is kept by itself
	MessageError                        // what the painter asked for failed
	MessageUnsaved                      // what is marked on a still is not saved
	MessageTrouble                      // why what is watched can't be read
	MessageAlike                        // more than one window might be meant
	MessageWorkspace                    // a workspace lies around the canvas
	MessageNote                         // an answer to what the painter just did
	messageKinds
)

// place is where a message lies on the picture, and with that how long.
type place uint8

const (
	chip  place = iota // at the top left, as long as it is so; two at most
	stay               // at the foot, an error until it is closed, an offer until it is answered; one
	toast              // at the foot for a while
)

// messages says where each kind lies. Of those that lie at one place the first ones are shown.
var messages = [...]struct {
	kind   messageKind
	at     place
	icon   icons.Name // of a chip
	closes bool       // the painter can close it
}{
	{kind: MessageLost, at: chip, icon: icons.Close},
	{kind: MessageMoved, at: chip, icon: icons.Warning},
	{kind: MessageCovered, at: chip, icon: icons.Warning},
	{kind: MessageFrozen, at: chip, icon: icons.Freeze},
	{kind: MessagePart, at: chip, icon: icons.LeaveOut},
	{kind: MessageFlashes, at: chip, icon: icons.Warning},
	{kind: MessageKeeps, at: chip, icon: icons.Keep},
	{kind: MessagePointing, at: stay},
	{kind: MessageError, at: stay, closes: true}, // before what stays until it is mended: this can be closed
	{kind: MessageUnsaved, at: stay},
	{kind: MessageTrouble, at: stay, closes: true},
	{kind: MessageAlike, at: stay, closes: true},
	{kind: MessageWorkspace, at: stay},
	{kind: MessageNote, at: toast},
}

// MessageAct is what a message's button does, or a tap on a chip.
type MessageAct = widgets.MessageAct

// Messages are what the window has to say to the painter, one of each kind: the one place
// that knows which of them are shown. Without a widget over the picture none is seen.
type Messages struct {
	Over *widgets.Messages
	Said [messageKinds]string
	Acts [messageKinds]MessageAct
	Else [messageKinds]MessageAct // the other answer to a question; without a name it is none

	Later   func(time.Duration, func()) (stop func()) // nil: a toast stays
	Changed func()                                    // what is shown is another now; may be nil

	closed [messageKinds]string // that the painter closed, and doesn't want to read again
	fade   func()               // stops the timer of the toast, if one runs
}

// toastFor is how long a toast is shown (our choice: long enough for its few words).
const toastFor = 4 * time.Second

// Note answers what the painter just did, for a while.
func (m *Messages) Note(sentence string) { m.NoteWith(sentence, MessageAct{}) }

// NoteWith is Note with one thing that can be done about it.
func (m *Messages) NoteWith(sentence string, act MessageAct) {
	if do := act.Do; do != nil {
		act.Do = func() {
			m.Clear(MessageNote)
			do()
		}
	}
	m.Offer(MessageNote, sentence, act)
	m.begin()
}

// Fail says why what the painter asked for failed, until it is closed.
func (m *Messages) Fail(sentence string) {
	m.closed[MessageError] = ""
	m.Say(MessageError, sentence)
}

// Say shows a sentence until something else is said of that kind, or it is closed.
func (m *Messages) Say(kind messageKind, sentence string) { m.Offer(kind, sentence, MessageAct{}) }

// Offer is say with something that can be done about it.
func (m *Messages) Offer(kind messageKind, sentence string, act MessageAct) {
	m.Ask(kind, sentence, act, MessageAct{})
}

// Ask is offer with two answers, both of which do something.
func (m *Messages) Ask(kind messageKind, sentence string, act, other MessageAct) {
	if sentence == m.closed[kind] && sentence != "" {
		return
	}
	same := m.Said[kind] == sentence && m.Acts[kind].Name == act.Name
	m.Said[kind], m.Acts[kind], m.Else[kind], m.closed[kind] = sentence, act, other, ""
	if !same {
		m.show()
	}
}

// Clear takes a kind's sentence away.
func (m *Messages) Clear(kind messageKind) {
	m.closed[kind] = ""
	if m.Said[kind] != "" {
		m.Said[kind] = ""
		m.show()
	}
}

// Close closes what stays at the foot, as Esc does: an error is read, an offer gets its second
// answer. It reports whether there was anything to close.
func (m *Messages) Close() bool {
	lying := m.at(stay)
	if len(lying) == 0 {
		return false
	}
	if other := m.Else[lying[0]]; other.Do != nil {
		other.Do()
		return true
	}
	return m.close(lying[0])
}

// close closes a message that can be closed.
func (m *Messages) close(kind messageKind) bool {
	said := m.Said[kind]
	if !closes(kind) || said == "" {
		return false
	}
	m.Clear(kind)
	m.closed[kind] = said
	return true
}

func closes(kind messageKind) bool {
	for _, row := range messages {
		if row.kind == kind {
			return row.closes
		}
	}
	return false
}

// at lists the kinds of which something is said at a place, the strongest first.
func (m *Messages) at(where place) (kinds []messageKind) {
	for _, row := range messages {
		if row.at == where && m.Said[row.kind] != "" {
			kinds = append(kinds, row.kind)
		}
	}
	return kinds
}

// message is what is shown of a kind.
func (m *Messages) message(kind messageKind, icon icons.Name) widgets.Message {
	shown := widgets.Message{Icon: icon, Words: m.Said[kind]}
	for _, act := range []MessageAct{m.Acts[kind], m.Else[kind]} {
		if act.Name != "" {
			shown.Acts = append(shown.Acts, act)
		}
	}
	if closes(kind) {
		shown.Close = func() { m.close(kind) }
	}
	return shown
}

func (m *Messages) show() {
	if m.Over != nil {
		var chips []widgets.Message
		var foot [2]widgets.Message // what stays, and a toast
		for _, row := range messages {
			switch shown := m.message(row.kind, row.icon); {
			case shown.Words == "":
			case row.at == chip:
				shown.Icon = cmp.Or(m.Acts[row.kind].Icon, row.icon)
				chips = append(chips, shown)
			case foot[row.at-stay].Words == "":
				foot[row.at-stay] = shown
			}
		}
		m.Over.Held = m.held
		m.Over.Set(chips, foot[0], foot[1])
	}
	if m.Changed != nil {
		m.Changed()
	}
}

// begin lets the toast go after a while.
func (m *Messages) begin() {
	if m.fade != nil {
		m.fade()
		m.fade = nil
	}
	if m.Later == nil || m.Said[MessageNote] == "" {
		return
	}
	said := m.Said[MessageNote]
	m.fade = m.Later(toastFor, func() {
		if m.Said[MessageNote] == said && (m.Over == nil || !m.Over.ToastHeld()) {
			m.Clear(MessageNote)
		}
	})
}

// held is told when the pointer comes onto the toast or goes: then it begins once more.
func (m *Messages) held() {
	if !m.Over.ToastHeld() {
		m.begin()
	}
}
