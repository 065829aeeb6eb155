package setup

import (
	"cmp"
	"image"
	"slices"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/families"
)

// Judged is a found local colour on which the painter has the last word: it is kept, or it is
// none. It is known again by the track that follows it, else by its colours and places.
type Judged struct {
	Track         int // of live.Tracker, from 1; 0 for one that is read from a still
	Kept          bool
	Light, Shadow Side // as they were when it was judged
}

// Side is a side of a local colour: its colour, and a place in it.
type Side struct {
	Colour colour.RGB
	At     image.Point
}

// SameColour is how far, in CIEDE2000, the colours of either side may lie from those of a local
// colour that is judged for it to be the same one, wherever it lies (our choice: about what a
// corrected layer changes, and less than two local colours are apart in a painting).
const SameColour = 6.0

// StillThere is how far they may lie from what is read at its place for it to be there still,
// painted over, in CIEDE2000 (our choice).
const StillThere = 20.0

// Apart returns how far two local colours are apart: the difference of the sides that differ
// more, in CIEDE2000.
func Apart(light, shadow, otherLight, otherShadow colour.Lab) float64 {
	return max(colour.CIEDE2000(light, otherLight), colour.CIEDE2000(shadow, otherShadow))
}

// JudgedAs returns what was said of a track; ok is false if nothing was.
func (s Setup) JudgedAs(track int) (j Judged, ok bool) {
	i := slices.IndexFunc(s.Judged, func(j Judged) bool { return j.Track == track })
	if i < 0 {
		return j, false
	}
	return s.Judged[i], true
}

// WithJudged returns the setup with the last word on a local colour, in place of another one
// on it.
func (s Setup) WithJudged(j Judged) Setup {
	s.Judged = append(slices.Clone(s.WithoutJudged(j.Track).Judged), j)
	return s
}

// WithoutJudged returns the setup without a word on a track.
func (s Setup) WithoutJudged(track int) Setup {
	s.Judged = slices.DeleteFunc(slices.Clone(s.Judged), func(j Judged) bool { return j.Track == track })
	return s
}

// Meant returns which of the families found in a picture each judged one is, as an index into
// the list, or -1. It has nearly their colours; those that are nearest go first, and each
// family is one of them at most.
func Meant(judged []Judged, list []families.Family) []int {
	type pair struct {
		judged, family int
		apart          float64
	}
	var pairs []pair
	meant := make([]int, len(judged))
	for i, j := range judged {
		meant[i] = -1
		light, shadow := analysis.SpotOf(j.Light.Colour).Lab, analysis.SpotOf(j.Shadow.Colour).Lab
		for k := range list {
			if d := Apart(light, shadow, list[k].Light.Lab, list[k].Shadow.Lab); d <= SameColour {
				pairs = append(pairs, pair{i, k, d})
			}
		}
	}
	slices.SortStableFunc(pairs, func(p, q pair) int { return cmp.Compare(p.apart, q.apart) })
	taken := make([]bool, len(list))
	for _, p := range pairs {
		if meant[p.judged] < 0 && !taken[p.family] {
			meant[p.judged], taken[p.family] = p.family, true
		}
	}
	return meant
}

// Listed returns of what was found what is to be seen: what is sure or kept, and not refused.
// What was found stays as it is.
func Listed(found *families.Found, judged []Judged) *families.Found {
	const roles = 4 // of a family in the map
	meant := Meant(judged, found.List)
	list := &families.Found{Width: found.Width, Height: found.Height, Map: slices.Clone(found.Map)}
	renamed := make([]uint8, 1+roles*len(found.List))
	for i := range found.List {
		seen := found.List[i].Sure()
		if k := slices.Index(meant, i); k >= 0 {
			seen = judged[k].Kept
		}
		if !seen {
			continue
		}
		for role := 1; role <= roles; role++ {
			renamed[roles*i+role] = uint8(roles*len(list.List) + role)
		}
		list.List = append(list.List, found.List[i])
	}
	for i, part := range list.Map {
		list.Map[i] = renamed[part]
	}
	return list
}
