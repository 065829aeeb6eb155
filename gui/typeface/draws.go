package typeface

import "github.com/go-text/typesetting/fontscan"

// Draws reports whether a typeface of the system has a letter, by the same search and the same
// index of typefaces by which the toolkit finds what its own lacks. The first search on a system
// takes a second or so.
func Draws(r rune) bool {
	m := fontscan.NewFontMap(silent{})
	if err := m.UseSystemFonts(""); err != nil {
		return false
	}
	m.SetQuery(fontscan.Query{Families: []string{fontscan.SansSerif}})
	face := m.ResolveFace(r)
	if face == nil {
		return false
	}
	_, has := face.NominalGlyph(r)
	return has
}

// silent hears what is wrong with typefaces, which is no matter of ours.
type silent struct{}

func (silent) Printf(string, ...any) {}
