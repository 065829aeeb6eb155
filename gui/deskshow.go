package gui

import (
	"path/filepath"
	"slices"
	"time"

	"app.tonedesk/analysis"
	"app.tonedesk/capture"
	"app.tonedesk/gui/host"
	"app.tonedesk/gui/live"
	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// showFrame puts what the worker made of a frame into the parts.
func (d *Desk) showFrame(s *live.Shown) {
	d.last.at, d.last.counted = s.At, s.Reading.Share()
	if s.Bounds != d.last.bounds {
		d.last.bounds = s.Bounds
		d.showCovered()
	}
	if s.Jumped && len(d.setup.Places)+len(d.setup.Families) > 0 {
		d.setup = d.setup.AllMoved(true) // no step of undo: the painter didn't do it
		d.publish()
		d.showMarks()
		d.showStanding()
	}
	if s.Picked != nil && s.Picked == d.pick {
		d.pick = nil
		d.leaveOutColour(*s.Picked, s.Colour)
	}
	d.sayFlashes(s.Flashes)
	d.workspace.see(s.Bounds, s.Canvas)
	d.Mirror.SetPicture(s.Img, s.Beside, s.Bounds, s.Part, s.Flipped)
	d.marker.Renew()
	d.comparison.Shown(s.At, s.Bounds)
	d.Mirror.SetLoupe(s.Loupe, d.settings.SpotSize)
	d.copies.Take(s.Copied)
	if s.Text {
		d.last.spots = append(d.last.spots[:0], s.Spots...)
		d.families.TakeKept(s.Kept)
		if d.families.TakeManual(s.Manual) {
			d.showMarks()
		}
		d.last.small = append(d.last.small[:0], s.Small...)
		d.showFigures(s.Reading)
		d.target.Taken(s.Reading, s.At)
		d.showState()
		d.trace.shown(d, s)
	}
}

// sayFlashes says that the picture flashes for as long as it does, unless that was closed.
func (d *Desk) sayFlashes(flashes bool) {
	switch was := d.last.flashes; {
	case flashes && !was:
		d.Messages.Say(host.MessageFlashes, "The picture flashes: shown at most three times a second.")
	case was && !flashes:
		d.Messages.Clear(host.MessageFlashes)
	}
	d.last.flashes = flashes
}

// showFigures renews the sentence and the open page. The reading is nil before the first
// picture; pages keep nothing of it.
func (d *Desk) showFigures(r *analysis.Reading) {
	d.showPair()
	d.page().show(r)
}

// showCards renews the cards.
func (d *Desk) showCards() {
	cards := make([]wording.CardText, 0, len(d.last.spots))
	for i, spot := range d.last.spots {
		if i >= len(d.setup.Places) {
			break
		}
		at := d.setup.Places[i]
		if spot.Err != nil {
			cards = append(cards, wording.SayLostCard(setup.SpotName(i), i == d.selected))
			continue
		}
		cards = append(cards, wording.SayCard(setup.SpotName(i), spot.Spot, wording.SpotState{
			Area: !at.Area.Empty(), Moved: at.Moved, FromWhite: d.settings.FromWhite, Selected: i == d.selected,
		}))
	}
	for i := len(cards); i < 2; i++ {
		cards = append(cards, wording.SayEmptyCard(setup.SpotName(i)))
	}
	if d.parts.cards.Set(cards) {
		d.layOut()
	}
}

// showSpread renews the spread; nothing of the reading is kept.
func (d *Desk) showSpread(r *analysis.Reading) {
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
		Limits: d.settings.Limits(), FromWhite: d.settings.FromWhite, Manual: len(d.setup.Edges) > 0,
	}
	if d.setup.Target != nil {
		state.Target = d.setup.Target.Plan.Histogram()
	}
	d.parts.spread.Set(state)
}

func (d *Desk) showPair() {
	a, b, ok := live.PairOf(d.last.spots, d.selected)
	if !ok {
		first := ""
		if len(d.last.spots) == 1 {
			first = setup.SpotName(0)
		}
		if d.Mirror.HasPen() {
			d.parts.verdict.Set(wording.SayTool(d.marker.toolName(), d.marker.Tool() == 0))
			return
		}
		d.parts.verdict.Set(wording.SayNoPair(first))
		return
	}
	pair := analysis.Compare(d.last.spots[a].Spot, d.last.spots[b].Spot, d.settings.Tolerance)
	d.parts.verdict.Set(wording.SayPair(pair, setup.SpotName(a), setup.SpotName(b)))
}

// showNoPicture is the window before its first picture.
func (d *Desk) showNoPicture() {
	d.showMarks()
	d.showFigures(nil)
	d.showSettings()
	d.showState()
}

// showMarks puts the spots on the mirror.
func (d *Desk) showMarks() {
	marks := make([]widgets.Mark, len(d.setup.Places))
	for i, p := range d.setup.Places {
		marks[i] = widgets.Mark{Name: setup.SpotName(i), At: p.At, Area: p.Area, Moved: p.Moved, Selected: i == d.selected}
	}
	if d.page().wantsFamilies() {
		marks = append(marks, d.families.Marks()...)
	}
	d.Mirror.SetMarks(marks)
}

// showSettings takes changed settings over to the parts.
func (d *Desk) showSettings() {
	if !widgets.IsThemeOf(d.App.Settings().Theme(), d.settings.Ground) {
		d.App.Settings().SetTheme(widgets.NewTheme(d.settings.Ground))
		d.colour()
	}
	word := viewWord(d.settings.View)
	if d.parts.bar.View.Text != word {
		d.parts.bar.View.SetText(word)
		d.parts.bar.Refresh()
	}
	d.showState()
}

// setStatus takes what the watcher says of the source.
func (d *Desk) setStatus(s capture.Status) {
	reading := s.State == capture.NotAnswering && d.setup.Source.Kind != setup.SourceRegion
	if reading { // a large file takes its time; only a screen can fail to answer
		s.State, s.Err = capture.Waiting, nil
	}
	d.status = s
	if s.Err != nil && d.setup.Source.Kind == setup.SourceStill {
		d.stills.openFailed(s.Err)
		return
	}
	switch {
	case s.Err != nil:
		d.Messages.Say(host.MessageTrouble, d.explain(s.Err))
	case reading && d.setup.Source.Kind == setup.SourcePicture:
		d.Messages.Say(host.MessageTrouble, wording.SayLoading(filepath.Base(d.setup.Source.Path)))
	default:
		d.Messages.Clear(host.MessageTrouble)
	}
	d.showState()
	d.Changed()
}

// explain says what is wrong with the source.
func (d *Desk) explain(err error) string {
	switch d.setup.Source.Kind {
	case setup.SourcePicture:
		return wording.Explain(wording.On("read", d.setup.Source.Path), err)
	case setup.SourceRegion:
		return wording.Explain("watch the region", err)
	case setup.SourceStill:
		return wording.Explain("open the still", err)
	}
	return wording.Explain("show the demo painting", err)
}

// state is the source's, but for a region that our own window covers.
func (d *Desk) state() capture.State {
	if d.setup.Source.Kind == setup.SourceRegion && !d.last.bounds.Empty() && d.last.bounds.In(d.covered) &&
		(d.status.State == capture.Live || d.status.State == capture.Unchanged) {
		return capture.Hidden
	}
	return d.status.State
}

// showState renews the source bar.
func (d *Desk) showState() {
	state := d.state()
	since := d.status.Since
	if d.frozen {
		since = d.last.at
	}
	var line, under widgets.TextForms
	line.Long, line.Short = wording.SayStatus(state, d.frozen, time.Since(since))
	still := d.marker.Still()
	if still != nil {
		line.Long, line.Short = "Still of "+wording.TimeSay(still.Meta.Time), "Still"
	}
	if !d.last.bounds.Empty() {
		under.Short = wording.SizeSay(d.last.bounds.Dx(), d.last.bounds.Dy())
		under.Long = under.Short
		if still == nil {
			under.Long = wording.SaySource(d.last.bounds.Dx(), d.last.bounds.Dy(), d.settings.PerSecond)
		}
		if counted := wording.SayCounted(d.last.counted); counted != "" {
			under.Long, under.Short = under.Short+" · "+counted, counted
		}
	}
	d.parts.bar.Set(signOf(state, d.frozen), line, under)
	word := "Freeze"
	if d.frozen {
		word = "Resume"
	}
	if d.parts.bar.Freeze.Text != word {
		d.parts.bar.Freeze.SetText(word)
		d.parts.bar.Refresh()
	}
}

func signOf(state capture.State, frozen bool) widgets.Sign {
	if frozen {
		return widgets.SignFrozen
	}
	switch state {
	case capture.Live:
		return widgets.SignLive
	case capture.Unchanged:
		return widgets.SignSame
	case capture.Hidden:
		return widgets.SignHidden
	case capture.Gone, capture.NotAnswering:
		return widgets.SignTrouble
	}
	return widgets.SignWaiting
}

// showStanding renews the standing messages.
func (d *Desk) showStanding() {
	if d.setup.Source.Kind == setup.SourceDemo {
		d.Messages.Offer(host.MessageDemo, "A demo painting, to try it all on.", host.MessageAct{Name: "Choose a region", Do: d.PickRegion})
	} else {
		d.Messages.Clear(host.MessageDemo)
	}
	moved := false
	for _, p := range d.setup.Places {
		moved = moved || p.Moved
	}
	for _, f := range d.setup.Families {
		moved = moved || f.Moved()
	}
	if moved {
		d.Messages.Offer(host.MessageMoved, "The picture moved. Place the spots again.", host.MessageAct{Name: "They are right", Do: d.spotsAreRight})
	} else {
		d.Messages.Clear(host.MessageMoved)
	}
}

// cardActs joins the cards to the desk.
func (d *Desk) cardActs() widgets.CardActs {
	return widgets.CardActs{Copy: d.copyHex, Select: d.selectSpot, Delete: d.deleteSpot, Keys: d, Tips: d.Tips}
}
