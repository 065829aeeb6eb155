package host

import (
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2/test"
	"pgregory.net/rapid"

	"app.tonedesk/gui/widgets"
)

// newMessages are messages whose toast goes when fade is called.
func newMessages(t *testing.T) (m *Messages, fade func()) {
	test.NewTempApp(t)
	due := func() {}
	m = &Messages{Over: widgets.NewMessages(nil, nil)}
	m.Later = func(after time.Duration, f func()) func() {
		if after != 4*time.Second { // spec of the window: a toast fades after 4 s
			t.Errorf("a toast goes after %v", after)
		}
		due = f
		return func() { due = func() {} }
	}
	return m, func() { due() }
}

// Every kind lies at one place only, and none is left out.
func TestEveryKindHasAPlace(t *testing.T) {
	var seen [messageKinds]int
	for _, row := range messages {
		seen[row.kind]++
	}
	for kind, n := range seen {
		if n != 1 {
			t.Errorf("kind %d has %d places", kind, n)
		}
	}
}

// Whatever is said, of lasting states the first two are seen, in the order lost, moved, covered,
// frozen, part counted, flashes; what stays at the foot and a toast hide none of them.
func TestChipsKeepTheirOrder(t *testing.T) {
	m, _ := newMessages(t)
	order := []messageKind{MessageLost, MessageMoved, MessageCovered, MessageFrozen, MessagePart, MessageFlashes}
	others := []messageKind{MessageError, MessageUnsaved, MessageTrouble, MessageWorkspace, MessageNote}
	words := map[messageKind]string{MessageLost: "lost", MessageMoved: "moved", MessageCovered: "covered", MessageFrozen: "frozen", MessagePart: "part", MessageFlashes: "flashes"}
	rapid.Check(t, func(t *rapid.T) {
		for kind := range messageKinds {
			m.Clear(kind)
		}
		var want []string
		said := rapid.SliceOfNDistinct(rapid.SampledFrom(append(order, others...)), 0, int(messageKinds), rapid.ID).Draw(t, "said")
		for _, kind := range said {
			m.Say(kind, words[kind]+" ")
		}
		for _, kind := range order {
			if m.Said[kind] != "" && len(want) < 2 {
				want = append(want, words[kind])
			}
		}
		if got := strings.Fields(m.Over.Text()); strings.Join(got, " ") != strings.Join(want, " ") {
			t.Fatalf("of %v it shows %q, want %q", said, got, want)
		}
	})
}

// A toast goes after a while, and a new one takes its place; what stays does not go.
func TestToastGoes(t *testing.T) {
	m, fade := newMessages(t)
	m.Say(MessageMoved, "Picture moved")
	m.Note("Copied #c76d5d")
	m.Note("Kept as a still")
	if got := m.Over.Text(); got != "Picture moved\nKept as a still" {
		t.Errorf("%q is shown", got)
	}
	m.Fail("Can't keep the picture.")
	fade()
	if got := m.Over.Text(); got != "Picture moved\nCan't keep the picture." {
		t.Errorf("after a while %q is shown", got)
	}
	undone := 0
	m.NoteWith("5 spots cleared", MessageAct{Name: "Undo", Do: func() { undone++ }})
	m.Acts[MessageNote].Do()
	if undone != 1 || m.Said[MessageNote] != "" {
		t.Errorf("undone %d times, it still says %q", undone, m.Said[MessageNote])
	}
}

// An error stays until it is closed, and isn't said again until it was mended; what is not saved
// can't be closed; an offer's second answer is what closing does.
func TestClosing(t *testing.T) {
	m, _ := newMessages(t)
	answered := 0
	m.Ask(MessageWorkspace, "Leave it out?", MessageAct{Name: "Leave it out"}, MessageAct{Name: "Count it", Do: func() { answered++; m.Clear(MessageWorkspace) }})
	m.Say(MessageTrouble, "Can't read it.")
	m.Say(MessageUnsaved, "Not saved.")
	if m.Close() || m.Over.Text() != "Not saved." {
		t.Errorf("what is not saved is closed: %q", m.Over.Text())
	}
	m.Clear(MessageUnsaved)
	if !m.Close() || m.Over.Text() != "Leave it out?" {
		t.Errorf("closed, %q is shown", m.Over.Text())
	}
	if m.Say(MessageTrouble, "Can't read it."); m.Over.Text() != "Leave it out?" {
		t.Errorf("what was closed is said again: %q", m.Over.Text())
	}
	m.Clear(MessageTrouble)
	if m.Say(MessageTrouble, "Can't read it."); m.Over.Text() != "Can't read it." {
		t.Errorf("after it was mended, %q is shown", m.Over.Text())
	}
	m.Close()
	if !m.Close() || answered != 1 || m.Over.Text() != "" || m.Close() {
		t.Errorf("answered %d times, %q is shown", answered, m.Over.Text())
	}
}
