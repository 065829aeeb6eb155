package widgets

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

// Keys takes the keys that a focused widget has no use for, so that the window's keys
// work wherever the focus is.
type Keys interface {
	TypedRune(rune)
	TypedKey(fyne.KeyName) bool
	TypedShortcut(fyne.Shortcut)
	Reveal(part fyne.CanvasObject) // a part got the focus
}

// Button is Fyne's button with a visible focus outline, pressed by Enter too, and open to
// the window's keys.
type Button struct {
	widget.Button
	Keys    Keys
	outline *canvas.Rectangle
	tips    *Tips
	tip     string // what tips say of it
}

func NewButton(text string, keys Keys, tapped func()) *Button {
	b := &Button{Keys: keys, outline: canvas.NewRectangle(color.Transparent)}
	b.outline.StrokeWidth, b.outline.CornerRadius = FocusWidth, Radius
	b.outline.Hide()
	b.Text, b.OnTapped = text, tapped
	b.ExtendBaseWidget(b)
	return b
}

// Explain gives the button a tip.
func (b *Button) Explain(tips *Tips, words string) { b.tips, b.tip = tips, words }

// MouseIn lets the tip come.
func (b *Button) MouseIn(e *desktop.MouseEvent) {
	b.Button.MouseIn(e)
	b.tips.enter(b.tip, b)
}

// MouseOut lets the tip go.
func (b *Button) MouseOut() {
	b.Button.MouseOut()
	b.tips.Leave()
}

// Tapped presses the button.
func (b *Button) Tapped(e *fyne.PointEvent) {
	b.tips.Leave()
	b.Button.Tapped(e)
}

// FocusGained shows the outline, and soon the tip.
func (b *Button) FocusGained() {
	b.Keys.Reveal(b)
	b.tips.enter(b.tip, b)
	b.Button.FocusGained()
	b.outline.StrokeColor = b.Theme().Color(ColorNameFocusLine, fyne.CurrentApp().Settings().ThemeVariant())
	b.outline.Show()
	b.outline.Refresh()
}

// FocusLost hides it.
func (b *Button) FocusLost() {
	b.tips.Leave()
	b.outline.Hide()
	b.Button.FocusLost()
}

// TypedKey presses the button with Space and Enter.
func (b *Button) TypedKey(e *fyne.KeyEvent) {
	b.tips.Leave()
	switch e.Name {
	case fyne.KeySpace, fyne.KeyReturn, fyne.KeyEnter:
		b.Tapped(nil)
	default:
		b.Keys.TypedKey(e.Name)
	}
}

// TypedRune goes to the window's keys, but for the space that pressed the button.
func (b *Button) TypedRune(r rune) {
	if r != ' ' {
		b.Keys.TypedRune(r)
	}
}

// TypedShortcut goes to the window's keys.
func (b *Button) TypedShortcut(s fyne.Shortcut) { b.Keys.TypedShortcut(s) }

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
	r.b.outline.Resize(size)
}

// MinSize keeps buttons as narrow as their words allow.
func (r *buttonRenderer) MinSize() fyne.Size {
	size := r.WidgetRenderer.MinSize()
	return fyne.NewSize(max(size.Width-Step/2, 4*Step-Step/2), max(size.Height-Step/2, 3.5*Step))
}

// Objects are Fyne's and the outline.
func (r *buttonRenderer) Objects() []fyne.CanvasObject {
	return append(r.WidgetRenderer.Objects(), r.b.outline)
}
