package gui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// maxFamilyRows is how many families are listed: those set by hand, then the largest found.
const maxFamilyRows = setup.MaxHandFamilies + 12

// familyList lists the families: first those set by hand, then those found.
type familyList struct {
	*host
	colours *localColours
	box     *fyne.Container
	rows    [maxFamilyRows]*widgets.FamilyRow
	none    *widget.Label // said where there are none, or more than the rows can hold
}

func newFamilyList(h *host, colours *localColours) *familyList {
	l := &familyList{host: h, colours: colours, none: widgets.SmallLabel()}
	title := widget.NewLabel("Families")
	title.TextStyle.Bold = true
	add := widgets.NewButton("Set by hand", h.keys, colours.add)
	add.Explain(h.tips, "Click a light side, then its shadow side (H)")
	l.box = container.NewVBox(widgets.OnPanel(container.NewBorder(nil, nil, title, widgets.AtRight(add)), l.none))
	acts := widgets.FamilyActs{Point: l.point, Choose: colours.choose, Delete: colours.remove, Take: colours.goOnFrom, Copy: func(c colour.RGB) { h.copyText(c.Hex()) }, Keys: h.keys, Tips: h.tips}
	for i := range l.rows {
		l.rows[i] = widgets.NewFamilyRow(i, acts)
		l.rows[i].Hide()
		l.box.Add(l.rows[i])
	}
	return l
}

// point outlines the family of row i in the mirror, or no longer.
func (l *familyList) point(i int, on bool) {
	if !on {
		i = -1
	}
	l.colours.point(i)
}

// show renews the rows.
func (l *familyList) show() {
	texts, more := l.colours.texts(len(l.rows))
	n := len(texts)
	resized := false
	for i, row := range l.rows {
		if row.Hidden != (i >= n) {
			row.Hidden = i >= n
			row.Resize(fyne.NewSize(l.box.Size().Width, row.Size().Height)) // its height depends on its width
			resized = true
		}
		if i < n {
			resized = row.Set(texts[i]) || resized
		}
	}
	words := wording.SayFamilyList(n, more)
	if l.none.Hidden != (words == "") {
		l.none.Hidden = words == ""
		resized = true
	}
	if widgets.SetWords(l.none, words) || resized {
		l.box.Refresh()
		l.relayPage()
	}
}
