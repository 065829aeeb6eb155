package gui

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

// keySink takes the keys that a focused widget has no use for, so that the window's keys
// work wherever the focus is.
type keySink interface {
	typedRune(rune)
	typedKey(fyne.KeyName) bool
	typedShortcut(fyne.Shortcut)
	reveal(part fyne.CanvasObject) // a part got the focus
}

// button is Fyne's button with a visible focus outline, pressed by Enter too, and open to
// the window's keys.
type button struct {
	widget.Button
	keys    keySink
	outline *canvas.Rectangle
	tips    *tips
	tip     string // what tips say of it
}

func newButton(text string, keys keySink, tapped func()) *button {
	b := &button{keys: keys, outline: canvas.NewRectangle(color.Transparent)}
	b.outline.StrokeWidth, b.outline.CornerRadius = FocusWidth, Radius
	b.outline.Hide()
	b.Text, b.OnTapped = text, tapped
	b.ExtendBaseWidget(b)
	return b
}

// explain gives the button a tip.
func (b *button) explain(tips *tips, words string) { b.tips, b.tip = tips, words }

// MouseIn lets the tip come.
func (b *button) MouseIn(e *desktop.MouseEvent) {
	b.Button.MouseIn(e)
	b.tips.enter(b.tip, b)
}

// MouseOut lets the tip go.
func (b *button) MouseOut() {
	b.Button.MouseOut()
	b.tips.leave()
}

// Tapped presses the button.
func (b *button) Tapped(e *fyne.PointEvent) {
	b.tips.leave()
	b.Button.Tapped(e)
}

// FocusGained shows the outline, and soon the tip.
func (b *button) FocusGained() {
	b.keys.reveal(b)
	b.tips.enter(b.tip, b)
	b.Button.FocusGained()
	b.outline.StrokeColor = b.Theme().Color(ColorNameFocusLine, fyne.CurrentApp().Settings().ThemeVariant())
	b.outline.Show()
	b.outline.Refresh()
}

// FocusLost hides it.
func (b *button) FocusLost() {
	b.tips.leave()
	b.outline.Hide()
	b.Button.FocusLost()
}

// TypedKey presses the button with Space and Enter.
func (b *button) TypedKey(e *fyne.KeyEvent) {
	b.tips.leave()
	switch e.Name {
	case fyne.KeySpace, fyne.KeyReturn, fyne.KeyEnter:
		b.Tapped(nil)
	default:
		b.keys.typedKey(e.Name)
	}
}

// TypedRune goes to the window's keys, but for the space that pressed the button.
func (b *button) TypedRune(r rune) {
	if r != ' ' {
		b.keys.typedRune(r)
	}
}

// TypedShortcut goes to the window's keys.
func (b *button) TypedShortcut(s fyne.Shortcut) { b.keys.typedShortcut(s) }

// CreateRenderer lays the outline over Fyne's button.
func (b *button) CreateRenderer() fyne.WidgetRenderer {
	return &buttonRenderer{WidgetRenderer: b.Button.CreateRenderer(), b: b}
}

type buttonRenderer struct {
	fyne.WidgetRenderer
	b *button
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
