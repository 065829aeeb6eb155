package remember

import (
	"app.tonedesk/gui/host"
	"app.tonedesk/gui/language"
	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/wording"
)

// ClearSpots takes all spots away.
func (m *Memory) ClearSpots() {
	was := m.Steps.Now()
	if len(was.Places) == 0 {
		m.Messages.Note(language.Say("There are no spots to clear"))
		return
	}
	next := was
	next.Places = nil
	m.clear(next, wording.SayCleared(len(was.Places)), func(now setup.Setup) setup.Setup {
		now.Places = was.Places
		return now
	})
}

// Forget takes away all that lies on the picture, and its target: nothing comes back with it.
func (m *Memory) Forget() {
	was := m.Steps.Now()
	if was.Bare() {
		m.Messages.Note(language.Say("Nothing lies on this picture"))
		return
	}
	lay := wording.Lying{
		Spots: len(was.Places), Focus: len(was.Focus) > 0, Out: was.LeavesOut(), Colours: len(was.Judged)+len(was.Families) > 0,
		Borders: len(was.Borders) > 0, ToTarget: was.Target != nil,
	}
	m.clear(was.Cleared(), wording.SayForgotten(lay), func(now setup.Setup) setup.Setup { return now.Laid(was) })
}

// clear changes the setup to one with less on the picture, and offers to put it back. That does
// nothing once something else is watched; what was done since stays, as far as back lets it.
func (m *Memory) clear(next setup.Setup, words string, back func(now setup.Setup) setup.Setup) {
	feed := next.Source.Feed()
	m.Unselect()
	m.Steps.Settle()
	m.Steps.Change(next, "")
	m.Messages.NoteWith(words, host.MessageAct{Name: language.Say("Undo"), Do: func() {
		if now := m.Steps.Now(); now.Source.Feed() == feed {
			m.Steps.Change(back(now), "")
		}
	}})
}
