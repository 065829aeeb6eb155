package structure

import (
	"app.tonedesk/gui/live"
	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/wording"
)

// SayMelting says which neighbours melt into each other at a lost edge, by the names of the local
// colours where those are known; "" for no edge.
func (l *LocalColours) SayMelting(m *live.Melting) (words [3]string) {
	if m == nil {
		return words
	}
	return l.namesIn(l.Steps.Now().Source).SayMelts(m.Dark, m.Light, m.Tones, m.DarkAt, m.LightAt)
}

// namesIn names places of a picture by the local colours that count, where they were found in the
// same source.
func (l *LocalColours) namesIn(source setup.Source) (in wording.NamesIn) {
	if last := l.tracker.Last(); last.Found != nil && last.Source == source {
		in.Found = last.Found
		in.Counts = func(i int) bool { return i < len(l.lit.asked.counts) && l.lit.asked.counts[i] }
	}
	return in
}
