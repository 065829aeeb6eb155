package structure

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/gui/host"
	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// maxFamilyRows is how many families are listed: those set by hand, then the largest found.
const maxFamilyRows = setup.MaxManualFamilies + 12

// FamilyList lists the families: first those set by hand, then those found.
type FamilyList struct {
	*host.Host
	colours *LocalColours
	Box     *fyne.Container
	Rows    [maxFamilyRows]*widgets.FamilyRow
	none    *widget.Label // said where there are none, or more than the rows can hold
}

// NewFamilyList returns the list of local colours.
func NewFamilyList(h *host.Host, colours *LocalColours) *FamilyList {
	l := &FamilyList{Host: h, colours: colours, none: widgets.SmallLabel()}
	add := h.Button("Set by hand", "Click a light side, then its shadow side (H)", colours.Add)
	l.Box = container.NewVBox(widgets.Section("Families", widgets.AtRight(add), l.none))
	acts := widgets.FamilyActs{Point: l.point, Choose: colours.choose, Delete: colours.remove, Take: colours.GoOnFrom, Copy: func(c colour.RGB) { h.CopyText(c.Hex()) }, Keys: h.Keys, Tips: h.Tips}
	for i := range l.Rows {
		l.Rows[i] = widgets.NewFamilyRow(i, acts)
		l.Rows[i].Hide()
		l.Box.Add(l.Rows[i])
	}
	return l
}

// point outlines the family of row i in the mirror, or no longer.
func (l *FamilyList) point(i int, on bool) {
	if !on {
		i = -1
	}
	l.colours.Point(i)
}

// Show renews the rows.
func (l *FamilyList) Show() {
	texts, more := l.colours.texts(len(l.Rows))
	n := len(texts)
	resized := false
	for i, row := range l.Rows {
		if row.Hidden != (i >= n) {
			row.Hidden = i >= n
			row.Resize(fyne.NewSize(l.Box.Size().Width, row.Size().Height)) // its height depends on its width
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
		l.Box.Refresh()
		l.LayOutPage()
	}
}
