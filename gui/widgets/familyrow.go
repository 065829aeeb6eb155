package widgets

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/gui/wording"
)

// FamilyActs are told what the painter does with row i.
type FamilyActs struct {
	Point  func(i int, on bool) // the pointer or the focus is on the row
	Choose func(i int)          // the row was pressed
	Take   func(c colour.RGB)   // a side was pressed with the other button
	Delete func(i int)          // of a family set by hand
	Copy   func(c colour.RGB)   // a line's colour was pressed
	Keys   Keys
	Tips   *Tips
}

// FamilyRow shows one family: light and shadow edge to edge, their greys edge to edge, what
// there is to say. Pointing at it outlines its sides in the mirror, a press makes its
// colours spots. Use it on the Fyne goroutine only.
type FamilyRow struct {
	widget.BaseWidget
	index   int
	acts    FamilyActs
	Text    wording.FamilyRowText
	focused bool
	over    bool
	r       *familyRowRenderer
}

var (
	_ fyne.Focusable         = (*FamilyRow)(nil)
	_ fyne.Tappable          = (*FamilyRow)(nil)
	_ fyne.SecondaryTappable = (*FamilyRow)(nil)
	_ fyne.Shortcutable      = (*FamilyRow)(nil)
	_ desktop.Cursorable     = (*FamilyRow)(nil)
	_ desktop.Hoverable      = (*FamilyRow)(nil)
)

func NewFamilyRow(index int, acts FamilyActs) *FamilyRow {
	f := &FamilyRow{index: index, acts: acts}
	f.ExtendBaseWidget(f)
	return f
}

// Set shows t, and reports whether the row asks for another height.
func (f *FamilyRow) Set(t wording.FamilyRowText) (resized bool) {
	if t.Equal(f.Text) {
		return false
	}
	before := len(f.lines())
	f.Text = t
	resized = len(f.lines()) != before
	if f.r != nil {
		f.r.write()
	}
	return resized
}

// Tapped makes the colours spots, or deletes a family that was set by hand.
func (f *FamilyRow) Tapped(e *fyne.PointEvent) {
	if f.Text.ByHand && f.r != nil && inside(e.Position, f.r.cross) {
		f.acts.Delete(f.index)
		return
	}
	if i := f.lineAt(e.Position); i >= 0 {
		f.acts.Copy(f.Text.Lines[i])
		return
	}
	f.acts.Choose(f.index)
}

// TappedSecondary goes on from the side under the pointer, to colours to paint next.
func (f *FamilyRow) TappedSecondary(e *fyne.PointEvent) {
	p := planFamily(f.Size().Width, 0)
	if f.Text.Lost || e.Position.X < p.swatch.X || e.Position.X >= p.swatch.X+4*p.side {
		return
	}
	side := f.Text.Light
	if i := int((e.Position.X - p.swatch.X) / p.side); i%2 == 1 {
		side = f.Text.Shadow
	}
	f.acts.Take(side)
}

// lineAt returns the proposed line's colour at a point, -1 if there is none.
func (f *FamilyRow) lineAt(p fyne.Position) int {
	if f.r == nil {
		return -1
	}
	return slices.IndexFunc(f.r.lines[:], func(box *canvas.Rectangle) bool { return !box.Hidden && inside(p, box) })
}

// MouseIn points at the family.
func (f *FamilyRow) MouseIn(e *desktop.MouseEvent) {
	f.over = true
	f.acts.Point(f.index, true)
	f.MouseMoved(e)
}

// MouseMoved lets the tip come of the part under the pointer.
func (f *FamilyRow) MouseMoved(e *desktop.MouseEvent) {
	if f.Text.ByHand && f.r != nil && inside(e.Position, f.r.cross) {
		f.acts.Tips.enter("Take this family away (Delete)", f.r.cross)
		return
	}
	if i := f.lineAt(e.Position); i >= 0 {
		f.acts.Tips.Now("Copy "+f.Text.Lines[i].Hex(), f.r.lines[i])
		return
	}
	f.acts.Tips.enter("Click: these colours become spots A and B. Right click: go on from one", f)
}

// MouseOut points no longer.
func (f *FamilyRow) MouseOut() {
	f.over = false
	f.acts.Tips.Leave()
	f.acts.Point(f.index, f.focused)
}

// Cursor is the hand: rows are there to be pressed.
func (f *FamilyRow) Cursor() desktop.Cursor { return desktop.PointerCursor }

// FocusGained shows the outline, here and in the mirror.
func (f *FamilyRow) FocusGained() {
	f.acts.Keys.Reveal(f)
	f.setFocused(true)
}

// FocusLost takes it away.
func (f *FamilyRow) FocusLost() { f.setFocused(false) }

func (f *FamilyRow) setFocused(focused bool) {
	f.focused = focused
	f.acts.Point(f.index, focused || f.over)
	if f.r != nil {
		f.r.Refresh()
	}
}

// TypedKey presses the row with Enter or Space and deletes with Delete.
func (f *FamilyRow) TypedKey(e *fyne.KeyEvent) {
	switch {
	case e.Name == fyne.KeyReturn || e.Name == fyne.KeyEnter || e.Name == fyne.KeySpace:
		f.acts.Choose(f.index)
	case f.Text.ByHand && (e.Name == fyne.KeyDelete || e.Name == fyne.KeyBackspace):
		f.acts.Delete(f.index)
	default:
		f.acts.Keys.TypedKey(e.Name)
	}
}

// TypedRune goes to the window's keys.
func (f *FamilyRow) TypedRune(r rune) {
	if r != ' ' {
		f.acts.Keys.TypedRune(r)
	}
}

// TypedShortcut goes to the window's keys.
func (f *FamilyRow) TypedShortcut(s fyne.Shortcut) { f.acts.Keys.TypedShortcut(s) }
