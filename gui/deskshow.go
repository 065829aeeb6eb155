package gui

import (
	"slices"
	"time"

	"app.tonedesk/analysis"
	"app.tonedesk/capture"
)

// show puts what the worker made of a frame into the parts.
func (d *Desk) show(s *shown) {
	d.at = s.at
	if s.bounds != d.bounds {
		d.bounds = s.bounds
		d.showCovered()
	}
	if s.jumped && len(d.setup.Places)+len(d.setup.Families) > 0 {
		d.setup = d.setup.allMoved(true) // no step of undo: the painter didn't do it
		d.tell()
		d.showMarks()
		d.showStrip()
	}
	if s.picked != nil && s.picked == d.pick {
		d.pick = nil
		d.change(d.setup.leavingOutTone(s.tone), "")
	}
	d.parts.mirror.SetPicture(s.img, s.beside, s.bounds, s.part, s.flipped)
	d.renewNotes()
	d.renewCompare()
	d.drawCompare()
	d.parts.mirror.SetLoupe(s.loupe, d.settings.SpotSize)
	d.takeCopy(s.copied)
	if s.text {
		d.spots = append(d.spots[:0], s.spots...)
		same := slices.EqualFunc(d.hand, s.hand, func(a, b handReading) bool { return a.Turned == b.Turned })
		d.hand = append(d.hand[:0], s.hand...)
		if !same {
			d.showMarks()
		}
		d.small = append(d.small[:0], s.small...)
		d.showFigures(s.reading)
		d.takenTarget(s.reading)
		d.showState()
		d.trace.shown(d, s)
	}
}

// showFigures renews the sentence and the open page. The reading is nil before the first
// picture; pages keep nothing of it.
func (d *Desk) showFigures(r *analysis.Reading) {
	d.showPair()
	d.page().show(r)
}

// showCards renews the cards.
func (d *Desk) showCards() {
	cards := make([]CardText, 0, len(d.spots))
	for i, spot := range d.spots {
		if i >= len(d.setup.Places) {
			break
		}
		at := d.setup.Places[i]
		if spot.Err != nil {
			cards = append(cards, SayLostCard(spotName(i), i == d.selected))
			continue
		}
		cards = append(cards, SayCard(spotName(i), spot.Spot, SpotState{
			Area: !at.Area.Empty(), Moved: at.Moved, FromWhite: d.settings.FromWhite, Selected: i == d.selected,
		}))
	}
	for i := len(cards); i < 2; i++ {
		cards = append(cards, SayEmptyCard(spotName(i)))
	}
	if d.parts.cards.Set(cards) {
		d.relay()
	}
}

// showSpread renews the spread.
func (d *Desk) showSpread(r *analysis.Reading) {
	if r == nil {
		return
	}
	marks := make([]SpreadMark, 0, len(d.spots))
	for i, spot := range d.spots {
		if i < len(d.setup.Places) && spot.Err == nil {
			marks = append(marks, SpreadMark{Name: spotName(i), Lightness: spot.Lightness})
		}
	}
	state := spreadOf(r, marks)
	state.Limits = d.settings.limits()
	state.FromWhite, state.ByHand = d.settings.FromWhite, len(d.setup.Edges) > 0
	if d.setup.Target != nil {
		state.Target = d.setup.Target.plan.Histogram()
	}
	d.parts.spread.Set(state)
}

// pairIndices are the spots of the sentence: A, and the selected one or else B.
func (d *Desk) pairIndices() (a, b int, ok bool) {
	a, b = 0, 1
	if d.selected > 1 {
		b = d.selected
	}
	ok = b < len(d.spots) && d.spots[a].Err == nil && d.spots[b].Err == nil
	return a, b, ok
}

func (d *Desk) showPair() {
	a, b, ok := d.pairIndices()
	d.pair = nil
	if !ok {
		first := ""
		if len(d.spots) == 1 {
			first = spotName(0)
		}
		if d.parts.mirror.pen != nil {
			d.parts.verdict.Set(SayTool(noteTools()[d.pen.tool].name, d.pen.tool == 0))
			return
		}
		d.parts.verdict.Set(SayNoPair(first))
		return
	}
	pair := analysis.Compare(d.spots[a].Spot, d.spots[b].Spot, d.settings.Tolerance)
	d.pair = &pair
	d.parts.verdict.Set(SayPair(pair, spotName(a), spotName(b)))
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
	marks := make([]Mark, len(d.setup.Places))
	for i, p := range d.setup.Places {
		marks[i] = Mark{Name: spotName(i), At: p.At, Area: p.Area, Moved: p.Moved, Selected: i == d.selected}
	}
	if d.page().searches() {
		for i, f := range d.setup.Families {
			turned := i < len(d.hand) && d.hand[i].Turned
			marks = append(marks, sideMark(f, i, false, turned), sideMark(f, i, true, turned))
		}
	}
	d.parts.mirror.SetMarks(marks)
}

// showSettings takes changed settings over to the parts.
func (d *Desk) showSettings() {
	if !IsThemeOf(d.app.Settings().Theme(), d.settings.Ground) {
		d.app.Settings().SetTheme(NewTheme(d.settings.Ground))
		d.colour()
	}
	word := viewWord(d.settings.View)
	if d.parts.bar.view.Text != word {
		d.parts.bar.view.SetText(word)
		d.parts.bar.Refresh()
	}
	d.showState()
}

// setStatus takes what the watcher says of the source.
func (d *Desk) setStatus(s capture.Status) {
	d.status = s
	if s.Err != nil && d.setup.Source.Kind == sourceStill {
		d.stillGone(s.Err)
		return
	}
	if s.Err != nil {
		d.parts.strip.say(stripTrouble, d.explain(s.Err))
	} else {
		d.parts.strip.clear(stripTrouble)
	}
	d.showState()
	d.trace.state(d)
}

// explain says what is wrong with the source.
func (d *Desk) explain(err error) string {
	switch d.setup.Source.Kind {
	case sourcePicture:
		return Explain("read "+Quote(d.setup.Source.Path), err)
	case sourceRegion:
		return Explain("watch the region", err)
	case sourceStill:
		return Explain("open the still", err)
	}
	return Explain("show the demo painting", err)
}

// state is the source's, but for a region that our own window covers.
func (d *Desk) state() capture.State {
	if d.setup.Source.Kind == sourceRegion && !d.bounds.Empty() && d.bounds.In(d.covered) &&
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
		since = d.at
	}
	var line, under widths
	line.long, line.short = SayStatus(state, d.frozen, time.Since(since))
	if d.still != nil {
		line.long, line.short = "Still of "+TimeSay(d.still.Meta.Time), "Still"
	}
	if !d.bounds.Empty() {
		under.short = SizeSay(d.bounds.Dx(), d.bounds.Dy())
		under.long = under.short
		if d.still == nil {
			under.long = SaySource(d.bounds.Dx(), d.bounds.Dy(), d.settings.PerSecond)
		}
	}
	d.parts.bar.set(signOf(state, d.frozen), line, under)
	word := "Freeze"
	if d.frozen {
		word = "Resume"
	}
	if d.parts.bar.freeze.Text != word {
		d.parts.bar.freeze.SetText(word)
		d.parts.bar.Refresh()
	}
}

func signOf(state capture.State, frozen bool) sign {
	if frozen {
		return signFrozen
	}
	switch state {
	case capture.Live:
		return signLive
	case capture.Unchanged:
		return signSame
	case capture.Hidden:
		return signHidden
	case capture.Gone, capture.NotAnswering:
		return signTrouble
	}
	return signWaiting
}

// showStrip renews the standing messages.
func (d *Desk) showStrip() {
	strip := d.parts.strip
	if d.setup.Source.Kind == sourceDemo {
		strip.sayWith(stripDemo, "A demo painting, to try it all on.", stripAct{"Choose a region", d.PickRegion})
	} else {
		strip.clear(stripDemo)
	}
	moved := false
	for _, p := range d.setup.Places {
		moved = moved || p.Moved
	}
	for _, f := range d.setup.Families {
		moved = moved || f.Light.Moved || f.Shadow.Moved
	}
	if moved {
		strip.sayWith(stripMoved, "The picture moved. Place the spots again.", stripAct{"They are right", d.spotsAreRight})
	} else {
		strip.clear(stripMoved)
	}
}

// cardActs joins the cards to the desk.
func (d *Desk) cardActs() CardActs {
	return CardActs{Copy: d.copyHex, Select: d.selectSpot, Delete: d.deleteSpot, Keys: d, Tips: d.parts.tips}
}
