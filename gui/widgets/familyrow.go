package widgets

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"

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
	drawn
	focus
	index int
	acts  FamilyActs
	text  wording.FamilyRowText
	over  bool // the pointer is on the row
	look  *familyLook
}

// NewFamilyRow returns the row of family i, without a reading as yet.
func NewFamilyRow(i int, acts FamilyActs) *FamilyRow {
	f := &FamilyRow{index: i, acts: acts}
	f.focus = focus{keys: acts.Keys, owner: f, changed: f.pointed}
	f.look = newFamilyLook(f)
	f.draw(f, f.look, f.look.objects()...)
	return f
}

// Set shows t, and reports whether the row asks for another height.
func (f *FamilyRow) Set(t wording.FamilyRowText) (resized bool) {
	if t.Equal(f.text) {
		return false
	}
	width := f.Size().Width
	before := len(f.remarks(width))
	f.text = t
	f.redraw()
	return len(f.remarks(width)) != before
}

// Text returns what is shown.
func (f *FamilyRow) Text() wording.FamilyRowText { return f.text }

// Tapped makes the colours spots, or deletes a family that was set by hand.
func (f *FamilyRow) Tapped(e *fyne.PointEvent) {
	if f.text.ByHand && inside(e.Position, f.look.cross) {
		f.acts.Delete(f.index)
		return
	}
	if i := f.lineAt(e.Position); i >= 0 {
		f.acts.Copy(f.text.Lines[i])
		return
	}
	f.acts.Choose(f.index)
}

// TappedSecondary goes on from the side under the pointer, to colours to paint next.
func (f *FamilyRow) TappedSecondary(e *fyne.PointEvent) {
	p := planFamily(f.Size().Width, 0)
	if f.text.Lost || e.Position.X < p.swatch.X || e.Position.X >= p.swatch.X+4*p.side {
		return
	}
	side := f.text.Light
	if i := int((e.Position.X - p.swatch.X) / p.side); i%2 == 1 {
		side = f.text.Shadow
	}
	f.acts.Take(side)
}

// lineAt returns the proposed line's colour at a point, -1 if there is none.
func (f *FamilyRow) lineAt(p fyne.Position) int {
	return slices.IndexFunc(f.look.lines[:], func(box *canvas.Rectangle) bool { return !box.Hidden && inside(p, box) })
}

// MouseIn points at the family.
func (f *FamilyRow) MouseIn(e *desktop.MouseEvent) {
	f.over = true
	f.acts.Point(f.index, true)
	f.MouseMoved(e)
}

// MouseMoved lets the tip come of the part under the pointer.
func (f *FamilyRow) MouseMoved(e *desktop.MouseEvent) {
	if f.text.ByHand && inside(e.Position, f.look.cross) {
		f.acts.Tips.enter("Take this family away (Delete)", f.look.cross)
		return
	}
	if i := f.lineAt(e.Position); i >= 0 {
		f.acts.Tips.Now("Copy "+f.text.Lines[i].Hex(), f.look.lines[i])
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

// pointed shows whether the row is pointed at, here and in the mirror.
func (f *FamilyRow) pointed() {
	f.acts.Point(f.index, f.focused || f.over)
	f.redraw()
}

// TypedKey presses the row with Enter or Space and deletes with Delete.
func (f *FamilyRow) TypedKey(e *fyne.KeyEvent) {
	switch {
	case presses(e):
		f.acts.Choose(f.index)
	case f.text.ByHand && deletes(e):
		f.acts.Delete(f.index)
	default:
		f.keys.TypedKey(e.Name)
	}
}
