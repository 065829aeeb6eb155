package gui

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
	tipFirst  = 750 * time.Millisecond
	tipAgain  = 300 * time.Millisecond
	tipMemory = time.Second
)

// tips shows one short explanation at a time, over the window's content, beside the part it
// belongs to. It takes no clicks. Use it on the Fyne goroutine only; a nil *tips shows none.
type tips struct {
	box  *fyne.Container // lies over the whole content
	back *canvas.Rectangle
	text *canvas.Text

	owner fyne.CanvasObject // whose tip is shown or waits; nil for none
	turn  int               // counts changes of owner: a timer that comes late is known by it
	stop  func()            // the timer that runs, if one does
	gone  time.Time         // when the last tip was taken away

	after func(time.Duration, func()) (stop func()) // runs the function on the Fyne goroutine
	clock func() time.Time
}

func newTips() *tips {
	t := &tips{
		back: canvas.NewRectangle(nil), text: sizedText(SmallSize, fyne.TextStyle{}),
		stop: func() {}, after: afterOnWindow, clock: time.Now,
	}
	t.back.CornerRadius = Radius
	t.box = container.NewWithoutLayout(t.back, t.text)
	t.hide()
	return t
}

// afterOnWindow runs f on the Fyne goroutine after a while.
func afterOnWindow(d time.Duration, f func()) (stop func()) {
	timer := time.AfterFunc(d, func() { fyne.Do(f) })
	return func() { timer.Stop() }
}

// enter shows words beside owner soon. Again and again for the same owner is the same.
func (t *tips) enter(words string, owner fyne.CanvasObject) {
	if t == nil || owner == t.owner {
		return
	}
	t.leave()
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

// now shows words beside owner at once, for what is pointed at to be read.
func (t *tips) now(words string, owner fyne.CanvasObject) {
	if t == nil || owner == t.owner && t.text.Visible() && t.text.Text == words {
		return
	}
	t.leave()
	t.owner = owner
	t.show(words, owner)
}

// leave takes the tip away, or keeps it from coming.
func (t *tips) leave() {
	if t == nil || t.owner == nil {
		return
	}
	t.stop()
	t.owner = nil
	t.turn++
	if t.text.Visible() {
		t.gone = t.clock()
		t.hide()
	}
}

func (t *tips) hide() {
	t.back.Hide()
	t.text.Hide()
}

func (t *tips) show(words string, owner fyne.CanvasObject) {
	th, v := fyne.CurrentApp().Settings().Theme(), fyne.CurrentApp().Settings().ThemeVariant()
	t.back.FillColor = th.Color(theme.ColorNameForeground, v) // the text's grey: it stands out on any ground
	t.text.Color = th.Color(theme.ColorNameForegroundOnPrimary, v)
	t.text.Text = words
	size := t.text.MinSize().AddWidthHeight(2*Step, Step)
	driver := fyne.CurrentApp().Driver()
	at := driver.AbsolutePositionForObject(owner).Subtract(driver.AbsolutePositionForObject(t.box))
	pos := tipPlace(at, owner.Size(), size, t.box.Size())
	t.back.Move(pos)
	t.back.Resize(size)
	placeText(t.text, pos.X+Step, pos.Y+Step/2)
	t.back.Show()
	t.text.Show()
	t.back.Refresh()
	t.text.Refresh()
}

// tipPlace returns where a tip of a size goes that belongs to a part at, of partSize: below
// it or, where there is no room, above, and within area.
func tipPlace(at fyne.Position, part, tip, area fyne.Size) fyne.Position {
	x := at.X + (part.Width-tip.Width)/2
	x = max(Step/2, min(x, area.Width-Step/2-tip.Width))
	y := at.Y + part.Height + Step/2
	if y+tip.Height > area.Height {
		y = at.Y - Step/2 - tip.Height
	}
	return fyne.NewPos(x, max(y, 0))
}
