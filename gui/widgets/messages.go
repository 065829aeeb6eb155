package widgets

import (
	"strings"

	"fyne.io/fyne/v2"

	"app.tonedesk/gui/icons"
)

// Message is what a part over the picture says; without words it says nothing.
type Message struct {
	Icon  icons.Name // of a chip
	Words string
	Acts  []MessageAct // what its buttons do; a tap on a chip does the first
	Close func()       // what its cross does; nil: it has none
}

// MessageAct is what a message lets the painter do.
type MessageAct struct {
	Name string
	Icon icons.Name // "" for none
	Do   func()
}

// Messages is all that is said over the picture, and takes no room: chips at its top left, what
// stays and a toast at its foot. What is beside them goes through to the picture.
type Messages struct {
	drawn
	chips   [MostChips]*PictureButton
	offer   *offer
	failure *toast // that stays
	toast   *toast
	heights [2]float32 // of what stays and of the toast
	stay    Message
	said    Message
	states  []Message

	chipsIn float32 // width of the picture, where chips lie; 0: all

	Held func()                   // the pointer came onto the toast, or went; may be nil
	Over func(head, foot float32) // so much of the picture's top left and of its foot is covered now; may be nil
}

// MostChips is how many chips are shown at once.
const MostChips = 2

// NewMessages returns messages with nothing to say.
func NewMessages(keys Keys, tips *Tips) *Messages {
	m := &Messages{}
	for i := range m.chips {
		m.chips[i] = add(&m.drawn, newPictureButton(shapeChip, keys, tips))
	}
	m.offer, m.failure, m.toast = add(&m.drawn, newOffer(keys)), add(&m.drawn, newToast(keys, tips)), add(&m.drawn, newToast(keys, tips))
	m.toast.hold = func() {
		if m.Held != nil {
			m.Held()
		}
	}
	m.draw(m)
	return m
}

// Set shows the states that last, the first two of them, what stays at the foot, which is an
// offer if there are two answers, and a toast.
func (m *Messages) Set(states []Message, stay, toast Message) {
	m.states, m.stay, m.said = states, stay, toast
	for i, chip := range m.chips {
		state := nth(states, i)
		act := nth(state.Acts, 0)
		chip.set(state.Icon, state.Words, act.Name, act.Do)
	}
	question, failure := stay, stay
	if len(stay.Acts) == 2 {
		failure = Message{}
	} else {
		question = Message{}
	}
	m.offer.set(question)
	m.failure.set(failure)
	m.toast.set(toast)
	m.redraw()
	if m.Over != nil {
		m.Over(chipsFoot(min(len(states), MostChips)), m.covered())
	}
}

// covered is how much of the picture's foot is covered.
func (m *Messages) covered() (height float32) {
	for _, h := range m.heights {
		if h > 0 {
			height += h + Step
		}
	}
	return height
}

// ToastHeld reports whether the pointer or the focus is on the toast: then it stays.
func (m *Messages) ToastHeld() bool { return m.toast.held() }

// Text returns all that is seen, a line each.
func (m *Messages) Text() string {
	var lines []string
	for i, s := range m.states {
		if i < MostChips {
			lines = append(lines, s.Words)
		}
	}
	for _, words := range []string{m.stay.Words, m.said.Words} {
		if words != "" {
			lines = append(lines, words)
		}
	}
	return strings.Join(lines, "\n")
}

// Below is the place below the chips, in the window, where a chip's menu belongs.
func (m *Messages) Below() fyne.Position {
	return fyne.CurrentApp().Driver().AbsolutePositionForObject(m).AddXY(Step, chipsFoot(min(len(m.states), MostChips)))
}

// write asks the parts for their heights in the picture's width, since wrapped words know theirs
// only once they have it.
func (m *Messages) write(size fyne.Size, _ colours) {
	if size.IsZero() {
		return
	}
	width := footWidth(size)
	room := size.Height - chipsFoot(min(len(m.states), MostChips)) - 2*Step
	m.heights = [2]float32{}
	switch {
	case m.offer.Visible():
		m.heights[0] = m.offer.heightFor(width, size.Height-2*Step)
	case m.failure.Visible():
		m.heights[0] = m.failure.heightFor(width, room)
	}
	if m.toast.Visible() {
		m.heights[1] = m.toast.heightFor(width, room)
	}
}

func (m *Messages) place(size fyne.Size) {
	for i, chip := range m.chips {
		if chip.Visible() {
			room := size.Width
			if m.chipsIn > 0 {
				room = min(room, m.chipsIn)
			}
			put(chip, fyne.NewPos(Step, chipTop(i)), fyne.NewSize(min(chip.MinSize().Width, max(room-2*Step, 1)), Row()))
		}
	}
	kept := lowToast()
	if m.offer.Visible() {
		kept = m.offer.answersHigh(footWidth(size))
	}
	at := footPlaces(size, m.heights, kept, chipsFoot(min(len(m.states), MostChips)))
	for i, part := range []fyne.CanvasObject{m.offer, m.failure, m.toast} {
		if part.Visible() {
			r := at[i/2]
			put(part, fyne.NewPos(r.x, r.y), fyne.NewSize(r.w, r.h))
		}
	}
}

// chipTop is where the room begins in which a chip can be hit; chips stand 34 apart in the plain
// size, a step from the picture's edges.
func chipTop(i int) float32 { return 0.75*Step + float32(i)*(Row()+2) }

// chipsFoot is where so many chips end.
func chipsFoot(count int) float32 {
	if count == 0 {
		return 0
	}
	return chipTop(count-1) + Row()
}

// widestFoot is how wide what is said at the foot is at most: a line of about 80 letters (our
// choice; longer ones are hard to read).
const widestFoot = 65 * Step

func footWidth(size fyne.Size) float32 { return max(min(size.Width-2*Step, widestFoot*textScale()), 1) }

// footPlaces is where what stays and the toast lie: at the picture's foot, the toast above. Where
// there is no room for both the toast covers what stays rather than the chips, but for so much of
// its foot as has its buttons.
func footPlaces(size fyne.Size, heights [2]float32, kept, chipsFoot float32) (at [2]rect) {
	width := footWidth(size)
	foot := size.Height - Step
	for i, h := range heights {
		at[i] = rect{round((size.Width - width) / 2), foot - h, width, h}
		if i > 0 {
			least := size.Height - h
			if heights[0] > 0 {
				least = at[0].bottom() - kept - h
			}
			at[i].y = max(at[i].y, min(chipsFoot, least))
		}
		if h > 0 {
			foot -= h + Step/2
		}
	}
	return at
}
