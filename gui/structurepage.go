package gui

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"app.tonedesk/analysis"
	"app.tonedesk/gui/host"
	"app.tonedesk/gui/live"
	"app.tonedesk/gui/structure"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// structurePage tells how light and shadow hold together: the groups of the whole picture,
// its families, and how it stands to a target.
type structurePage struct {
	d        *Desk
	box      *fyne.Container
	sentence *widget.Label
	bar      *widgets.GroupBar
	count    *widgets.Chooser
	of       *widgets.Chooser // what the groups are of
	limits   *widget.Label
	families *structure.FamilyList
	target   *structure.TargetPanel
}

// groupCounts are the numbers of groups that can be asked for, by the chooser's place.
var groupCounts = []int{0, 2, 3, 4}

func newStructurePage(d *Desk) pageView {
	p := &structurePage{d: d, sentence: widgets.SmallLabel(), bar: widgets.NewGroupBar(), limits: widgets.SmallLabel()}
	p.count = widgets.NewChooser([]string{"Automatic", "2 groups", "3", "4", "By hand"}, 4*widgets.Step, d, func(i int) {
		if i < len(groupCounts) {
			d.setGroups(groupCounts[i])
		} else {
			d.keepEdges()
		}
	})
	p.of = widgets.NewChooser([]string{"Groups of the whole picture", "Without the ground"}, 4*widgets.Step, d, func(i int) {
		d.settings.NoGround = i == 1
		d.settled()
	})
	p.families = structure.NewFamilyList(&d.Host, d.families)
	p.target = structure.NewTargetPanel(&d.Host, d.target)
	whole := widgets.OnPanel(p.sentence, widgets.Inset(p.bar), p.count, p.of, p.limits)
	p.box = container.NewVBox(whole, p.families.Box, d.parts.spread, p.target.Box)
	return p
}

func (p *structurePage) content() fyne.CanvasObject { return p.box }

func (p *structurePage) wantsFamilies() bool { return true }

func (p *structurePage) handle(e host.PageEvent) {
	if e == host.FamiliesFound {
		p.families.Show()
		p.d.families.ShowOutline()
		p.d.Changed()
	}
}

func (p *structurePage) trace(line *traceLine) {
	line.Target = p.target.Words.Text
	for _, row := range p.families.Rows() {
		line.Families = append(line.Families, tracedFamily{row.Text().Light.Hex(), row.Text().Shadow.Hex(), row.Text().Tones + ": " + row.Text().Says, row.Text().Remarks, p.d.boxOf(row)})
	}
}

func (p *structurePage) opened(open bool) {
	if !open {
		p.d.Mirror.SetOverlay(widgets.OverlayOutline, nil)
	}
}

func (p *structurePage) show(r *analysis.Reading) {
	p.d.showSpread(r)
	p.families.Show()
	p.target.Show(r)
	if r == nil {
		p.sentence.SetText("")
		return
	}
	split := r.Chosen()
	p.bar.Set(split.Groups())
	resized := widgets.SetWords(p.sentence, wording.SayGroups(split.Groups(), split.Gaps())+". "+wording.SayGround(r.Ground, r.GroundShare())+".")
	dark, light := r.Limits(p.d.settings.Limits())
	words := wording.SayMurk(split) + wording.SayLimits(dark, light, p.d.settings.Limits())
	if view := live.ViewOf(live.Wanted{Settings: p.d.settings}); view.Beside != nil && len(p.d.last.small) > 0 {
		words += " " + wording.SaySmall(int(view.Beside(p.d.settings.Knob(view))), split.Groups(), p.d.last.small)
	}
	resized = widgets.SetWords(p.limits, words) || resized
	at := len(groupCounts) // by hand
	if len(p.d.setup.Edges) == 0 {
		at = slices.Index(groupCounts, p.d.settings.Groups)
	}
	p.count.Set(at)
	p.of.Set(0)
	if p.d.settings.NoGround {
		p.of.Set(1)
	}
	if resized {
		p.d.LayOutPage()
	}
}

// layOutPage lays the open page anew, after a part of it asks for another height.
func (d *Desk) layOutPage() {
	if d.parts.frame == nil {
		return // the window is being built
	}
	d.parts.lower.Content.Refresh()
	d.layOut()
	d.Changed() // everything may lie elsewhere now
}
