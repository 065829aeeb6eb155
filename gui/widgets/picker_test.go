package widgets

import (
	"image"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
)

// picked is a picker in a window, pixel by pixel over a desktop that begins at (-100, 0), and
// what it told when it was done.
type picked struct {
	*Picker
	window fyne.Window
	keys   heardKeys // of our own window
	calls  int
	region image.Rectangle
	ok     bool
}

func newPicked(t *testing.T, chosen image.Rectangle) *picked {
	t.Helper()
	p := &picked{}
	area := image.Rect(-100, 0, 700, 600)
	p.Picker = NewPicker(&p.keys)
	p.Begin(image.NewRGBA(image.Rectangle{Max: area.Size()}), area, chosen, func(r image.Rectangle, ok bool) {
		p.calls++
		p.region, p.ok = r, ok
	})
	p.window = shownIn(t, p.Picker, 800, 600)
	p.window.Canvas().Focus(p.Picker)
	return p
}

// at is an event of the pointer over a pixel of the desktop.
func at(x, y int, button desktop.MouseButton) *desktop.MouseEvent {
	return &desktop.MouseEvent{Button: button, PointEvent: fyne.PointEvent{Position: fyne.NewPos(float32(x+100), float32(y))}}
}

// drag drags from one pixel to another.
func (p *picked) drag(x, y, toX, toY int) {
	p.MouseDown(at(x, y, desktop.MouseButtonPrimary))
	p.Dragged(&fyne.DragEvent{PointEvent: at((x+toX)/2, (y+toY)/2, 0).PointEvent})
	p.Dragged(&fyne.DragEvent{PointEvent: at(toX, toY, 0).PointEvent})
	p.MouseUp(at(toX, toY, desktop.MouseButtonPrimary))
	p.DragEnd()
}

func (p *picked) strike(names ...fyne.KeyName) {
	for _, name := range names {
		p.TypedKey(&fyne.KeyEvent{Name: name})
	}
}

func (p *picked) wants(t *testing.T, what string, want image.Rectangle) {
	t.Helper()
	if p.chosen != want {
		t.Errorf("%s: chosen is %v, want %v", what, p.chosen, want)
	}
}

// A drag begins a region, one inside moves it, one on its edge resizes it. Expected values
// follow from the pixels of the drags, by hand.
func TestPickerDrags(t *testing.T) {
	p := newPicked(t, image.Rectangle{})
	p.drag(200, 300, 100, 100)
	p.wants(t, "dragged to the upper left", image.Rect(100, 100, 200, 300))
	p.drag(150, 200, 170, 190)
	p.wants(t, "moved", image.Rect(120, 90, 220, 290))
	p.drag(220, 290, 320, 390)
	p.wants(t, "its corner dragged", image.Rect(120, 90, 320, 390))
	p.drag(-50, 500, -150, 700)
	p.wants(t, "begun anew, beyond the desktop", image.Rect(-100, 500, -50, 600))
	p.Dragged(&fyne.DragEvent{PointEvent: at(300, 300, 0).PointEvent})
	p.wants(t, "no button is down", image.Rect(-100, 500, -50, 600))
	if p.calls != 0 {
		t.Error("a drag takes the region")
	}
}

// Arrows move the region and, with Ctrl, its lower right corner, by ten pixels with Shift.
func TestPickerByKeys(t *testing.T) {
	p := newPicked(t, image.Rectangle{})
	p.strike(fyne.KeyRight)
	p.wants(t, "the first arrow", image.Rect(50, 150, 550, 450)) // a quarter of 600 from each side
	p.strike(fyne.KeyRight, fyne.KeyDown)
	p.wants(t, "arrows", image.Rect(51, 151, 551, 451))
	p.KeyDown(&fyne.KeyEvent{Name: desktop.KeyShiftLeft})
	p.strike(fyne.KeyLeft)
	p.wants(t, "with Shift", image.Rect(41, 151, 541, 451))
	p.window.Canvas().Unfocus() // the shift key comes up elsewhere
	p.window.Canvas().Focus(p.Picker)
	p.strike(fyne.KeyUp)
	p.wants(t, "after the focus was away", image.Rect(41, 150, 541, 450))
	ctrl := fyne.KeyModifierControl
	p.TypedShortcut(&desktop.CustomShortcut{KeyName: fyne.KeyRight, Modifier: ctrl})
	p.wants(t, "with Ctrl", image.Rect(41, 150, 542, 450))
	p.TypedShortcut(&desktop.CustomShortcut{KeyName: fyne.KeyUp, Modifier: ctrl | fyne.KeyModifierShift})
	p.wants(t, "with Ctrl and Shift", image.Rect(41, 150, 542, 440))
	p.strike(fyne.KeyReturn, fyne.KeyReturn, fyne.KeyEscape)
	if p.calls != 1 || !p.ok || p.region != image.Rect(41, 150, 542, 440) {
		t.Errorf("done is called %d times, last with %v, %v", p.calls, p.region, p.ok)
	}
}

// What is too small to watch is not taken, and the legend says so until another is chosen.
func TestPickerWantsARegion(t *testing.T) {
	p := newPicked(t, image.Rectangle{})
	p.strike(fyne.KeyReturn)
	if p.calls != 0 || p.words.Text != legendSmall.String() {
		t.Errorf("nothing chosen: done is called %d times, the legend is %q", p.calls, p.words.Text)
	}
	p.drag(100, 100, 102, 102)
	p.strike(fyne.KeyEnter)
	if p.calls != 0 || p.words.Text != legendSmall.String() {
		t.Errorf("too small: done is called %d times, the legend is %q", p.calls, p.words.Text)
	}
	p.drag(300, 300, 500, 500)
	if p.words.Text == legendSmall.String() || !p.take.Visible() {
		t.Errorf("large enough: the legend is %q", p.words.Text)
	}
	test.Tap(p.take)
	if p.calls != 1 || !p.ok || p.region != image.Rect(300, 300, 500, 500) {
		t.Errorf("done is called %d times, with %v, %v", p.calls, p.region, p.ok)
	}
}

func TestPickerGivesUp(t *testing.T) {
	for name, give := range map[string]func(*picked){
		"Esc":              func(p *picked) { p.strike(fyne.KeyEscape, fyne.KeyEscape, fyne.KeyReturn) },
		"the right button": func(p *picked) { p.MouseDown(at(150, 150, desktop.MouseButtonSecondary)) },
		"Esc on a button":  func(p *picked) { p.take.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape}) },
		"the window":       func(p *picked) { p.End(false); p.End(false) },
	} {
		p := newPicked(t, image.Rect(100, 100, 300, 300))
		if give(p); p.calls != 1 || p.ok {
			t.Errorf("by %s: done is called %d times, with %v", name, p.calls, p.ok)
		}
	}
}

// The keys that quit give up and go to our own window, which is hidden and hears none; others do neither.
func TestPickerQuits(t *testing.T) {
	control := func(key fyne.KeyName) fyne.Shortcut {
		return &desktop.CustomShortcut{KeyName: key, Modifier: fyne.KeyModifierShortcutDefault}
	}
	for name, in := range map[string]func(*picked, fyne.Shortcut){
		"the picture": func(p *picked, s fyne.Shortcut) { p.TypedShortcut(s) },
		"a button":    func(p *picked, s fyne.Shortcut) { p.take.TypedShortcut(s) },
	} {
		p := newPicked(t, image.Rect(100, 100, 300, 300))
		in(p, control(fyne.KeyS))
		in(p, &fyne.ShortcutUndo{})
		if p.calls != 0 || p.keys.shortcuts != 0 {
			t.Errorf("%s: other keys end it %d times and reach our window %d times", name, p.calls, p.keys.shortcuts)
		}
		in(p, control(fyne.KeyQ))
		if p.calls != 1 || p.ok || p.keys.shortcuts != 1 {
			t.Errorf("%s: quitting ends it %d times, with %v, and reaches our window %d times", name, p.calls, p.ok, p.keys.shortcuts)
		}
	}
}

// The legend lies below what is chosen, above it, or inside, wherever there is room for it,
// and always in the window.
func TestLegendPlace(t *testing.T) {
	window, own := fyne.NewSize(800, 600), fyne.NewSize(300, 40)
	for _, tt := range []struct {
		name string
		pos  fyne.Position
		box  fyne.Size
		want fyne.Position
	}{
		{"nothing is chosen", fyne.Position{}, fyne.Size{}, fyne.NewPos(250, 4*Step)},
		{"below", fyne.NewPos(200, 100), fyne.NewSize(400, 200), fyne.NewPos(250, 300+2*Step)},
		{"above", fyne.NewPos(200, 300), fyne.NewSize(400, 290), fyne.NewPos(250, 300-40-2*Step)},
		{"inside", fyne.NewPos(0, 0), window, fyne.NewPos(250, 600-40-2*Step)},
		{"at the left border", fyne.NewPos(0, 100), fyne.NewSize(50, 50), fyne.NewPos(0, 150+2*Step)},
	} {
		if got := legendPlace(tt.pos, tt.box, own, window); got != tt.want {
			t.Errorf("%s: %v, want %v", tt.name, got, tt.want)
		}
	}
}
