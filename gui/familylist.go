package gui

import (
	"fmt"
	"image"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/families"
	"app.tonedesk/analysis/propose"
	"app.tonedesk/gui/live"
	"app.tonedesk/gui/settings"
	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// maxFamilyRows is how many families are listed: those set by hand, then the largest found.
const maxFamilyRows = setup.MaxHandFamilies + 12

// familyList lists the families: first those set by hand, then those found.
type familyList struct {
	d    *Desk
	box  *fyne.Container
	rows [maxFamilyRows]*widgets.FamilyRow
	none *widget.Label // said where there are none, or more than the rows can hold
}

func newFamilyList(d *Desk) *familyList {
	l := &familyList{d: d, none: widgets.SmallLabel()}
	title := widget.NewLabel("Families")
	title.TextStyle.Bold = true
	add := widgets.NewButton("Set by hand", d, d.addFamily)
	add.Explain(d.parts.tips, "Click a light side, then its shadow side (H)")
	l.box = container.NewVBox(widgets.OnPanel(container.NewBorder(nil, nil, title, widgets.AtRight(add)), l.none))
	acts := widgets.FamilyActs{Point: l.point, Choose: l.choose, Delete: d.deleteFamily, Take: d.goOnFrom, Copy: func(c colour.RGB) { d.copyText(c.Hex()) }, Keys: d, Tips: d.parts.tips}
	for i := range l.rows {
		l.rows[i] = widgets.NewFamilyRow(i, acts)
		l.rows[i].Hide()
		l.box.Add(l.rows[i])
	}
	return l
}

// show renews the rows.
func (l *familyList) show() {
	found := l.d.foundList()
	n := min(len(l.d.hand)+len(found), len(l.rows))
	resized := false
	for i, row := range l.rows {
		if row.Hidden != (i >= n) {
			row.Hidden = i >= n
			row.Resize(fyne.NewSize(l.box.Size().Width, row.Size().Height)) // its height depends on its width
			resized = true
		}
		switch hand := len(l.d.hand); {
		case i < min(hand, n):
			resized = row.Set(l.d.sayHand(i)) || resized
		case i < n:
			resized = row.Set(l.d.sayFound(found[i-hand])) || resized
		}
	}
	words := ""
	switch more := len(l.d.hand) + len(found) - n; {
	case more > 0:
		words = fmt.Sprintf("The %d largest are listed; %d smaller ones are not.", n, more)
	case n == 0:
		words = "No local colour is painted here as a light side and a shadow side, as far as can be seen. Set one by hand to follow it."
	}
	if l.none.Hidden != (words == "") {
		l.none.Hidden = words == ""
		resized = true
	}
	if widgets.SetWords(l.none, words) || resized {
		l.box.Refresh()
		l.d.relayPage()
	}
}

// foundList are the families found last in what is still watched.
func (d *Desk) foundList() []families.Family {
	if d.found.Found == nil {
		return nil
	}
	list := make([]families.Family, len(d.found.Order))
	for i, at := range d.found.Order {
		list[i] = d.found.List[at]
	}
	return list
}

// sayFound is the row of a family that was found.
func (d *Desk) sayFound(f families.Family) widgets.FamilyRowText {
	t := d.familyText(f)
	if f.Share != nil {
		t.Share = wording.Percent(*f.Share)
	}
	return t
}

// sayHand is the row of family i set by hand.
func (d *Desk) sayHand(i int) widgets.FamilyRowText {
	r := d.hand[i]
	if r.Err != nil {
		return widgets.FamilyRowText{Tones: fmt.Sprintf("Family %d", i+1), Says: "outside the picture", SaysShort: "outside", ByHand: true, Lost: true}
	}
	t := d.familyText(r.Family)
	t.ByHand = true
	note := fmt.Sprintf("set by hand: light%d, shadow%d", i+1, i+1)
	if i < len(d.setup.Families) && (d.setup.Families[i].Light.Moved || d.setup.Families[i].Shadow.Moved) {
		note = "picture moved"
	}
	t.Remarks = append([]string{note}, t.Remarks...)
	return t
}

// familyText is what is said of every family.
func (d *Desk) familyText(f families.Family) widgets.FamilyRowText {
	said := wording.SayFamily(f)
	remarks := said.Remarks
	if said.Turn != "" {
		remarks = append([]string{said.Turn}, remarks...)
	}
	tones, says, _ := strings.Cut(said.Title, ": ")
	_, short, _ := strings.Cut(said.Short, ": ")
	text := widgets.FamilyRowText{
		Light: f.Light.Colour, Shadow: f.Shadow.Colour,
		LightGrey: colour.GreyOf(f.Light.Lightness), ShadowGrey: colour.GreyOf(f.Shadow.Lightness),
		Tones: tones, Says: says, SaysShort: short, Remarks: remarks,
	}
	if f.Line != nil && f.Line.Neutral {
		text.Lines = d.fittingLines(f.Light)
	}
	return text
}

// fittingLines are the colours proposed for the line around a fill.
func (d *Desk) fittingLines(fill analysis.Spot) (lines []colour.RGB) {
	for _, l := range propose.Shade(fill, d.setup.Shade).Lines {
		if l.Spot != nil {
			lines = append(lines, l.Spot.Colour)
		}
	}
	return lines
}

// goOnFrom shows what can be painted next to a colour.
func (d *Desk) goOnFrom(c colour.RGB) {
	d.setBase(&c)
	d.openPage(pageIndex(settings.PageColours))
}

// point outlines the family of row i in the mirror, or no longer.
func (l *familyList) point(i int, on bool) {
	l.d.pointed = -1
	if on {
		l.d.pointed = i
	}
	l.d.showOutline()
}

// showOutline outlines the family that is pointed at.
func (d *Desk) showOutline() {
	i := d.pointed - len(d.hand)
	if d.pointed < 0 || i < 0 || i >= len(d.foundList()) || d.found.Origin != d.bounds.Min {
		d.parts.mirror.SetOverlay(widgets.OverlayOutline, nil)
		return
	}
	m := d.parts.mirror
	m.SetOverlay(widgets.OverlayOutline, outlineFamily(d.found.Found, d.found.Order[i], m.Pixels(), m.Fit(), m.Bounds()))
}

// Choose makes the colours of row i the spots A and B.
func (l *familyList) choose(i int) {
	d := l.d
	var light, shadow setup.Place
	switch hand := len(d.hand); {
	case i < len(d.setup.Families) && i < hand:
		light, shadow = d.setup.Families[i].Light, d.setup.Families[i].Shadow
	case i >= hand && i-hand < len(d.foundList()):
		f := d.foundList()[i-hand]
		light, shadow = d.placeOf(f.Light), d.placeOf(f.Shadow)
	default:
		return
	}
	next := d.setup
	next, _ = next.With(light, len(next.Places) == 0)
	next = next.Placed(0, light)
	next = next.Placed(1, shadow)
	d.selected = 1
	d.history.Settle()
	d.change(next, "")
}

// placeOf is where a side was found.
func (d *Desk) placeOf(s analysis.Spot) setup.Place {
	if s.X == nil || s.Y == nil {
		return setup.Place{}
	}
	return setup.Place{At: image.Pt(*s.X, *s.Y).Add(d.found.Origin)}
}

// showFound takes the families that were found, if what they were found in is still watched.
func (d *Desk) showFound(f live.Found) {
	if f.Source != d.setup.Source {
		return // of what was watched before
	}
	f.Order = live.OrderFamilies(d.found, f)
	d.found = f
	if p, ok := d.page().(*structurePage); ok {
		p.families.show()
		d.showOutline()
		d.trace.state(d)
	}
}
