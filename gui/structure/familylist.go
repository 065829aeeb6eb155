package structure

import (
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/gui/host"
	"app.tonedesk/gui/icons"
	"app.tonedesk/gui/language"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// FamilyList lists the families: those set by hand and those found with confidence, then,
// folded, those that it is unsure of and those that the painter does not want to see.
type FamilyList struct {
	*host.Host
	colours *LocalColours
	Box     *fyne.Container
	blocks  [sectionCount]block
	none    *widget.Label // said where there are none, or more than the rows can hold
}

// block is a section of the list: its rows and, but for the first one, the head that folds them.
type block struct {
	head  *widgets.Fold // nil for none
	open  bool
	rows  []*widgets.FamilyRow // as many as there ever were
	items []Item               // that they show
	box   *fyne.Container
}

// NewFamilyList returns the list of local colours.
func NewFamilyList(h *host.Host, colours *LocalColours) *FamilyList {
	l := &FamilyList{Host: h, colours: colours, none: widgets.SmallLabel()}
	add := h.Button(language.Say("Set by hand"), language.Say("Click a form: its light and shadow are proposed, H"), colours.Add).ShortensTo(icons.Spot)
	head := container.New(widgets.Abreast{Stretch: 0}, widgets.NewHeading("", language.Say("Local colours"), ""), add)
	parts := []fyne.CanvasObject{l.none}
	tips := [sectionCount]string{"", language.Say("What may be a local colour, and may be chance"), language.Say("What you said is no local colour")}
	for i := range l.blocks {
		b := &l.blocks[i]
		b.box, b.open = container.New(layout.NewCustomPaddedVBoxLayout(0)), tips[i] == ""
		if tips[i] != "" {
			b.head = widgets.NewFold(tips[i], h.Tips, h.Keys, func() { l.fold(b) })
			b.head.Hide()
			parts = append(parts, widgets.Beside(b.head))
		}
		parts = append(parts, widgets.Beside(b.box))
	}
	colours.scrolled = append(colours.scrolled, func() {
		for _, row := range l.Rows() {
			row.Scrolled()
		}
	})
	l.Box = widgets.NewCard(widgets.Beside(head), parts...)
	return l
}

// fold opens a section, or folds it.
func (l *FamilyList) fold(b *block) {
	b.open = !b.open
	l.Show()
}

// Rows are the rows that are seen, from the top.
func (l *FamilyList) Rows() (rows []*widgets.FamilyRow) {
	for i := range l.blocks {
		b := &l.blocks[i]
		for _, row := range b.rows {
			if !row.Hidden && b.open {
				rows = append(rows, row)
			}
		}
	}
	return rows
}

// Heads are the folds that are seen.
func (l *FamilyList) Heads() (heads []*widgets.Fold) {
	for i := range l.blocks {
		if head := l.blocks[i].head; head != nil && !head.Hidden {
			heads = append(heads, head)
		}
	}
	return heads
}

// Show renews the rows.
func (l *FamilyList) Show() {
	resized, all := false, l.colours.sections()
	for i := range l.blocks {
		resized = l.showBlock(section(i), all[i]) || resized
	}
	n := len(all[sureOnes])
	words := wording.SayFamilyList(min(n, most[sureOnes]), max(n-most[sureOnes], 0), len(all[unsureOnes]) > 0)
	if l.none.Hidden != (words == "") {
		l.none.Hidden = words == ""
		resized = true
	}
	if widgets.SetWords(l.none, words) || resized {
		l.Box.Refresh()
		l.LayOutPage()
	}
}

// showBlock renews a section, and reports whether it asks for another height.
func (l *FamilyList) showBlock(s section, list []listed) (resized bool) {
	b := &l.blocks[s]
	if b.head != nil {
		resized = l.showHead(b, wording.SayFold(s == refusedOnes, len(list)), len(list) > 0)
	}
	list = list[:min(len(list), most[s])]
	for len(b.rows) < len(list) && b.open {
		b.rows = append(b.rows, l.newRow(b, len(b.rows)))
		b.box.Add(b.rows[len(b.rows)-1])
	}
	b.items = b.items[:0]
	for i, row := range b.rows {
		shown := i < len(list) && b.open
		if row.Hidden == shown {
			row.Hidden = !shown
			row.Leave()
			resized = true
		}
		if shown {
			b.items = append(b.items, list[i].item)
			row.Set(list[i].text)
		}
	}
	if shown := len(b.items) > 0; b.box.Hidden == shown {
		b.box.Hidden = !shown
		resized = true
	}
	return resized
}

// showHead renews the head of a fold, and reports whether it came or went.
func (l *FamilyList) showHead(b *block, words string, shown bool) (resized bool) {
	b.head.Set(words, b.open)
	if b.head.Hidden != shown {
		return false
	}
	b.head.Hidden = !shown
	return true
}

// leaveAfter is how long a row that was left is not yet left: the pointer is on its way to
// another part of it (our choice).
const leaveAfter = 150 * time.Millisecond

// newRow makes row i of a block.
func (l *FamilyList) newRow(b *block, i int) *widgets.FamilyRow {
	item := func() Item {
		if i < len(b.items) {
			return b.items[i]
		}
		return none
	}
	colours := l.colours
	var row *widgets.FamilyRow
	row = widgets.NewFamilyRow(widgets.FamilyActs{
		Point: func(on bool) {
			if on {
				colours.Point(item())
				return
			}
			colours.PointAtNone()
			left := item()
			l.Later(leaveAfter, func() {
				if !(row.Pointed() && item() == left) && colours.left(left) {
					l.Show()
				}
			})
		},
		Choose: func() {
			colours.Point(item()) // a pen or a finger that taps may never have been over it
			colours.choose(item())
		},
		Keep:   func() { colours.judge(item(), true) },
		Delete: func() { colours.refuse(item()) },
		Menu:   func(at fyne.Position, side colour.RGB) { l.openMenu(row.Text(), item(), at, side) },
		Copy:   l.copy, Later: func(after time.Duration, do func()) func() { return l.Later(after, do) }, Keys: l.Keys, Tips: l.Tips,
	})
	return row
}
