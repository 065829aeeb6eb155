package growth

import (
	"cmp"
	"math/bits"
	"slices"

	"app.tonedesk/analysis/colour"
)

// Limits by which a local colour is known again in a later picture (our choice, no source): it has
// nearly the same colours wherever it lies, or it lies where it lay and one of its sides is still
// like it was, since the other was painted over.
const (
	sameColour = 6.0  // CIEDE2000 of the side that differs more
	samePlace  = 0.5  // share of what either covers that both do
	paintedBy  = 20.0 // CIEDE2000 of the side that differs less; it counts as much as all of the place
)

// overlap is the share, 0 to 1, of what one or the other covers that both cover; 0 where none does.
func (c *cells) overlap(o *cells) float64 {
	both, either := 0, 0
	for y := range c {
		both += bits.OnesCount64(c[y] & o[y])
		either += bits.OnesCount64(c[y] | o[y])
	}
	if either == 0 {
		return 0
	}
	return float64(both) / float64(either)
}

// apart says how far a local colour is from what it may have been before: the less the likelier;
// same is false where it isn't the same one.
func (l *local) apart(o *local) (cost float64, same bool) {
	light, shadow := colour.CIEDE2000(l.light.Lab, o.light.Lab), colour.CIEDE2000(l.shadow.Lab, o.shadow.Lab)
	place := l.at.overlap(&o.at)
	same = max(light, shadow) <= sameColour || place >= samePlace && min(light, shadow) <= paintedBy
	return (light+shadow)/2/paintedBy + 1 - place, same
}

// track is a local colour through the series.
type track struct {
	last local
	in   []*local // a moment each; nil where it isn't found
}

// follow knows local colours again from moment to moment, those that are likest first. Only what is
// sure begins a track; one that is missing for a while may come back. Tracks stand in the order in
// which they were first found, of one moment the largest first.
func follow(moments []Moment) (tracks []track) {
	for i := range moments {
		list := moments[i].locals
		taken := goOn(tracks, list, i)
		var fresh []int
		for k := range list {
			if !taken[k] && list[k].sure {
				fresh = append(fresh, k)
			}
		}
		slices.SortStableFunc(fresh, func(a, b int) int { return cmp.Compare(list[b].share, list[a].share) })
		for _, k := range fresh {
			t := track{last: list[k], in: make([]*local, len(moments))}
			t.in[i] = &list[k]
			tracks = append(tracks, t)
		}
	}
	return tracks
}

// goOn goes on with the tracks in moment i, and returns which of its local colours are among them.
func goOn(tracks []track, list []local, i int) (taken []bool) {
	type pair struct {
		track, local int
		cost         float64
	}
	var pairs []pair
	for t := range tracks {
		for k := range list {
			if cost, same := list[k].apart(&tracks[t].last); same {
				pairs = append(pairs, pair{t, k, cost})
			}
		}
	}
	slices.SortStableFunc(pairs, func(p, q pair) int { return cmp.Compare(p.cost, q.cost) })
	taken = make([]bool, len(list))
	for _, p := range pairs {
		if tracks[p.track].in[i] == nil && !taken[p.local] {
			taken[p.local] = true
			tracks[p.track].in[i], tracks[p.track].last = &list[p.local], list[p.local]
		}
	}
	return taken
}
