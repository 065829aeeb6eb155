package widgets

import (
	"cmp"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"

	"app.tonedesk/gui/icons"
)

// MenuItem is something that can be chosen in a menu.
type MenuItem struct {
	Icon  icons.Name
	Words string
	Keys  string // stand quiet at the right
	Says  string // what the words stand for, said in place of a row's quiet words while it is at hand; "" for nothing
	On    bool   // is what is so now: it has a check in the place of its pictogram
	Do    func()
}

// MenuRow is a heading, or what stands side by side in a row: items, or pictures of views.
type MenuRow struct {
	Rule     bool // above it
	Heading  string
	Items    []MenuItem
	Previews []*Preview
	Columns  int    // most that stand beside each other; 0: all
	Words    string // quiet, at its right end
}

// menuCell is what can be chosen, as it lies in a menu.
type menuCell interface {
	fyne.CanvasObject
	point(on bool)
	item() *MenuItem
}

// Menu lies over the window, with what can be chosen below each other in a box that scrolls where
// the window is lower. The arrows and Enter choose too; Esc and a tap beside it close it. Other
// keys close it and are the window's.
type Menu struct {
	drawn
	at      fyne.Position
	keys    Keys
	canvas  fyne.Canvas // while it is shown
	closed  func()
	cells   []menuCell
	pointed int // index into cells; -1 for none
	notes   []menuNote

	shade, edge, box *canvas.Rectangle
	scroll           *container.Scroll
	lay              *menuRows
}

// NewMenu returns a menu of rows, not yet shown. closed is called when it is gone.
func NewMenu(rows []MenuRow, keys Keys, closed func()) *Menu {
	m := &Menu{keys: keys, closed: closed, pointed: -1, lay: &menuRows{}}
	m.shade, m.edge, m.box = add(&m.drawn, newPanelBox()), add(&m.drawn, newPanelBox()), add(&m.drawn, newPanelBox())
	inner := container.New(m.lay)
	for _, r := range rows {
		for _, o := range m.take(r) {
			inner.Add(o)
		}
	}
	m.scroll = add(&m.drawn, container.NewVScroll(inner))
	m.draw(m)
	return m
}

// take makes the parts of a row, and returns them.
func (m *Menu) take(r MenuRow) (parts []fyne.CanvasObject) {
	line := func(objects ...fyne.CanvasObject) {
		columns := len(objects)
		if r.Columns > 0 {
			columns = min(columns, r.Columns)
		}
		m.lay.counts, m.lay.columns, parts = append(m.lay.counts, len(objects)), append(m.lay.columns, columns), append(parts, objects...)
	}
	if r.Rule {
		line(newMenuRule())
	}
	if r.Heading != "" {
		line(newMenuHeading(r.Heading))
	}
	var beside []fyne.CanvasObject
	join := func(c menuCell) {
		m.cells, beside = append(m.cells, c), append(beside, c)
	}
	for i := range r.Items {
		join(newMenuEntry(r.Items[i], m, len(m.cells), i > 0))
	}
	for _, p := range r.Previews {
		p.menu, p.index = m, len(m.cells)
		join(p)
	}
	if r.Words != "" {
		note := menuNote{NewEndWords(r.Words), r.Words}
		m.notes, beside = append(m.notes, note), append(beside, note.inset())
	}
	if len(beside) > 0 {
		line(beside...)
	}
	return parts
}

// ShowAt shows the menu in a canvas, its top left at a point where there is room.
func (m *Menu) ShowAt(c fyne.Canvas, at fyne.Position) {
	m.canvas, m.at = c, at
	c.Overlays().Add(m)
	m.Resize(c.Size())
	c.Focus(m)
}

// Hide closes the menu.
func (m *Menu) Hide() {
	if m.canvas == nil {
		return
	}
	c := m.canvas
	m.canvas = nil
	c.Overlays().Remove(m)
	if m.closed != nil {
		m.closed()
	}
}

// Cell is something to choose, for those who look for it: its words, and where it lies.
type Cell struct {
	Words string
	On    bool
	Part  fyne.CanvasObject
	At    fyne.Position // in the window: the toolkit knows it only once it was drawn
}

// Cells are all that can be chosen, from the top.
func (m *Menu) Cells() []Cell {
	cells := make([]Cell, len(m.cells))
	for i, c := range m.cells {
		at := m.scroll.Position().Add(m.scroll.Content.Position()).Add(c.Position())
		cells[i] = Cell{c.item().Words, c.item().On, c, at}
	}
	return cells
}

// choose closes the menu and does what was chosen.
func (m *Menu) choose(i int) {
	if i < 0 || i >= len(m.cells) {
		return
	}
	do := m.cells[i].item().Do
	m.Hide()
	if do != nil {
		do()
	}
}

// point raises what is at hand; -1 for nothing.
func (m *Menu) point(i int) {
	if i == m.pointed {
		return
	}
	for at, c := range m.cells {
		c.point(at == i)
	}
	m.pointed = i
	for _, n := range m.notes {
		words := n.words
		if i >= 0 {
			words = cmp.Or(m.cells[i].item().Says, words)
		}
		n.Set(words)
	}
}

// Tapped closes the menu beside its box.
func (m *Menu) Tapped(e *fyne.PointEvent) {
	at := e.Position.Subtract(m.edge.Position())
	if at.X < 0 || at.Y < 0 || at.X > m.edge.Size().Width || at.Y > m.edge.Size().Height {
		m.Hide()
	}
}

// TappedSecondary is the same.
func (m *Menu) TappedSecondary(e *fyne.PointEvent) { m.Tapped(e) }

func (m *Menu) write(_ fyne.Size, of colours) {
	fill(m.shade, of(theme.ColorNameShadow))
	fill(m.edge, of(ColorNameHairline))
	fillEdged(m.box, theme.ColorNameMenuBackground, of)
}

// menuInset is how far the rows are from the box's edge.
const menuInset = Step / 2

// place puts the box where there is room: below its place, and no further right and down than the
// window reaches.
func (m *Menu) place(size fyne.Size) {
	rows := m.scroll.Content.(*fyne.Container).Objects
	w := min(m.lay.wanted(rows)+2*menuInset, size.Width-Step)
	m.lay.width = w - 2*menuInset
	h := min(m.lay.MinSize(rows).Height+2*menuInset, size.Height-Step)
	x, y := max(Step/2, min(m.at.X, size.Width-Step/2-w)), max(Step/2, min(m.at.Y, size.Height-Step/2-h))
	box := fyne.NewSize(w, h)
	put(m.shade, fyne.NewPos(x+3, y+3), box)
	put(m.edge, fyne.NewPos(x, y), box)
	put(m.box, fyne.NewPos(x+1, y+1), box.SubtractWidthHeight(2, 2))
	put(m.scroll, fyne.NewPos(x+menuInset, y+menuInset), box.SubtractWidthHeight(2*menuInset, 2*menuInset))
}

// minSize asks for nothing: the menu must not make the window larger.
func (m *Menu) minSize() (none fyne.Size) { return none }
