package structure

import (
	"image"
	"slices"

	"app.tonedesk/analysis/families"
	"app.tonedesk/analysis/light"
	"app.tonedesk/gui/host"
	"app.tonedesk/gui/language"
	"app.tonedesk/gui/overlay"
	"app.tonedesk/gui/widgets"
)

// lighting is what the local colours that count say of the light: those found with confidence or
// kept by the painter, and not refused. Those set by hand have no size beside the others and don't
// count.
type lighting struct {
	read   *light.Light    // nil before the first
	of     *families.Found // in which it was read
	asked  lightAsked
	arrows bool       // from where the light comes is drawn in the mirror
	drawn  drawnLight // what is drawn
}

// lightAsked is what was asked for last, so that it is asked once.
type lightAsked struct {
	found  *families.Found
	counts []bool
}

// drawnLight is all that the arrows depend on.
type drawnLight struct {
	read   *light.Light
	lay    overlay.Lay
	bounds image.Rectangle
}

// tell tells of the local colours of now, and has the light read that falls on them.
func (l *LocalColours) tell() {
	l.askLight()
	l.Notify(host.FamiliesFound)
}

// askLight has the light read, on the goroutine that searches, if that may be another than before.
func (l *LocalColours) askLight() {
	last := l.tracker.Last()
	next := lightAsked{found: last.Found}
	if next.found == nil {
		l.lit.asked, l.lit.read, l.lit.of = next, nil, nil
		return
	}
	next.counts = make([]bool, len(next.found.List))
	for _, r := range l.tracker.Tracks() {
		if r.Index >= 0 {
			next.counts[r.Index] = l.verdictOf(r) == sureOnes
		}
	}
	if next.found == l.lit.asked.found && slices.Equal(next.counts, l.lit.asked.counts) {
		return
	}
	l.lit.asked = next
	l.Search.AskLight(next.found, last.Cells, next.counts, func(read *light.Light) {
		l.OnWindow(func() { l.takeLight(next, read) })
	})
}

// takeLight takes what was read, unless something else was asked for meanwhile.
func (l *LocalColours) takeLight(asked lightAsked, read *light.Light) {
	if now := l.lit.asked; now.found != asked.found || !slices.Equal(now.counts, asked.counts) {
		return
	}
	l.lit.read, l.lit.of = read, asked.found
	l.ShowLight()
	l.Notify(host.LightRead)
}

// Light is what is known of the light and the local colours that it was read from; nil for nothing.
func (l *LocalColours) Light() (*light.Light, []families.Family) {
	if l.lit.read == nil {
		return nil, nil
	}
	return l.lit.read, l.lit.of.List
}

// LightShown reports whether the mirror shows from where the light comes.
func (l *LocalColours) LightShown() bool { return l.lit.arrows }

// ToggleLight shows in the mirror from where the light comes, or no longer.
func (l *LocalColours) ToggleLight() {
	l.lit.arrows = !l.lit.arrows
	if r := l.lit.read; l.lit.arrows && r != nil && r.Direction == nil {
		l.Messages.Note(language.Say("No direction is seen: the forms don't show one"))
	}
	l.ShowLight()
	l.Refresh()
	l.Changed()
}

// ShowLight draws the arrows anew, if they or the mirror have changed.
func (l *LocalColours) ShowLight() {
	m, f := l.Mirror, l.tracker.Last()
	next := drawnLight{l.lit.read, l.Lay(), m.Bounds()}
	if !l.lit.arrows || next.read == nil || next.read.Direction == nil || f.Source != l.Steps.Now().Source || next.bounds != (image.Rectangle{Min: f.Origin, Max: f.Origin.Add(f.Size)}) {
		l.lit.drawn = drawnLight{}
		m.SetOverlay(widgets.OverlayLight, nil)
		return
	}
	if next != l.lit.drawn {
		l.lit.drawn = next
		m.SetOverlay(widgets.OverlayLight, overlay.Arrows(arrowsOf(next.read), next.bounds, next.lay))
	}
}

// arrowsOf are the forms that say from where their light comes.
func arrowsOf(l *light.Light) (arrows []overlay.Arrow) {
	for _, f := range l.Lightings() {
		if f.Verdict != light.Unsure {
			arrows = append(arrows, overlay.Arrow{X: f.X, Y: f.Y, Degrees: f.Degrees, Odd: f.Verdict == light.Elsewhere})
		}
	}
	return arrows
}
