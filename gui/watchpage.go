package gui

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"app.tonedesk/analysis"
	"app.tonedesk/gui/host"
	"app.tonedesk/gui/language"
	"app.tonedesk/gui/live"
	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// watchPage is the page of spots and spread; in a wide window groups and local colours follow.
type watchPage struct {
	d     *Desk
	box   *fyne.Container
	cards structureCards
}

func newWatchPage(d *Desk) pageView {
	p := &watchPage{d: d, cards: newStructureCards(d)}
	p.box = container.New(widgets.SpotsOverSpread{}, d.parts.spots, d.parts.spread, p.cards.groupsBox, p.cards.families.Box)
	p.showCards(false)
	return p
}

// showCards shows groups and local colours, or hides them, and reports whether that is another
// thing than before.
func (p *watchPage) showCards(on bool) bool {
	if p.wantsFamilies() == on {
		return false
	}
	p.cards.groupsBox.Hidden, p.cards.families.Box.Hidden = !on, !on
	return true
}

func (p *watchPage) wantsFamilies() bool { return p.cards.families.Box.Visible() }

func (p *watchPage) opened(open bool) {
	if !open {
		p.d.Mirror.SetOverlay(widgets.OverlayOutline, nil)
	}
}

func (p *watchPage) handle(e host.PageEvent) {
	if e == host.FamiliesFound && p.wantsFamilies() {
		p.cards.families.Show()
		p.d.families.ShowOutline()
	}
}

func (p *watchPage) content() fyne.CanvasObject { return p.box }

// show renews spots and spread; nothing of the reading is kept.
func (p *watchPage) show(r *analysis.Reading) {
	resized := p.showCards(p.d.parts.frame != nil && p.d.parts.frame.Wide())
	if p.wantsFamilies() {
		resized = p.cards.show(p.d, r) || resized
	}
	if p.d.parts.spots.Set(spotsState(p.d)) || resized {
		p.box.Refresh()
		p.d.LayOutPage()
	}
	showSpread(p.d, r)
}

func (p *watchPage) trace(line *traceLine) {
	line.Places = append(line.Places, tracedPlace{language.Say("Spots"), false, p.d.boxOf(p.d.parts.spots)})
}

// sentence compares the pair; where its second spot isn't B it says beside which it stands.
func (p *watchPage) sentence() wording.Sentence {
	s := p.d.pairWords()
	if a, b, ok := live.PairOf(p.d.last.spots, p.d.selected); ok && b > 1 && !s.Dim {
		return wording.SayBesideFirst(s, setup.SpotName(a))
	}
	return s
}

// spotsState is what is shown of the spots: two at least, which may be empty.
func spotsState(d *Desk) widgets.SpotsState {
	texts, spots := []wording.SpotText{}, []analysis.Spot{}
	for i, spot := range d.last.spots {
		if i >= len(d.setup.Places) {
			break
		}
		spots = append(spots, spot.Spot)
		texts = append(texts, spotText(d, i))
	}
	var state widgets.SpotsState
	state.Remark = wording.SaySpotRemark(texts[:min(len(texts), 2)], spots[:min(len(spots), 2)])
	if len(texts) == 2 && !texts[0].Lost && !texts[1].Lost {
		state.Differences = wording.SayDifferences(spots[0], spots[1], d.settings.FromWhite)
	}
	for i := len(texts); i < 2; i++ {
		texts = append(texts, wording.SayEmptySpot(setup.SpotName(i)))
	}
	state.Texts = texts
	return state
}

// spotText is what is shown of spot i.
func spotText(d *Desk, i int) wording.SpotText {
	spot, at := d.last.spots[i], d.setup.Places[i]
	if spot.Err != nil {
		return wording.SayLostSpot(setup.SpotName(i), i == d.selected)
	}
	t := wording.SaySpotText(setup.SpotName(i), spot.Spot, wording.SpotState{
		Area: !at.Area.Empty(), Moved: at.Moved, Fixed: at.Fixed != nil, FromWhite: d.settings.FromWhite, Selected: i == d.selected,
	})
	if first := d.last.spots[0]; i > 0 && first.Err == nil {
		t.FromFirst = wording.SayValueDifference(first.Spot, spot.Spot, d.settings.FromWhite)
	}
	return t
}

// showSpread renews the spread, once there is a reading.
func showSpread(d *Desk, r *analysis.Reading) {
	if r == nil {
		return
	}
	marks := make([]widgets.SpreadMark, 0, len(d.last.spots))
	for i, spot := range d.last.spots {
		if i < len(d.setup.Places) && spot.Err == nil {
			marks = append(marks, widgets.SpreadMark{Name: setup.SpotName(i), Lightness: spot.Lightness})
		}
	}
	state := widgets.SpreadState{
		Histogram: r.Histogram, Groups: slices.Clone(r.Chosen().Groups()), Marks: marks,
		Limits: d.settings.Limits(), FromWhite: d.settings.FromWhite,
	}
	if d.setup.Target != nil {
		state.Target = d.setup.Target.Plan.Histogram()
	}
	d.parts.spread.Set(state)
}
