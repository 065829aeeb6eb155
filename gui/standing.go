package gui

import (
	"time"

	"app.tonedesk/capture"
	"app.tonedesk/gui/autokeep"
	"app.tonedesk/gui/host"
	"app.tonedesk/gui/icons"
	"app.tonedesk/gui/language"
	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/wording"
)

// standing says over the picture what lasts, by chips and an offer, and what a tap does about it.
type standing struct {
	workspace workspaceOffer
	loading   bool   // a large file is being read
	tick      func() // stops the timer that renews the age of a held picture; nil: none runs
	keeps     autokeep.Keeper
}

// show renews the chips; what is said already costs nothing.
func (s *standing) show(d *Desk) {
	s.showLost(d)
	d.parts.strip.SetNote(wording.SayStrip(d.state() == capture.Gone && !d.last.bounds.Empty(), s.workspace.share))
	if d.setup.AnyMoved() {
		d.Messages.Offer(host.MessageMoved, wording.SayMoved.String(), host.MessageAct{Name: language.Say("Keep spots here"), Do: d.spotsAreRight})
	} else {
		d.Messages.Clear(host.MessageMoved)
	}
	s.showCovered(d)
	s.showFrozen(d)
	s.keeps.Renew()
	if out := wording.SayCounted(d.last.counted); out != "" && d.setup.LeavesOut() {
		d.Messages.Offer(host.MessagePart, out, host.MessageAct{Name: language.Say("Change what is left out"), Do: func() { openCounted(d, d.parts.message.Below()) }})
	} else {
		d.Messages.Clear(host.MessagePart)
	}
	if d.last.flashes {
		d.Messages.Offer(host.MessageFlashes, wording.SayFlashes.String(), host.MessageAct{Name: language.Say("Why?"), Do: func() {
			d.Messages.Note(language.Say("The picture itself flashes: faster could harm who looks at it"))
		}})
	} else {
		d.Messages.Clear(host.MessageFlashes)
	}
}

// joinAutokeep has the picture kept by itself where that is wanted.
func joinAutokeep(d *Desk) {
	d.standing.keeps = autokeep.Keeper{Host: &d.Host, Acts: autokeep.Acts{
		Settings: &d.settings, Renewed: d.settled, Frozen: func() bool { return d.frozen },
		Now: func() (autokeep.Seen, bool) {
			return autokeep.Seen{Source: d.setup.Source, At: d.last.at}, d.status.Err == nil
		},
		ByHand: func() autokeep.Seen { return autokeep.Seen{Source: d.stills.last.source, At: d.stills.last.at} },
		Copy:   withoutChip(d), Said: d.stills.saidOf, MetaOf: metaOf,
		Needs: func() []string {
			needs := []string{d.settings.TargetStill, d.comparison.With.ID}
			for i := range d.settings.Pictures { // whose targets come back with them
				needs = append(needs, d.settings.Pictures[i].TargetStill)
			}
			return needs
		},
	}}
}

// showLost says that what is watched can't be read, or not yet.
func (s *standing) showLost(d *Desk) {
	from := d.setup.Source
	switch {
	case s.loading:
		d.Messages.Offer(host.MessageLost, wording.SayBeingRead(from.Path), host.MessageAct{Icon: icons.File})
	case d.status.Err != nil && from.Kind == setup.SourceRegion:
		d.Messages.Offer(host.MessageLost, wording.SayUnreadable(true, d.status), host.MessageAct{Name: language.Say("Choose again"), Do: d.PickRegion})
	case d.status.Err != nil && from.Kind == setup.SourceWindow:
		d.Messages.Offer(host.MessageLost, wording.SayNotFollowed(d.status.Err), host.MessageAct{Name: language.Say("Follow another"), Do: d.ways.AskWindow})
	case d.status.Err != nil && from.Kind == setup.SourceShared:
		d.Messages.Offer(host.MessageLost, wording.SayNotShared(d.status.Err), host.MessageAct{Name: language.Say("Choose again"), Do: d.PickRegion})
	case d.status.Err != nil && from.Kind == setup.SourcePicture:
		d.Messages.Offer(host.MessageLost, wording.SayUnreadable(false, d.status), host.MessageAct{Name: language.Say("Choose again"), Do: func() { askPicture(d) }})
	default:
		d.Messages.Clear(host.MessageLost)
	}
}

// showCovered says that our own window covers a part of what is watched.
func (s *standing) showCovered(d *Desk) {
	all, part := d.last.bounds.Size(), d.covered.Intersect(d.last.bounds).Size()
	if d.setup.Source.Kind != setup.SourceRegion || part.X*part.Y == 0 {
		d.Messages.Clear(host.MessageCovered)
		return
	}
	share := float64(part.X) * float64(part.Y) / (float64(all.X) * float64(all.Y))
	d.Messages.Offer(host.MessageCovered, wording.SayCoveredPart(share), host.MessageAct{Name: language.Say("Why?"), Do: func() {
		d.Messages.Note(language.Say("This window lies over the picture: move it aside"))
	}})
}

// showFrozen says for how long the picture is held, anew every second.
func (s *standing) showFrozen(d *Desk) {
	if !d.frozen || d.state() == capture.Gone {
		d.Messages.Clear(host.MessageFrozen)
		if s.tick != nil {
			s.tick()
			s.tick = nil
		}
		return
	}
	d.Messages.Offer(host.MessageFrozen, wording.SayFrozen(time.Since(d.last.at)), host.MessageAct{Name: language.Say("Resume, F"), Do: d.Freeze})
	if s.tick == nil {
		s.tick = d.Later(time.Second, func() {
			s.tick = nil
			s.showFrozen(d)
		})
	}
}
