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
	below   float32 // so much of the height lies below the picture: for an offer that finds no room on it
	abreast bool    // two chips stand beside each other, by their pictograms alone

	reaches bool // an offer reaches below the picture

	Beyond func()                   // that has changed; may be nil
	Held   func()                   // the pointer came onto the toast, or went; may be nil
	Over   func(head, foot float32) // so much of the picture's top left and of its foot is covered now; may be nil
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
		m.Over(m.chipsFoot(), m.covered())
	}
}

// covered is how much of the picture's foot is covered.
func (m *Messages) covered() (height float32) {
	for _, h := range m.heights {
		if h > 0 {
			height += h + Step
		}
	}
	return max(height-m.beyond(m.Size()), 0)
}

// setBelow says how much of the height lies below the picture.
func (m *Messages) setBelow(below float32) {
	if below != m.below {
		m.below = below
		m.redraw()
	}
}

// chipsFoot is where the chips end.
func (m *Messages) chipsFoot() float32 {
	if m.abreast {
		return chipsFoot(1)
	}
	return chipsFoot(min(len(m.states), MostChips))
}

// beyond is by how much the offer is longer than what the chips leave of the picture: so far it reaches
// below it.
func (m *Messages) beyond(size fyne.Size) float32 {
	if !m.offer.Visible() {
		return 0
	}
	needs := m.chipsFoot() + Step/2 + m.heights[0] + Step
	return min(max(needs-(size.Height-m.below), 0), m.below)
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
	return fyne.CurrentApp().Driver().AbsolutePositionForObject(m).AddXY(Step, m.chipsFoot())
}

// write asks the parts for their heights in the picture's width, since wrapped words know theirs
// only once they have it.
func (m *Messages) write(size fyne.Size, _ colours) {
	if size.IsZero() {
		return
	}
	width, picture := footWidth(size), size.Height-m.below
	m.abreast = false
	m.heights = [2]float32{}
	if m.offer.Visible() {
		m.writeOffer(size, width)
	}
	room := picture - m.chipsFoot() - 2*Step
	if m.failure.Visible() {
		m.heights[0] = m.failure.heightFor(width, room)
	}
	if m.toast.Visible() {
		m.heights[1] = m.toast.heightFor(width, room)
	}
}

// writeOffer has the chips stand abreast where the offer would else lie over them: what lasts is seen
// beside what is asked.
func (m *Messages) writeOffer(size fyne.Size, width float32) {
	m.heights[0] = m.offer.heightFor(width, size.Height)
	m.abreast = len(m.states) > 1 && m.chipsFoot()+m.heights[0]+1.5*Step > size.Height-m.below
	m.heights[0] = m.offer.heightFor(width, size.Height-m.chipsFoot()-1.5*Step)
}

func (m *Messages) place(size fyne.Size) {
	m.placeChips(size.Width)
	if reaches := m.beyond(size) > 0; reaches != m.reaches {
		if m.reaches = reaches; m.Beyond != nil {
			m.Beyond()
		}
	}
	kept := lowToast()
	if m.offer.Visible() {
		kept = m.offer.answersHigh(footWidth(size))
	}
	at := footPlaces(size.SubtractWidthHeight(0, m.below-m.beyond(size)), m.heights, kept, m.chipsFoot())
	for i, part := range []fyne.CanvasObject{m.offer, m.failure, m.toast} {
		if part.Visible() {
			r := at[i/2]
			put(part, fyne.NewPos(r.x, r.y), fyne.NewSize(r.w, r.h))
		}
	}
}

// placeChips stands them below each other, or abreast.
func (m *Messages) placeChips(room float32) {
	if m.chipsIn > 0 {
		room = min(room, m.chipsIn)
	}
	x := Step
	for i, chip := range m.chips {
		chip.shorten(m.abreast)
		if !chip.Visible() {
			continue
		}
		least := chip.MinSize()
		if m.abreast {
			put(chip, fyne.NewPos(x, chipTop(0)), least)
			x += least.Width + Step/2
			continue
		}
		put(chip, fyne.NewPos(Step, chipTop(i)), fyne.NewSize(min(least.Width, max(room-2*Step, 1)), Row()))
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
