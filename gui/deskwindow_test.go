package gui

import (
	"image"
	"testing"

	"app.tonedesk/gui/guitest"
	"app.tonedesk/gui/host"
	"app.tonedesk/gui/native"
	"app.tonedesk/gui/preferences"
	"app.tonedesk/gui/settings"
	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// Our own window is left out of what is watched while it lies over it, reads nothing while
// it is minimised, and is found again where it was.
func TestOwnWindowMoves(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	frame, inside := image.Rect(0, 0, 220, 340), image.Rect(5, 30, 215, 335)
	place := host.WindowPlace{Frame: frame, Inside: inside}
	d.see(t, guitest.Halves(guitest.Light, guitest.Shadow))
	d.moved(place)
	if !d.covered.Empty() || d.Messages.Said[host.MessageCovered] != "" {
		t.Errorf("a picture file counts as covered: %v", d.covered)
	}
	d.setup.Source = setup.Source{Kind: setup.SourceRegion, Region: image.Rect(0, 0, 400, 300)}
	d.moved(place)
	if d.covered != frame || d.Messages.Said[host.MessageCovered] == "" {
		t.Errorf("over the region, %v is covered; it says %q", d.covered, d.Messages.Said[host.MessageCovered])
	}
	out := place
	out.Out = true
	if d.moved(out); !d.covered.Empty() || d.Messages.Said[host.MessageCovered] != "" {
		t.Errorf("left out of pictures of the screen, it covers %v", d.covered)
	}
	if d.settings.Place.Rectangle() != inside {
		t.Errorf("its place is kept as %v", d.settings.Place.Rectangle())
	}
	d.moved(host.WindowPlace{Frame: frame, Inside: image.Rectangle{}, Hidden: true})
	if !d.covered.Empty() || !d.hidden || d.settings.Place.Rectangle() != inside || d.Messages.Said[host.MessageCovered] != "" {
		t.Errorf("minimised: %v covered, hidden %v, place %v", d.covered, d.hidden, d.settings.Place.Rectangle())
	}
	d.moved(host.WindowPlace{Frame: frame.Add(image.Pt(1000, 0)), Inside: inside.Add(image.Pt(1000, 0))})
	if d.hidden || d.Messages.Said[host.MessageCovered] != "" || d.settings.Place.Rectangle() != inside.Add(image.Pt(1000, 0)) {
		t.Errorf("moved aside: hidden %v, it says %q, place %v", d.hidden, d.Messages.Said[host.MessageCovered], d.settings.Place.Rectangle())
	}
	d.moved(host.WindowPlace{}) // the system doesn't tell
	if !d.covered.Empty() || d.hidden {
		t.Error("nothing is known, yet something is covered or hidden")
	}
}

// Where the desktop can't keep a window above others that is said, and not remembered.
func TestStayingAboveIsRefused(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	d.toggleAbove()
	if d.settings.KeepAbove || d.Messages.Said[host.MessageError] == "" {
		t.Errorf("without a desktop it stays above: %v; it says %q", d.settings.KeepAbove, d.Messages.Said[host.MessageError])
	}
}

// Leaving the window out of pictures of the screen has a switch where the system offers it, for which
// there is room in the settings; where the system then doesn't do it, that is said, and not remembered.
func TestLeavingOutIsRefused(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	d.openPanel(panelSettings)
	row := func() (found *widgets.Switch) {
		d.parts.prefs.Tabs().Choose(4)
		for _, r := range d.parts.prefs.Content().(*widgets.Form).Rows() {
			if r.Name == wording.SayLeaveOut.String() {
				found = r.Control.(*widgets.Switch)
			}
		}
		return found
	}
	if row() != nil != native.CanLeaveOut() {
		t.Errorf("there is a switch: %v; the system offers it: %v", row() != nil, native.CanLeaveOut())
	}
	acts := prefActs(d)
	acts.LeaveOut = func(on bool) { leaveOut(d, on) }
	d.parts.prefs = preferences.New(&d.Host, &d.settings, acts)
	out := row()
	if high := d.parts.prefs.LeastHeight(settingsWidth); high > settingsRoom {
		t.Errorf("with it the part asks for %g, and there are %d", high, settingsRoom)
	}
	out.Tapped(nil) // without a desktop
	if d.settings.LeaveOut || out.On() || d.Messages.Said[host.MessageError] != wording.SayNotLeftOut.String() {
		t.Errorf("it is left out: %v, %v; it says %q", d.settings.LeaveOut, out.On(), d.Messages.Said[host.MessageError])
	}
}

// The region from before is where the next choosing begins, also while a window is followed.
func TestRegionStaysWhileAWindowIsFollowed(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	region := setup.Source{Kind: setup.SourceRegion, Region: image.Rect(20, 30, 220, 330)}
	window := setup.Source{Kind: setup.SourceWindow, Title: "Heron", Class: "Painter"}
	for _, from := range []setup.Source{region, window} {
		d.watch(from)
		if got := d.watchedRegion(); got != region.Region {
			t.Errorf("while it watches %+v the next choosing begins with %v", from, got)
		}
	}
}
