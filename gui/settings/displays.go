package settings

import (
	"maps"
	"slices"

	"app.tonedesk/analysis/colour"
)

// Colours are in which colours a display shows what it is given. The zero value is sRGB.
type Colours struct {
	In   ColoursIn `json:"in"`
	File string    `json:"file,omitempty"` // path of the profile, for ColoursFile
}

// ColoursIn is a published space by its name, or a profile.
type ColoursIn string

const (
	ColoursOwn  ColoursIn = "profile" // the one that the desktop keeps for the display
	ColoursFile ColoursIn = "file"
)

// AllColours lists them: the published spaces, sRGB first, then the profiles.
func AllColours() (all []ColoursIn) {
	for _, s := range colour.Spaces() {
		all = append(all, ColoursIn(s.Name))
	}
	return append(all, ColoursOwn, ColoursFile)
}

// Space returns the published space that is meant, nil for sRGB; ok is false for a profile.
func (c Colours) Space() (s *colour.Space, ok bool) {
	for _, s := range colour.Spaces() {
		if string(c.In) == s.Name {
			return s.Known(), true
		}
	}
	return nil, c.In == ""
}

// ColoursOf returns what is chosen for a display: its own, else what was for displays without a name.
func (s Settings) ColoursOf(display string) Colours {
	if c, ok := s.ShownIn[display]; ok {
		return c
	}
	return s.ShownIn[""]
}

// WithColours returns the settings with other colours of a display.
func (s Settings) WithColours(display string, c Colours) Settings {
	shown := maps.Clone(s.ShownIn)
	if shown == nil {
		shown = make(map[string]Colours)
	}
	shown[display] = c
	s.ShownIn = confineShownIn(shown)
	return s
}

// mostDisplays is how many displays are remembered, mostDisplayName how long a name may be, in bytes.
// Our choice: more than a painter has.
const mostDisplays, mostDisplayName = 32, 200

// confineShownIn returns the colours without those that can't be.
func confineShownIn(shown map[string]Colours) map[string]Colours {
	kept := map[string]Colours{}
	for _, name := range slices.Sorted(maps.Keys(shown)) {
		c := shown[name]
		c.File = plainText(maxPath, "")(c.File)
		if c.In != ColoursFile {
			c.File = ""
		}
		if name == plainText(mostDisplayName, "")(name) && slices.Contains(AllColours(), c.In) && (c.In == ColoursFile) == (c.File != "") && len(kept) < mostDisplays {
			kept[name] = c
		}
	}
	if len(kept) == 0 {
		return nil
	}
	return kept
}
