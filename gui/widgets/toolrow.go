package widgets

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"

	"app.tonedesk/gui/icons"
)

// ToolRow is a row of pictograms on a ground of its own: tools, of which one may be in use, and
// right of a rule what acts at once. Where it is too narrow for a pen to hit each, what acts is left to
// the menu or, in large text, it is two rows.
type ToolRow struct {
	drawn
	back, rule *canvas.Rectangle
	Tools      []*Button
	Acts       []*Button
}

// Tool is one of a tool row: its pictogram, what is said of it, and what it does.
type Tool struct {
	Icon icons.Name
	Tip  string
	Do   func()
}

// NewToolRow returns a row of tools and acts, none in use.
func NewToolRow(tools, acts []Tool, tips *Tips, keys Keys) *ToolRow {
	r := &ToolRow{}
	r.back, r.rule = add(&r.drawn, newPanelBox()), r.addBox()
	button := func(t Tool) *Button {
		b := add(&r.drawn, NewIconButton(t.Icon, keys, t.Do).Flat())
		b.Explain(tips, t.Tip)
		return b
	}
	for _, t := range tools {
		r.Tools = append(r.Tools, button(t))
	}
	for _, t := range acts {
		r.Acts = append(r.Acts, button(t))
	}
	r.draw(r)
	return r
}

// Use shows which tool is in use; -1 for none.
func (r *ToolRow) Use(i int) {
	for at, b := range r.Tools {
		b.SetOn(at == i)
	}
}

// toolCells returns where so many pictograms lie, of which the last acts are set apart, in a row
// of a width: beside each other where each has a side of least; in text that is not much larger than
// plain the tools alone, as wide as a pen needs; else in two rows. What is left out has no size, nor
// has the rule but in a whole row.
func toolCells(tools, acts int, width, least float32) (cells []rect, rule rect) {
	const inset, pen = Step / 2, 4 * Step
	inner, n := width-2*inset, tools+acts
	if inner >= float32(n)*least {
		for i := range tools {
			cells = append(cells, rect{inset + float32(i)*least, inset, least, least})
		}
		for i := range acts {
			cells = append(cells, rect{width - inset - float32(acts-i)*least, inset, least, least})
		}
		x := (cells[tools-1].x + least + cells[tools].x) / 2
		return cells, rect{round(x) - 1, inset + least/5, 1, 3 * least / 5}
	}
	if pitch := inner / float32(tools); pitch >= pen && least < twoRowsFrom*pen {
		for i := range tools {
			wide := min(least, pitch)
			cells = append(cells, rect{inset + float32(i)*pitch + (pitch-wide)/2, inset, wide, least})
		}
		return append(cells, make([]rect, acts)...), rect{}
	}
	columns := (n + 1) / 2
	pitch := inner / float32(columns)
	for i := range n {
		column, row := i%columns, i/columns
		wide := min(least, pitch)
		cells = append(cells, rect{round(inset + float32(column)*pitch + (pitch-wide)/2), inset + float32(row)*least, wide, least})
	}
	return cells, rect{}
}

// twoRowsFrom is the size of text from which tools may stand in two rows.
const twoRowsFrom = 1.3

func (r *ToolRow) cells(width float32) ([]rect, rect) {
	return toolCells(len(r.Tools), len(r.Acts), width, Row())
}

// Resize asks for another height where the row becomes two.
func (r *ToolRow) Resize(size fyne.Size) {
	before := r.minSize()
	r.drawn.Resize(size)
	if r.minSize() != before {
		r.Refresh()
	}
}

func (r *ToolRow) write(size fyne.Size, of colours) {
	cells, _ := r.cells(size.Width)
	for i, b := range r.Acts {
		show(b, size.IsZero() || cells[len(r.Tools)+i].w > 0)
	}
	fillEdged(r.back, theme.ColorNameInputBackground, of)
	fill(r.rule, of(ColorNameHairline))
}

func (r *ToolRow) place(size fyne.Size) {
	r.back.Resize(size)
	cells, rule := r.cells(size.Width)
	put(r.rule, fyne.NewPos(rule.x, rule.y), fyne.NewSize(rule.w, rule.h))
	for i, b := range append(append([]*Button{}, r.Tools...), r.Acts...) {
		c := cells[i]
		put(b, fyne.NewPos(c.x, c.y), fyne.NewSize(c.w, c.h))
	}
}

// minSize is the height at the width of now.
func (r *ToolRow) minSize() fyne.Size {
	n := len(r.Tools) + len(r.Acts)
	cells, _ := r.cells(r.Size().Width)
	high := float32(0)
	for _, c := range cells {
		high = max(high, c.bottom())
	}
	return fyne.NewSize(float32((n+1)/2)*4*Step+Step, high+Step/2)
}
