package native

import (
	"testing"

	"pgregory.net/rapid"

	_ "app.tonedesk/analysis/lawtest" // the same cases every time
)

// Every chord of the desktop is read as it is written.
func TestChordsAreReadAsWritten(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := Chord{
			Ctrl: rapid.Bool().Draw(t, "ctrl"), Alt: rapid.Bool().Draw(t, "alt"), Shift: rapid.Bool().Draw(t, "shift"),
			Super: rapid.Bool().Draw(t, "super"), Key: rapid.SampledFrom(chordKeys).Draw(t, "key").name,
		}
		got, ok := ParseChord(c.String())
		if ok != c.Held() || ok && got != c {
			t.Errorf("%+v is written %q and read as %+v, %v", c, c, got, ok)
		}
	})
}

// What is no chord, or would take a key away that text is typed with, is refused.
func TestNoChords(t *testing.T) {
	for _, words := range []string{"", "A", "Shift+A", "Ctrl", "Ctrl+", "Ctrl+Ctrl+A", "Alt+Ctrl+A", "Ctrl+a", "Ctrl+F13", "Ctrl+Ä", "ctrl+A", "Ctrl++", "Hyper+A", "Ctrl+Alt+A\n"} {
		if c, ok := ParseChord(words); ok {
			t.Errorf("%q is read as %v", words, c)
		}
	}
	if s := (Chord{}).String(); s != "" {
		t.Errorf("no chord is written %q", s)
	}
}

// FuzzChord: what is read is written as it was; nothing breaks down.
func FuzzChord(f *testing.F) {
	f.Add("Ctrl+Alt+1")
	f.Fuzz(func(t *testing.T, words string) {
		if c, ok := ParseChord(words); ok && (c.String() != words || !c.Held() || !c.HasKey()) {
			t.Errorf("%q is read as %+v", words, c)
		}
	})
}
