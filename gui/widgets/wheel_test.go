package widgets

import (
	"fmt"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"
)

// The wheel over a list scrolls it to its end and then the page, also the other way round; over an
// entry that shows all of its words, and over what stays above the page, it scrolls the page at once.
func TestWheelGoesOutward(t *testing.T) {
	test.NewTempApp(t)
	_, rows := NewNoteList(&heardKeys{}, func() int { return 10 }, func(i int) NoteText { return NoteText{Words: fmt.Sprint(i)} }, func(int) {})
	list := rows.(*container.ThemeOverride).Content.(*NoteList)
	entry := NewTextEntry(&heardKeys{}, "")
	page := NewPageColumn()
	page.Set(container.NewVBox(entry, container.New(LeastHeight{100}, rows), container.New(LeastHeight{400}, NewPanel())), container.New(LeastHeight{32}, NewPanel()), nil)
	window := test.NewTempWindow(t, page)
	window.SetPadded(false)
	window.Resize(fyne.NewSize(300, 240))
	over := func(o fyne.CanvasObject) fyne.Position {
		at := fyne.CurrentApp().Driver().AbsolutePositionForObject(o)
		return at.AddXY(o.Size().Width/2, o.Size().Height/2)
	}
	turn := func(at fyne.Position, by float32) {
		page.wheel.Scrolled(&fyne.ScrollEvent{PointEvent: fyne.PointEvent{Position: at, AbsolutePosition: at}, Scrolled: fyne.NewDelta(0, by)})
	}
	turn(over(list), -50)
	if list.GetScrollOffset() != 50 || page.Scroll.Offset.Y != 0 {
		t.Errorf("the list is at %g, the page at %g: want 50, 0", list.GetScrollOffset(), page.Scroll.Offset.Y)
	}
	turn(over(list), -5000)
	end := list.GetScrollOffset()
	if turn(over(list), -20); list.GetScrollOffset() != end || page.Scroll.Offset.Y != 20 {
		t.Errorf("at its end, %g, the list is at %g, the page at %g: want 20", end, list.GetScrollOffset(), page.Scroll.Offset.Y)
	}
	turn(over(list), 5000)
	if turn(over(list), 5); list.GetScrollOffset() != 0 || page.Scroll.Offset.Y != 15 {
		t.Errorf("at its beginning the list is at %g, the page at %g: want 0, 15", list.GetScrollOffset(), page.Scroll.Offset.Y)
	}
	for i, at := range []fyne.Position{over(entry), {X: 20, Y: 10}} {
		if turn(at, -5); page.Scroll.Offset.Y != float32(20+5*i) {
			t.Errorf("over %v the page is at %g", at, page.Scroll.Offset.Y)
		}
	}
}
