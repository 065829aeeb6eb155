package gui

import (
	"image"
	"slices"
	"time"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/views"
	"app.tonedesk/gui/comparing"
	"app.tonedesk/gui/language"
	"app.tonedesk/gui/live"
	"app.tonedesk/gui/pointer"
	"app.tonedesk/gui/settings"
	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/wording"
)

// currentLook is how the picture looks now.
func (d *Desk) currentLook() look {
	return look{d.settings.View, d.settings.Flipped, d.comparison.How}
}

// look is what changes all of the picture at once.
type look struct {
	view    string
	flipped bool
	how     comparing.Way
}

// applyLook has the picture look otherwise.
func (d *Desk) applyLook(from, to look) {
	if to.view != from.view || to.flipped != from.flipped {
		d.settings.View, d.settings.Flipped = to.view, to.flipped
		d.settled()
	}
	if to.how != from.how {
		d.comparison.As(to.how)
	}
}

// setView shows another view.
func (d *Desk) setView(key string) {
	next := d.flashes.Requested()
	next.view = key
	d.flashes.Request(next)
}

// nextView goes through the views.
func (d *Desk) nextView(by int) {
	all := views.All()
	at := slices.IndexFunc(all, func(v views.View) bool { return v.Key == d.flashes.Requested().view })
	d.setView(all[(at+by+len(all))%len(all)].Key)
}

// viewAt shows a view by its place in the list, if there is one.
func (d *Desk) viewAt(i int) {
	if all := views.All(); i < len(all) {
		d.setView(all[i].Key)
	}
}

// flip exchanges left and right.
func (d *Desk) flip() {
	next := d.flashes.Requested()
	next.flipped = !next.flipped
	d.flashes.Request(next)
}

// turnKnob moves the knob of the view that is shown by some steps, and says where it stands.
func (d *Desk) turnKnob(steps int) {
	view := live.ViewOf(live.Wanted{Settings: d.settings})
	if view.Knob == nil {
		d.Messages.Note(language.Say("Nothing to set about the view %s", wording.ViewName(view)))
		return
	}
	at := view.Knob.At(d.settings.Knob(view) + float64(steps)*view.Knob.Step)
	d.settings = d.settings.WithKnob(view.Key, at)
	d.Messages.Note(wording.ViewName(view) + ": " + wording.SayKnob(*view.Knob, at))
	d.settled()
}

// joinPointer makes the one that reads under the pointer.
func joinPointer(d *Desk) {
	d.pointer.Host, d.pointer.Acts = &d.Host, pointer.Acts{
		Use: d.ways.Use, SpaceAt: d.ways.Colours.At, Off: func() { toggleUnder(d) },
		A: func() *analysis.Spot {
			if len(d.last.spots) == 0 || d.last.spots[0].Err != nil {
				return nil
			}
			return &d.last.spots[0].Spot
		},
		Watched: func() (region image.Rectangle) {
			if d.setup.Source.Kind == setup.SourceRegion {
				region = d.last.bounds
			}
			return region
		},
		Spots: func() (squares []image.Rectangle) {
			for _, p := range d.setup.Places {
				squares = append(squares, p.Square(d.settings.SpotSize))
			}
			return squares
		},
		Hides: func(renew bool) {
			d.publish()
			if renew {
				d.watcher.Again()
			}
		},
	}
}

// toggleUnder reads under the pointer anywhere on the screen, or over the mirror alone.
func toggleUnder(d *Desk) {
	d.settings.UnderPointer = !d.settings.UnderPointer
	d.settled()
}

// joinComparer makes the one that compares what is watched.
func (d *Desk) joinComparer() {
	d.comparison = comparing.New(&d.Host, comparing.Acts{
		CopyPicture: d.copyPicture, ComeBack: d.comeBack, Wait: d.flashes.Wait,
		View: func() (views.View, views.Look) {
			view := live.ViewOf(live.Wanted{Settings: d.settings})
			return view, views.Look{Knob: d.settings.Knob(view), Edges: d.settings.Edges}
		},
		Wish: func(how comparing.Way) {
			next := d.flashes.Requested()
			next.how = how
			d.flashes.Request(next)
		},
		Now: func() string {
			if s := d.marker.Still(); s != nil {
				return s.Meta.Name
			}
			return ""
		},
		Every:    func() time.Duration { return time.Duration(d.settings.TurnEvery * float64(time.Second)) },
		OpenPage: func() { d.openPage(pageIndex(settings.PageStills)) },
	})
}
