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

// Chords are written for desktops with the names of the Shortcuts Specification 0.1 and of
// xkbcommon-keysyms.h, without XKB_KEY_.
func TestTriggers(t *testing.T) {
	for words, want := range map[string]string{
		"Ctrl+Alt+1":       "CTRL+ALT+1",      // built like its example, CTRL+ALT+Return
		"Ctrl+Shift+A":     "CTRL+SHIFT+a",    // its example
		"Super+Page up":    "LOGO+Page_Up",    // XKB_MOD_NAME_LOGO; XKB_KEY_Page_Up
		"Alt+Page down":    "ALT+Page_Down",   // XKB_KEY_Page_Down
		"Ctrl+Space":       "CTRL+space",      // XKB_KEY_space
		"Alt+F12":          "ALT+F12",         // XKB_KEY_F12
		"Ctrl+Left":        "CTRL+Left",       // XKB_KEY_Left
		"Ctrl+Super+Home":  "CTRL+LOGO+Home",  // XKB_KEY_Home
		"Ctrl+Alt+Super+Z": "CTRL+ALT+LOGO+z", // XKB_KEY_z
	} {
		c, ok := ParseChord(words)
		if got := c.Trigger(); !ok || got != want {
			t.Errorf("%s is written %q, want %q", words, got, want)
		}
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
