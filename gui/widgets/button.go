package widgets

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

// Button is Fyne's button with a visible focus outline, pressed by Enter too, and open to
// the window's keys.
type Button struct {
	widget.Button
	focus
	line *canvas.Rectangle // around it while it has the focus
	tips *Tips
	tip  string // what tips say of it

	Pointed func(on bool) // the pointer or the focus comes, or goes; may be nil
}

// NewButton returns a button that does tapped when it is pressed.
func NewButton(text string, keys Keys, tapped func()) *Button {
	b := &Button{line: newFocusLine(Radius)}
	b.focus = focus{keys: keys, owner: b, changed: func() { showFocus(b.line, b.focused, coloursOf(b)) }}
	b.line.Hide()
	b.Text, b.OnTapped = text, tapped
	b.ExtendBaseWidget(b)
	return b
}

// Below is where a menu of the button opens.
func (b *Button) Below() fyne.Position {
	return fyne.CurrentApp().Driver().AbsolutePositionForObject(b).AddXY(0, b.Size().Height)
}

// Explain gives the button a tip.
func (b *Button) Explain(tips *Tips, words string) { b.tips, b.tip = tips, words }

// MouseIn lets the tip come.
func (b *Button) MouseIn(e *desktop.MouseEvent) {
	b.Button.MouseIn(e)
	b.tips.enter(b.tip, b)
	b.point(true)
}

// MouseOut lets the tip go.
func (b *Button) MouseOut() {
	b.Button.MouseOut()
	b.tips.Leave()
	b.point(false)
}

// Tapped presses the button.
func (b *Button) Tapped(e *fyne.PointEvent) {
	b.tips.Leave()
	b.Button.Tapped(e)
}

// FocusGained shows the outline, and soon the tip.
func (b *Button) FocusGained() {
	b.focus.FocusGained()
	b.tips.enter(b.tip, b)
	b.Button.FocusGained()
	b.point(true)
}

// FocusLost hides both.
func (b *Button) FocusLost() {
	b.tips.Leave()
	b.focus.FocusLost()
	b.Button.FocusLost()
	b.point(false)
}

func (b *Button) point(on bool) {
	if b.Pointed != nil {
		b.Pointed(on)
	}
}

// TypedKey presses the button with Space and Enter.
func (b *Button) TypedKey(e *fyne.KeyEvent) {
	b.tips.Leave()
	if presses(e) {
		b.Tapped(nil)
	} else {
		b.keys.TypedKey(e.Name)
	}
}

// TypedRune goes to the window's keys, not to Fyne's button.
func (b *Button) TypedRune(r rune) { b.focus.TypedRune(r) }

// CreateRenderer lays the outline over Fyne's button.
func (b *Button) CreateRenderer() fyne.WidgetRenderer {
	return &buttonRenderer{WidgetRenderer: b.Button.CreateRenderer(), b: b}
}

type buttonRenderer struct {
	fyne.WidgetRenderer
	b *Button
}

// Layout gives the outline the button's size.
func (r *buttonRenderer) Layout(size fyne.Size) {
	r.WidgetRenderer.Layout(size)
	r.b.line.Resize(size)
}

// MinSize keeps buttons as narrow as their words allow.
func (r *buttonRenderer) MinSize() fyne.Size {
	size := r.WidgetRenderer.MinSize()
	return fyne.NewSize(max(size.Width-Step/2, 4*Step-Step/2), max(size.Height-Step/2, 3.5*Step))
}

// Objects are Fyne's button's and the outline.
func (r *buttonRenderer) Objects() []fyne.CanvasObject {
	return append(r.WidgetRenderer.Objects(), r.b.line)
}
