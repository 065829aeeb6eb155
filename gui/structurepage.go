package gui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"app.tonedesk/analysis"
	"app.tonedesk/gui/host"
	"app.tonedesk/gui/language"
	"app.tonedesk/gui/live"
	"app.tonedesk/gui/structure"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// structurePage tells how light and shadow hold together: the groups of the whole picture,
// its families, and how it stands to a target.
type structurePage struct {
	structureCards
	d      *Desk
	box    *fyne.Container
	says   wording.Sentence
	light  *structure.LightPanel
	focus  *structure.FocusPanel
	target *structure.TargetPanel
}

// structureCards are the cards of groups and of local colours; another page may have them too.
type structureCards struct {
	groupsBox *fyne.Container
	groups    *widgets.GroupsCard
	families  *structure.FamilyList
}

func newStructureCards(d *Desk) (c structureCards) {
	c.groups = widgets.NewGroupsCard(widgets.GroupsActs{Count: d.setGroups, Ground: func(without bool) {
		d.settings.NoGround = without
		d.settled()
	}, Keys: d, Tips: d.Tips})
	c.families = structure.NewFamilyList(&d.Host, d.families)
	c.groupsBox = container.NewStack(widgets.NewPanel(), container.New(layout.NewCustomPaddedLayout(widgets.Step, widgets.Step/2, widgets.Step, widgets.Step), c.groups))
	return c
}

// show renews the cards; r is nil before the first picture. It reports whether the groups ask for
// another height.
func (c structureCards) show(d *Desk, r *analysis.Reading) (resized bool) {
	c.families.Show()
	if r == nil {
		return false
	}
	text := wording.SayGroupsCard(r, d.settings.Limits(), d.settings.Hatched())
	text.Asked, text.ByHand, text.Ground = d.settings.Groups, len(d.setup.Borders) > 0, d.settings.NoGround
	if view := live.ViewOf(live.Wanted{Settings: d.settings}); view.Beside != nil && len(d.last.small) > 0 {
		text.Small = wording.SaySmall(int(view.Beside(d.settings.Knob(view))), text.Groups, d.last.small)
	}
	c.groups.Set(text)
	return c.groups.MinSize().Height != c.groups.Size().Height
}

func newStructurePage(d *Desk) pageView {
	p := &structurePage{d: d, structureCards: newStructureCards(d), light: structure.NewLightPanel(&d.Host, d.families), focus: structure.NewFocusPanel(&d.Host, d.families.Focus), target: structure.NewTargetPanel(&d.Host, d.target)}
	p.box = container.NewVBox(p.groupsBox, p.families.Box, p.light.Box, p.focus.Box, p.target.Box)
	return p
}

func (p *structurePage) content() fyne.CanvasObject { return p.box }

func (p *structurePage) wantsFamilies() bool { return true }

func (p *structurePage) sentence() wording.Sentence { return p.says }

func (p *structurePage) handle(e host.PageEvent) {
	switch e {
	case host.FamiliesFound:
		p.families.Show()
		p.d.families.ShowOutline()
		p.d.Changed()
	case host.LightRead:
		p.light.Show(p.d.settings.Rules)
		p.focus.Show(nil) // names may be others
		p.d.Changed()
	case host.FocusMeasured:
		p.focus.Show(nil)
		p.d.Changed()
	}
}

func (p *structurePage) trace(line *traceLine) {
	if target := p.target.Text(); target.Name != "" {
		line.Target = target.Name + ". " + target.Distance + ". " + target.Shares
	}
	line.Words, line.Light, line.Focus = p.groups.Words(), p.light.Text().Lines, p.focus.Text().Lines
	line.Places = append(line.Places, placesIn(p.d, p.target.Box)...)
	line.Places = append(line.Places, tracedPlace{Words: language.Say("Set focus"), Box: p.d.boxOf(p.focus.Set)})
	for _, row := range p.families.Rows() {
		text := row.Text()
		line.Families = append(line.Families, tracedFamily{text.Light.Hex(), text.Shadow.Hex(), text.Tones + ": " + text.Says, append([]string{text.Share, text.Below}, text.Remarks...), p.d.boxOf(row)})
	}
}

func (p *structurePage) opened(open bool) {
	p.d.families.Focus.Opened(open)
	if !open {
		p.d.Mirror.SetOverlay(widgets.OverlayOutline, nil)
	}
}

func (p *structurePage) show(r *analysis.Reading) {
	p.target.Show(r)
	p.light.Show(p.d.settings.Rules)
	p.focus.Show(r)
	p.says = wording.Sentence{}
	if r != nil {
		p.says = wording.SayLeaderOf(r)
	}
	if p.structureCards.show(p.d, r) {
		p.box.Refresh()
		p.d.LayOutPage()
	}
}

// layOutPage lays the open page anew, after a part of it asks for another height.
func (d *Desk) layOutPage() {
	if d.parts.frame == nil {
		return // the window is being built
	}
	d.parts.lower.Content.Refresh()
	d.parts.column.Refresh()
	d.layOut()
	d.Changed() // everything may lie elsewhere now
	if d.trace.w != nil {
		d.Later(traceAgain, d.Changed)
	}
}
