package remember

import (
	"image"
	"reflect"

	"app.tonedesk/gui/host"
	"app.tonedesk/gui/settings"
	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/structure"
)

// Memory has what lies on pictures come back with them. It is used on the Fyne goroutine only.
type Memory struct {
	*host.Host
	Settings *settings.Settings
	Local    *structure.LocalColours
	Targets  *structure.Targets
	Acts

	opened bool        // frames are of what is watched now, and no longer of what was watched before
	seen   bool        // there was one
	size   image.Point // of the picture; zero while it is not known, or only a part of it
	gone   setup.Setup // as it was when nothing of the picture was left
	// Targets that were chosen since the program began, by what is watched: they need not be read
	// again, and what was in the mirror can't be.
	targets map[setup.Source]*setup.Target
	awaits  setup.Source // whose target is being read
}

// Acts are what the memory asks of the window.
type Acts struct {
	Save     func()                                 // has the settings written soon
	Unselect func()                                 // no spot is the one for keys
	Put      func(setup.Setup)                      // replaces the setup, without a step of undo
	Along    func(by func(setup.Setup) setup.Setup) // the same, and changes those of this picture that undo goes back to
}

// keyOf is the same for the parts of one picture: what lies on it is remembered together.
func keyOf(from setup.Source) setup.Source {
	if from.Kind == setup.SourceRegion {
		return from
	}
	return from.Whole()
}

// Watching returns the setup in which a source is watched instead of what is watched now. What lies
// on its picture comes back with it, and its target, which readTarget reads once the setup is the one
// of now. Where nothing is remembered, what lies on the picture of now stays where both show the same:
// parts of one picture, or regions of the screen that overlap; the target stays then too.
func (m *Memory) Watching(from setup.Source) (next setup.Setup, readTarget func()) {
	now := m.Steps.Now()
	next = now
	next.Source = from
	if keyOf(from) == keyOf(now.Source) {
		return within(next), func() {}
	}
	m.Targets.GiveUp()
	if back, ok := m.Settings.Pictures.Of(from); ok {
		return m.laid(next, back)
	}
	if from.Kind != setup.SourceRegion || now.Source.Kind != setup.SourceRegion || !from.Region.Overlaps(now.Source.Region) {
		next = next.Cleared()
		next.Target = now.Target
	}
	if own := m.targets[keyOf(from)]; own != nil {
		next.Target = own
	}
	return within(next), func() {}
}

// laid returns a setup with what is remembered of its picture.
func (m *Memory) laid(next setup.Setup, back settings.Remembered) (laid setup.Setup, readTarget func()) {
	from := next.Source // back may have another part of it
	next = back.Setup(next, m.Settings.LikeWithin)
	next.Source = from
	next.Judged = m.Local.Adopt(next.Judged)
	next.Target = m.targets[keyOf(from)]
	if path, still := next.Target.Origin(); path == back.Target && still == back.TargetStill {
		return next, func() {}
	}
	next.Target = nil
	m.Settings.Target, m.Settings.TargetStill = back.Target, back.TargetStill
	m.awaits, m.Targets.Restoring = from, true
	return next, func() { m.Targets.Restore(back.Target, back.TargetStill) }
}

// Begin returns the setup of the start with what lies on its picture. Its target becomes the one of
// the last time, which is read at the start.
func (m *Memory) Begin(now setup.Setup) setup.Setup {
	back, ok := m.Settings.Pictures.Of(now.Source)
	if !ok {
		return now
	}
	m.Settings.Target, m.Settings.TargetStill = back.Target, back.TargetStill
	now, _ = m.laid(now, back)
	return now
}

// within returns the setup without the spots that lie outside the part that is watched.
func within(s setup.Setup) setup.Setup {
	if s.Source.Region.Empty() {
		return s
	}
	return s.Inside(s.Source.Region)
}

// Switched is for the moment when another source is watched: its frames come later, and a target
// that is being read for another one is not its own.
func (m *Memory) Switched() {
	m.opened, m.seen, m.size = false, false, image.Point{}
	if m.Steps.Now().Source != m.awaits {
		m.Targets.GiveUp()
	}
}

// Opened is for the moment when a source was opened: from now on frames are its own.
func (m *Memory) Opened(from setup.Source) {
	if from.Feed() == m.Steps.Now().Source.Feed() {
		m.opened = true
	}
}

// Renamed takes the target of a window along to its new name.
func (m *Memory) Renamed(was, now setup.Source) {
	if t := m.targets[keyOf(was)]; t != nil {
		delete(m.targets, keyOf(was))
		m.targets[keyOf(now)] = t
	}
}

// Note remembers what lies on the picture now. It may be called with every change.
func (m *Memory) Note() {
	now := m.Steps.Now()
	if settings.WatchedOf(now.Source) == (settings.Watched{}) {
		return // the demo painting; a still has a memory of its own
	}
	before, _ := m.Settings.Pictures.Of(now.Source)
	size := m.size
	if size == (image.Point{}) {
		size = before.Size()
	}
	next := settings.RememberedOf(now, m.Local.Judged(), size)
	if m.Targets.Restoring {
		next.Target, next.TargetStill = m.Settings.Target, m.Settings.TargetStill
	} else {
		m.keepTarget(keyOf(now.Source), now.Target)
	}
	if newest := m.Settings.Pictures; next.Empty() && before.Empty() || len(newest) > 0 && reflect.DeepEqual(newest[0], next) {
		return
	}
	m.Settings.Pictures = m.Settings.Pictures.With(next)
	m.Save()
}

func (m *Memory) keepTarget(of setup.Source, target *setup.Target) {
	if target == nil {
		delete(m.targets, of)
		return
	}
	if m.targets == nil {
		m.targets = map[setup.Source]*setup.Target{}
	}
	m.targets[of] = target
}
