package gui

import (
	"strings"
	"time"

	"app.tonedesk/analysis"
	"app.tonedesk/capture"
	"app.tonedesk/gui/language"
	"app.tonedesk/gui/live"
	"app.tonedesk/gui/menus"
	"app.tonedesk/gui/settings"
	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// state is the source's, but for a region that our own window covers.
func (d *Desk) state() capture.State {
	if d.setup.Source.Kind == setup.SourceRegion && !d.last.bounds.Empty() && d.last.bounds.In(d.covered) &&
		(d.status.State == capture.Live || d.status.State == capture.Unchanged) {
		return capture.Hidden
	}
	return d.status.State
}

// showState renews the bar and, where the source is lost, the sentence.
func (d *Desk) showState() {
	bar, still := d.parts.bar, d.marker.Still()
	state := wording.SourceState{
		State: d.state(), Frozen: d.frozen, Rate: d.settings.PerSecond, Age: time.Since(d.status.Since),
		Partly: d.setup.Source.Kind == setup.SourceRegion && d.covered.Overlaps(d.last.bounds),
		Width:  d.last.bounds.Dx(), Height: d.last.bounds.Dy(),
	}
	if d.frozen {
		state.Age = time.Since(d.last.at)
	}
	text := widgets.SourceText{Icon: menus.SourceIcons[d.setup.Source.Kind], Name: menus.SourceName(d.setup.Source), Sign: signOf(state), State: state.SayState()}
	if still != nil {
		text.Sign, text.State = widgets.SignFrozen, state.SayStill(still.Meta.Time, time.Now())
		if still.Meta.Name != "" {
			text.Name = still.Meta.Name
		}
	}
	if d.inSpace() {
		text.State = wording.InSpace(text.State, d.last.space.Name)
	}
	if !chosen(d) {
		text.Sign, text.State = widgets.SignHidden, wording.SayNothingChosen()
	}
	bar.Source.Set(text)
	tip := text.Name + ", " + text.State[0]
	if counted := wording.SayCounted(d.last.counted); counted != "" && !d.last.bounds.Empty() {
		tip += ", " + counted
	}
	bar.Source.Explain(d.Tips, tip)
	bar.SetFrozen(d.frozen || still != nil)
	freeze := language.Say("Freeze, F")
	if still != nil {
		freeze = language.Say("Back to what is watched, F")
	} else if d.frozen {
		freeze = language.Say("Resume, F")
	}
	bar.Freeze.Explain(d.Tips, freeze)
	showFirstStart(d)
	d.showSentence()
}

func signOf(s wording.SourceState) widgets.Sign {
	switch {
	case s.Frozen:
		return widgets.SignFrozen
	case s.State == capture.Hidden, s.State == capture.Minimised:
		return widgets.SignHidden
	case s.State == capture.Gone, s.State == capture.NotAnswering:
		return widgets.SignTrouble
	case s.State != capture.Live && s.State != capture.Unchanged:
		return widgets.SignWaiting
	case s.Partly:
		return widgets.SignHidden
	case s.State == capture.Unchanged:
		return widgets.SignSame
	}
	return widgets.SignLive
}

// showSentence renews the sentence: what does not hold outranks what the open page says.
func (d *Desk) showSentence() {
	s := d.page().sentence()
	if !chosen(d) {
		s = wording.SayChooseSource()
	} else if state := d.state(); state == capture.Gone && d.marker.Still() == nil {
		s = wording.SayChooseSource()
		if !d.last.bounds.Empty() {
			ago := ""
			if since := time.Since(d.status.Since); since >= time.Second {
				ago = wording.Age(since)
			}
			s = wording.SayNothingToWatch(string(menus.SourceIcons[d.setup.Source.Kind]), ago)
		}
	} else if s.Title == "" {
		s = d.pairWords()
	}
	if d.inSpace() {
		s.Space = wording.ShortSpace(d.last.space.Name)
	}
	d.parts.sentence.Set(s)
}

// inSpace reports whether what is seen was read in another space than sRGB.
func (d *Desk) inSpace() bool {
	state := d.state()
	return d.last.space != nil && !d.last.bounds.Empty() && state != capture.Gone && state != capture.NotAnswering
}

// sentenceLines is how many lines the sentence of a page has.
func sentenceLines(page string) int {
	if page == settings.PageWatch {
		return 2
	}
	return 1
}

// pairWords is the sentence of the pair, or what there is of one.
func (d *Desk) pairWords() wording.Sentence {
	for _, p := range d.setup.Places {
		if p.Moved {
			return wording.SayPlaceAgain()
		}
	}
	a, b, ok := live.PairOf(d.last.spots, d.selected)
	switch {
	case ok:
		pair := analysis.Compare(d.last.spots[a].Spot, d.last.spots[b].Spot, d.settings.Tolerance)
		if sentenceLines(d.settings.Page) == 1 {
			return wording.SayPairInLine(pair, setup.SpotName(a), setup.SpotName(b))
		}
		return wording.SayPair(pair, setup.SpotName(a), setup.SpotName(b))
	case d.Mirror.HasPen():
		return wording.SayToolStep(strings.ToLower(d.marker.toolName()), d.marker.Measure())
	case len(d.last.spots) == 1 && d.last.spots[0].Err == nil:
		return wording.SayOneSpot(setup.SpotName(0), d.last.spots[0].Spot, d.settings.FromWhite)
	}
	return wording.SayNoSpot()
}

// knobWords says where the knob of the view that is shown stands.
func knobWords(s settings.Settings) (k widgets.StripKnob) {
	view := live.ViewOf(live.Wanted{Settings: s})
	if view.Knob != nil {
		at := s.Knob(view)
		k = widgets.StripKnob{Words: wording.SayKnobShort(*view.Knob, at), From: view.Knob.From, To: view.Knob.To, By: view.Knob.Step, At: at}
	}
	return k
}

// slid returns settings with the knob of the view that is shown moved to a place.
func slid(s settings.Settings, to float64) settings.Settings {
	if view := live.ViewOf(live.Wanted{Settings: s}); view.Knob != nil {
		return s.WithKnob(view.Key, view.Knob.At(to))
	}
	return s
}
