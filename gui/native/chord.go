package native

import (
	"fmt"
	"slices"
	"strings"
)

// Chord is a key pressed together with others that are held. The zero chord is none.
type Chord struct {
	Ctrl, Alt, Shift, Super bool
	Key                     string // letter, figure, F1 to F12, or a name of named
}

// key is a key as the systems know it.
type key struct {
	name string
	sym  uint32 // keysym. Source: X Window System Protocol, X11R7.7, Appendix A
	code uint32 // virtual-key code. Source: winuser.h
}

// named are the keys that are no letters, figures or function keys.
var named = []key{
	{"Space", 0x20, 0x20}, {"Insert", 0xff63, 0x2d}, {"Home", 0xff50, 0x24}, {"End", 0xff57, 0x23},
	{"Page up", 0xff55, 0x21}, {"Page down", 0xff56, 0x22},
	{"Left", 0xff51, 0x25}, {"Up", 0xff52, 0x26}, {"Right", 0xff53, 0x27}, {"Down", 0xff54, 0x28},
}

// chordKeys are all keys that a chord can have: those that every keyboard calls the same.
var chordKeys = func() []key {
	var all []key
	for c := 'A'; c <= 'Z'; c++ {
		all = append(all, key{string(c), uint32(c - 'A' + 'a'), uint32(c)})
	}
	for c := '0'; c <= '9'; c++ {
		all = append(all, key{string(c), uint32(c), uint32(c)})
	}
	for i := range uint32(12) {
		all = append(all, key{fmt.Sprintf("F%d", i+1), 0xffbe + i, 0x70 + i})
	}
	return append(all, named...)
}()

// keyNamed returns a key by its name.
func keyNamed(name string) (key, bool) {
	i := slices.IndexFunc(chordKeys, func(k key) bool { return k.name == name })
	if i < 0 {
		return key{}, false
	}
	return chordKeys[i], true
}

// HasKey reports whether the key is one that a chord can have.
func (c Chord) HasKey() bool { _, ok := keyNamed(c.Key); return ok }

// Held reports whether something is held that no text is typed with. Shift alone makes capitals.
func (c Chord) Held() bool { return c.Ctrl || c.Alt || c.Super }

// heldKey is a key to be held.
type heldKey struct {
	name string
	at   func(*Chord) *bool
}

// chordHeld are they, in the order in which they are written.
var chordHeld = []heldKey{
	{"Ctrl", func(c *Chord) *bool { return &c.Ctrl }}, {"Alt", func(c *Chord) *bool { return &c.Alt }},
	{"Shift", func(c *Chord) *bool { return &c.Shift }}, {"Super", func(c *Chord) *bool { return &c.Super }},
}

// String writes a chord: "Ctrl+Alt+1"; the zero chord is "".
func (c Chord) String() string {
	var parts []string
	for _, h := range chordHeld {
		if *h.at(&c) {
			parts = append(parts, h.name)
		}
	}
	if c.Key != "" {
		parts = append(parts, c.Key)
	}
	return strings.Join(parts, "+")
}

// Trigger writes a chord as desktops read it: "CTRL+ALT+1", "LOGO+Page_Up". Source: freedesktop.org,
// Shortcuts Specification 0.1, 2022, whose names of keys are those of xkbcommon-keysyms.h.
func (c Chord) Trigger() string {
	var parts []string
	for _, h := range chordHeld {
		if *h.at(&c) {
			parts = append(parts, strings.Replace(strings.ToUpper(h.name), "SUPER", "LOGO", 1))
		}
	}
	key := c.Key
	switch key {
	case "Space":
		key = "space"
	case "Page up":
		key = "Page_Up"
	case "Page down":
		key = "Page_Down"
	}
	if len(key) == 1 { // the letter without Shift
		key = strings.ToLower(key)
	}
	return strings.Join(append(parts, key), "+")
}

// ParseChord reads what String writes, of a chord that can be held for the whole desktop.
func ParseChord(words string) (Chord, bool) {
	var c Chord
	parts := strings.Split(words, "+")
	c.Key = parts[len(parts)-1]
	for _, part := range parts[:len(parts)-1] {
		i := slices.IndexFunc(chordHeld, func(h heldKey) bool { return h.name == part })
		if i < 0 {
			return Chord{}, false
		}
		*chordHeld[i].at(&c) = true
	}
	if !c.HasKey() || !c.Held() || c.String() != words {
		return Chord{}, false
	}
	return c, true
}
