package widgets

import (
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
)

// A tip comes after the pointer has rested for tipFirst, and sooner for the next part while
// the painter goes along a row, up to tipMemory after the last tip went.
const (
	tipFirst  = 600 * time.Millisecond
	tipAgain  = 300 * time.Millisecond
	tipMemory = time.Second
)

// Tips shows one short explanation at a time, over the window's content, beside the part it
// belongs to. It takes no clicks; a nil *Tips shows none.
type Tips struct {
	Box   *fyne.Container   // to lie over the whole content
	Clear fyne.CanvasObject // what no tip may cover; may be nil
	back  *canvas.Rectangle
	lines [tipLines]*canvas.Text
	words string // that are shown; "" if none are

	owner fyne.CanvasObject // whose tip is shown or waits; nil for none
	turn  int               // counts changes of owner: a timer that comes late is known by it
	stop  func()            // the timer that runs, if one does
	gone  time.Time         // when the last tip was taken away

	after func(time.Duration, func()) (stop func()) // runs the function on the Fyne goroutine
	clock func() time.Time
}

// tipLines is how many lines a tip may have; what is too long for them is cut.
const tipLines = 4

// NewTips returns tips, none of which is shown; after runs a function on the Fyne goroutine
// after a while.
func NewTips(after func(time.Duration, func()) (stop func())) *Tips {
	t := &Tips{back: canvas.NewRectangle(nil), stop: func() {}, after: after, clock: time.Now}
	t.back.CornerRadius = Radius
	t.Box = container.New(anywhere{}, t.back)
	for i := range t.lines {
		t.lines[i] = sizedText(SmallSize(), fyne.TextStyle{})
		t.Box.Add(t.lines[i])
	}
	t.Box.Hide()
	return t
}

// anywhere leaves what is in it where it is, and asks for no room: a tip must not make the
// window wider.
type anywhere struct{}

func (anywhere) Layout([]fyne.CanvasObject, fyne.Size)        {}
func (anywhere) MinSize([]fyne.CanvasObject) (none fyne.Size) { return none }

// enter shows words beside owner soon. Again and again for the same owner is the same.
func (t *Tips) enter(words string, owner fyne.CanvasObject) {
	if t == nil || owner == t.owner {
		return
	}
	t.Leave()
	if words == "" {
		return
	}
	delay := tipFirst
	if !t.gone.IsZero() && t.clock().Sub(t.gone) < tipMemory {
		delay = tipAgain
	}
	t.owner = owner
	turn := t.turn
	t.stop = t.after(delay, func() {
		if t.turn == turn {
			t.show(words, owner)
		}
	})
}

// Now shows words beside owner at once, for what is pointed at to be read.
func (t *Tips) Now(words string, owner fyne.CanvasObject) {
	if t == nil || owner == t.owner && t.words == words && words != "" {
		return
	}
	t.Leave()
	t.owner = owner
	t.show(words, owner)
}

// Leave takes the tip away, or keeps it from coming.
func (t *Tips) Leave() {
	if t == nil || t.owner == nil {
		return
	}
	t.stop()
	t.owner = nil
	t.turn++
	if t.words != "" {
		t.words, t.gone = "", t.clock()
		t.Box.Hide()
		refresh(t.Box)
	}
}

func (t *Tips) show(words string, owner fyne.CanvasObject) {
	t.words = words
	t.Box.Show() // before it is measured: what is hidden has no place
	th, v := fyne.CurrentApp().Settings().Theme(), fyne.CurrentApp().Settings().ThemeVariant()
	t.back.FillColor = th.Color(theme.ColorNameForeground, v) // the text's grey: it stands out on any ground
	lines := brokenLines(words, t.Box.Size().Width-3*Step, len(t.lines), smallWidth)
	var size fyne.Size
	for i, text := range t.lines {
		text.Text, text.Color = "", th.Color(theme.ColorNameForegroundOnPrimary, v)
		if i < len(lines) {
			text.Text = lines[i]
			size = fyne.NewSize(max(size.Width, text.MinSize().Width), size.Height+text.MinSize().Height)
		}
	}
	size = size.AddWidthHeight(2*Step, Step)
	pos := tipPlace(t.boxOf(owner), t.boxOf(t.Clear), size, t.Box.Size())
	put(t.back, pos, size)
	for i, text := range t.lines {
		placeText(text, pos.X+Step, pos.Y+Step/2+float32(i)*text.MinSize().Height)
	}
	refresh(t.Box)
}

// boxOf is where a part lies in the window; nowhere where it is none.
func (t *Tips) boxOf(part fyne.CanvasObject) rect {
	if part == nil {
		return rect{}
	}
	driver := fyne.CurrentApp().Driver()
	at := driver.AbsolutePositionForObject(part).Subtract(driver.AbsolutePositionForObject(t.Box))
	return rect{at.X, at.Y, part.Size().Width, part.Size().Height}
}

// tipPlace returns where a tip of a size goes that belongs to a part: above it or, where there is no
// room or what is to stay clear lies there, below, and within area.
func tipPlace(part, keep rect, tip, area fyne.Size) fyne.Position {
	x := part.x + (part.w-tip.Width)/2
	x = max(Step/2, min(x, area.Width-Step/2-tip.Width))
	y := part.y - Step/2 - tip.Height
	covers := x < keep.x+keep.w && keep.x < x+tip.Width && y < keep.y+keep.h && keep.y < y+tip.Height
	if y < 0 || covers && part.y >= keep.y+keep.h {
		y = part.y + part.h + Step/2
	}
	return fyne.NewPos(x, max(min(y, area.Height-tip.Height), 0))
}
