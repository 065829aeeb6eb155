package live

import (
	"image"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/families"
	"app.tonedesk/gui/language"
	"app.tonedesk/gui/setup"
)

// Reading is a spot's reading, or why there is none.
type Reading struct {
	analysis.Spot
	Err error
}

// FamilyReading is what a family set by hand reads, or why it can't be read.
type FamilyReading struct {
	families.Family
	Turned bool // the first place is darker than the second: they change sides
	Err    error
}

// readSpots appends the reading of every spot.
func readSpots(dst []Reading, t *task) []Reading {
	for _, at := range t.Setup.Places {
		dst = append(dst, readPlace(t, at))
	}
	return dst
}

// readUnder reads into dst what lies under the pointer, as a spot there would; nil where nobody
// looks.
func readUnder(dst *Reading, t *task) *analysis.Spot {
	if !t.Looking || !t.Look.In(t.bounds) {
		return nil
	}
	side := t.Settings.SpotSize
	corner := t.Look.Sub(image.Pt(side/2, side/2))
	*dst = readPlace(t, setup.Place{Area: image.Rectangle{Min: corner, Max: corner.Add(image.Pt(side, side))}}) // as an area: less memory a frame
	if dst.Err != nil {
		return nil
	}
	return &dst.Spot
}

// readFamilies appends what the families set by hand read, as spots are read.
func readFamilies(dst []FamilyReading, t *task) []FamilyReading {
	for _, f := range t.Setup.Families {
		dst = append(dst, familyOf(readPlace(t, f.Light), readPlace(t, f.Shadow), t.Settings.Rules))
	}
	return dst
}

// Followed is a local colour that the painter keeps and the search does not find now.
type Followed struct {
	Track int
	setup.Family
}

// FollowedReading is what it reads where it is followed to.
type FollowedReading struct {
	Track int
	FamilyReading
}

// readFollowed appends what is read of the local colours that are followed.
func readFollowed(dst []FollowedReading, t *task) []FollowedReading {
	for _, f := range t.Followed {
		dst = append(dst, FollowedReading{f.Track, familyOf(readPlace(t, f.Light), readPlace(t, f.Shadow), t.Settings.Rules)})
	}
	return dst
}

// familyOf makes a family of two places. Which of them is the light side is what the picture
// says now.
func familyOf(light, shadow Reading, rules families.Rules) (r FamilyReading) {
	if r.Err = light.Err; r.Err == nil {
		r.Err = shadow.Err
	}
	if r.Err != nil {
		return r
	}
	if r.Turned = light.Lightness < shadow.Lightness; r.Turned {
		light, shadow = shadow, light
	}
	r.Family = families.Of(light.Spot, shadow.Spot, rules)
	return r
}

// readPlace reads one place; what is fixed was read already.
func readPlace(t *task, at setup.Place) (r Reading) {
	if at.Fixed != nil {
		r.Spot = *at.Fixed
		return r
	}
	if at.Area.Empty() {
		q := at.At.Sub(t.bounds.Min)
		r.Spot, r.Err = analysis.ReadSpot(t.pixels, q.X, q.Y, t.Settings.SpotSize)
		return r
	}
	r.Spot, r.Err = analysis.ReadArea(t.pixels, at.Area.Sub(t.bounds.Min))
	return r
}

// pick returns the pixel whose colour was asked for, and that colour, nil where it is
// transparent; nil where none was asked for, or not of this picture.
func pick(t *task) (picked *image.Point, seen *colour.RGB) {
	if t.Pick == nil || !t.Pick.In(t.bounds) {
		return nil, nil
	}
	at := t.Pick.Sub(t.bounds.Min)
	if r, g, b, counted := t.pixels.At(at.X, at.Y); counted {
		seen = &colour.RGB{R: r, G: g, B: b}
	}
	return t.Pick, seen
}

// PairOf returns the two spots that are compared: A, and the selected one or else B. ok says
// whether both can be read.
func PairOf(spots []Reading, selected int) (a, b int, ok bool) {
	a, b = 0, 1
	if selected > 1 {
		b = selected
	}
	ok = b < len(spots) && spots[a].Err == nil && spots[b].Err == nil
	return a, b, ok
}

// BaseOf returns the colour from which others are proposed, with its name: one that was typed
// or taken, else the selected spot, else B or, without it, A.
func BaseOf(s setup.Setup, spots []Reading, selected int) (base analysis.Spot, name string, ok bool) {
	if s.Typed != nil {
		return analysis.SpotOf(*s.Typed), language.Say("the colour chosen"), true
	}
	if selected < 0 {
		selected = min(len(spots), 2) - 1 // B, else A
	}
	if selected < 0 || selected >= len(spots) || spots[selected].Err != nil {
		return analysis.Spot{}, "", false
	}
	return spots[selected].Spot, language.Say("spot %s", setup.SpotName(selected)), true
}
