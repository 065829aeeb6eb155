package widgets

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"

	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/wording"
)

// spotTable lists more than two spots, a row each. Over five rows, or where there is less room,
// the rows scroll under their heads.
type spotTable struct {
	drawn
	back   *canvas.Rectangle
	heads  [len(tableHeads)]*canvas.Text
	scroll *container.Scroll
	rows   [setup.MaxSpots]*spotRow
	list   *fyne.Container
	count  int
}

func newSpotTable(acts SpotActs) *spotTable {
	t := &spotTable{}
	t.back = add(&t.drawn, newPanelBox())
	for i := range t.heads {
		t.heads[i] = t.addText(SmallSize, fyne.TextStyle{})
	}
	acts.Keys = tableKeys{acts.Keys, t}
	t.list = container.New(closeRows{})
	for i := range t.rows {
		t.rows[i] = newSpotRow(i, acts)
		t.rows[i].Hide() // nothing is made of it until a spot is shown
		t.list.Add(t.rows[i])
	}
	t.scroll = add(&t.drawn, container.NewVScroll(t.list))
	t.draw(t)
	return t
}

// tableKeys are the window's keys for the rows: what gets the focus is scrolled to.
type tableKeys struct {
	Keys
	table *spotTable
}

// Reveal scrolls a row into the list, and the list into the page.
func (k tableKeys) Reveal(part fyne.CanvasObject) {
	scroll := k.table.scroll
	if by := ScrollToShow(part.Position().Y-scroll.Offset.Y, part.Size().Height, scroll.Size().Height); by != 0 {
		scroll.ScrollToOffset(scroll.Offset.AddXY(0, by))
	}
	k.Keys.Reveal(k.table)
}

// closeRows stands rows under each other without a gap.
type closeRows struct{}

// Layout gives each its height.
func (closeRows) Layout(rows []fyne.CanvasObject, size fyne.Size) {
	y := float32(0)
	for _, r := range rows {
		if r.Visible() {
			h := r.MinSize().Height
			put(r, fyne.NewPos(0, y), fyne.NewSize(size.Width, h))
			y += h
		}
	}
}

// MinSize is that of all that are shown.
func (closeRows) MinSize(rows []fyne.CanvasObject) (size fyne.Size) {
	for _, r := range rows {
		if r.Visible() {
			size.Height += r.MinSize().Height
			size.Width = max(size.Width, r.MinSize().Width)
		}
	}
	return size
}

// set shows a row for each spot; a spot that has come is scrolled to.
func (t *spotTable) set(texts []wording.SpotText) {
	more := len(texts) > t.count
	t.count = len(texts)
	for i, r := range t.rows {
		show(r, i < t.count)
		if i < t.count {
			r.set(texts[i], i == 0, i == t.count-1)
		}
	}
	t.redraw()
	t.scroll.Refresh()
	if more {
		t.scroll.ScrollToBottom()
	}
}

func (t *spotTable) write(size fyne.Size, of colours) {
	p := planTable(size.Width, textScale(), plainWidth)
	fillEdged(t.back, ColorNamePanel, of)
	for i, head := range t.heads {
		head.TextSize = 12 * p.scale
		say(head, tableHeads[i].name.String(), of(ColorNameQuiet))
		show(head, i != 2 || p.layer)
	}
}

func (t *spotTable) place(size fyne.Size) {
	p := planTable(size.Width, textScale(), plainWidth)
	t.back.Resize(size)
	top := t.headHeight()
	for i, head := range t.heads {
		setRight(head, span{right: p.ends[i], baseline: top/2 + 1 + halfCapital*p.scale})
	}
	put(t.scroll, fyne.NewPos(0, top), fyne.NewSize(size.Width, max(size.Height-top-tableFoot, 0)))
}

func (t *spotTable) headHeight() float32 { return round(tableHead * textScale()) }

// heightWithin is the height that the table takes of a room: that of its rows, of five at most,
// or of as many as there is room for, but two.
func (t *spotTable) heightWithin(_, room float32) float32 {
	of := func(rows int) float32 { return t.headHeight() + float32(rows)*Row() + tableFoot }
	return max(min(of(min(t.count, tableRows)), room), of(tableLeast))
}
