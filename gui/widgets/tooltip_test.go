package widgets

import (
	"slices"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
)

// clock stands in for time: it holds the timer that runs, and the time of now.
type clock struct {
	delay time.Duration
	due   func()
	time  time.Time
}

func (c *clock) after(d time.Duration, f func()) (stop func()) {
	c.delay, c.due = d, f
	return func() { c.delay = 0 } // due stays: a timer may fire while it is stopped
}

// tipped is a window with a button that has a tip, and with the clock of its tips.
func tipped(t *testing.T) (*Tips, *Button, *Button, *clock) {
	t.Helper()
	tip, c := NewTips(nil), &clock{time: time.Date(2026, 1, 1, 0, 0, 0, 0, time.UTC)}
	tip.after, tip.clock = c.after, func() time.Time { return c.time }
	a, b := NewButton("One", &heardKeys{}, func() {}), NewButton("Two", &heardKeys{}, func() {})
	a.Explain(tip, "The first (A)")
	b.Explain(tip, "The second (B)")
	shownIn(t, container.NewStack(container.NewVBox(container.NewHBox(a, b)), tip.Box), 320, 200)
	return tip, a, b, c
}

func TestTipComesAndGoes(t *testing.T) {
	tip, a, b, clock := tipped(t)
	a.MouseIn(&desktop.MouseEvent{})
	if clock.delay != tipFirst || tip.shown() {
		t.Errorf("the first tip waits %v; shown %v", clock.delay, tip.shown())
	}
	clock.due()
	if !tip.shown() || tip.words != "The first (A)" {
		t.Errorf("shown %v: %q", tip.shown(), tip.words)
	}
	if y, end := tip.back.Position().Y, a.Position().Y+a.Size().Height; y < end {
		t.Errorf("the tip lies on its button: at %g, the button ends at %g", y, end)
	}
	a.MouseOut()
	if tip.Box.Visible() {
		t.Error("the tip stays without the pointer")
	}
	clock.time = clock.time.Add(tipMemory / 2)
	b.MouseIn(&desktop.MouseEvent{})
	if clock.delay != tipAgain {
		t.Errorf("the next tip waits %v", clock.delay)
	}
	clock.due()
	b.MouseOut()
	clock.time = clock.time.Add(2 * tipMemory)
	a.MouseIn(&desktop.MouseEvent{})
	if clock.delay != tipFirst {
		t.Errorf("after a while the tip waits %v", clock.delay)
	}
}

func TestTipIsCancelled(t *testing.T) {
	tip, a, b, clock := tipped(t)
	a.MouseIn(&desktop.MouseEvent{})
	late := clock.due
	a.MouseOut()
	if clock.delay != 0 {
		t.Error("the timer runs on")
	}
	b.MouseIn(&desktop.MouseEvent{})
	late() // fired just before it was stopped
	if tip.shown() {
		t.Errorf("a tip that was given up came: %q", tip.words)
	}
	clock.due()
	test.Tap(b)
	if tip.shown() {
		t.Error("the tip stays after the button was pressed")
	}
}

func TestTipByKeyboard(t *testing.T) {
	tip, a, _, clock := tipped(t)
	a.FocusGained()
	clock.due()
	if !tip.shown() {
		t.Error("no tip for who comes by keyboard")
	}
	a.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if tip.shown() {
		t.Error("Esc does not take the tip away")
	}
	a.MouseIn(&desktop.MouseEvent{})
	a.FocusLost()
	if clock.delay != 0 {
		t.Error("a tip comes though the focus went")
	}
}

func TestNoTips(t *testing.T) {
	test.NewTempApp(t)
	var none *Tips
	b := NewButton("One", &heardKeys{}, func() {})
	none.enter("words", b)
	none.Leave()
	b.MouseIn(&desktop.MouseEvent{})
	b.MouseOut()
}

// Tips stand above what they explain, but not where that would hide the tabs (the rule of the window).
func TestTipPlace(t *testing.T) {
	area, tip := fyne.NewSize(320, 480), fyne.NewSize(100, 24)
	none, tabsAbove, tabsBelow := rect{}, rect{0, 56, 320, 40}, rect{0, 440, 320, 40}
	for _, tt := range []struct {
		name string
		part rect
		keep rect
		want fyne.Position
	}{
		{"above, in the middle", rect{100, 150, 60, 30}, none, fyne.NewPos(80, 122)},
		{"at the left border", rect{0, 150, 60, 30}, none, fyne.NewPos(4, 122)},
		{"at the right border", rect{260, 150, 60, 30}, none, fyne.NewPos(216, 122)},
		{"no room above", rect{100, 6, 60, 36}, none, fyne.NewPos(80, 46)},
		{"tabs above", rect{100, 104, 60, 30}, tabsAbove, fyne.NewPos(80, 138)},
		{"further below these tabs", rect{100, 130, 60, 30}, tabsAbove, fyne.NewPos(80, 102)},
		{"tabs below", rect{100, 400, 60, 30}, tabsBelow, fyne.NewPos(80, 372)},
	} {
		if got := tipPlace(tt.part, tt.keep, tip, area); got != tt.want {
			t.Errorf("%s: %v, want %v", tt.name, got, tt.want)
		}
	}
	if got := tipPlace(rect{0, 5, 60, 30}, none, fyne.NewSize(900, 24), fyne.NewSize(320, 30)); got.X < 0 || got.Y < 0 {
		t.Errorf("a tip too large begins outside: %v", got)
	}
}

func TestSpotTips(t *testing.T) {
	tip, clock := NewTips(nil), &clock{}
	tip.after = clock.after
	c := newSpotRow(1, SpotActs{Tips: tip})
	shownIn(t, c, 364, 32)
	state, _ := spotsOf(3)
	c.set(state.Texts[1], false, false)
	over := func(o fyne.CanvasObject) {
		c.MouseMoved(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: o.Position().AddXY(5, 6)}})
	}
	over(c.hex)
	clock.due()
	if tip.words != hexTip.String() || !tip.shown() {
		t.Errorf("over the hex code: %q", tip.words)
	}
	over(c.cross)
	clock.due()
	if tip.words != crossTip.String() || !tip.shown() {
		t.Errorf("over the cross: %q", tip.words)
	}
	over(c.colourBox)
	if tip.shown() {
		t.Error("a tip over the colour")
	}
	over(c.cross)
	c.MouseOut()
	if tip.owner != nil {
		t.Error("a tip waits though the pointer went")
	}
}

// shown reports whether a tip is seen.
func (t *Tips) shown() bool { return t.words != "" && t.Box.Visible() }

// By hand: letters of width 1.
func TestBrokenLines(t *testing.T) {
	wide := func(s string) float32 { return float32(len(s)) }
	for _, tt := range []struct {
		words string
		want  []string
	}{
		{"", []string{""}}, {"one two", []string{"one two"}}, {"one two three", []string{"one two", "three"}},
		{"incomprehensibly so", []string{"incomprehensibly", "so"}},
		{"a bb ccccccc ddddddd eeeeeee f", []string{"a bb", "ccccccc", "ddddddd eeeeeee f"}},
	} {
		if got := brokenLines(tt.words, 8, 3, wide); !slices.Equal(got, tt.want) {
			t.Errorf("%q: %q, want %q", tt.words, got, tt.want)
		}
	}
}

// A tip wider than the window is broken into lines, and never asks for room.
func TestLongTip(t *testing.T) {
	tip, part := NewTips(nil), NewSentence()
	w := shownIn(t, container.NewStack(part, tip.Box), 320, 200)
	before := w.Content().MinSize()
	tip.Now("#ffeac8, lightness 93.6, value 9.3, chroma 19.2, hue 84.2, at the gamut's limit, and more", part)
	if after := w.Content().MinSize(); after != before {
		t.Errorf("with a tip the window needs %v, without %v", after, before)
	}
	if right := tip.back.Position().X + tip.back.Size().Width; tip.back.Position().X < 0 || right > 320 {
		t.Errorf("the tip reaches from %g to %g", tip.back.Position().X, right)
	}
	if !tip.lines[1].Visible() {
		t.Error("it is one line")
	}
}
