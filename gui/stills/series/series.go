package series

import (
	"slices"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/edges"
	"app.tonedesk/analysis/families"
	"app.tonedesk/analysis/growth"
	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/stills"
)

// Of returns the stills that show the same source as one does, oldest first. The list is of any
// order, and stays as it is.
func Of(list []stills.Entry, source stills.Source) (same []stills.Entry) {
	for _, e := range list {
		if e.Source.Meets(source) {
			same = append(same, e)
		}
	}
	slices.SortStableFunc(same, func(a, b stills.Entry) int { return a.Time.Compare(b.Time) })
	return same
}

// Thin returns at most so many of a list, its first and its last among them, the others evenly
// spread; and always the one at keep.
func Thin[T any](list []T, most, keep int) []T {
	if len(list) <= most || most < 2 {
		return list
	}
	var thin []T
	nearest, at := -1, make([]int, most) // of what is taken the nearest gives way to what is kept
	for i := range at {
		at[i] = i * (len(list) - 1) / (most - 1)
		if 0 < i && i < most-1 && (nearest < 0 || away(at[i], keep) < away(at[nearest], keep)) {
			nearest = i
		}
	}
	if keep > 0 && keep < len(list)-1 && nearest >= 0 {
		at[nearest] = keep
	}
	for _, i := range at {
		thin = append(thin, list[i])
	}
	return thin
}

func away(a, b int) int { return max(a-b, b-a) }

// Asked is what is asked of each picture of a series.
type Asked struct {
	NoGround bool // groups are of the picture without its ground
	Rules    families.Rules
	Edges    edges.Options    // by which edges are lost; the zero value for as at first
	Target   *analysis.Target // nil for none
}

// measure is how a picture is measured of which parts are left out and something was said of local colours.
func (a Asked) measure(mask *analysis.Mask, judged []setup.Judged) growth.Measure {
	return growth.Measure{
		Options: analysis.Options{Mask: mask, WithoutGround: a.NoGround}, Rules: a.Rules, Edges: a.Edges, Target: a.Target,
		Counts: func(found *families.Found) (counts, sure []bool) { return counted(found, judged) },
	}
}

// Picture measures a picture that is no still, without the parts that mask leaves out, nil for none.
func (a Asked) Picture(mask *analysis.Mask) growth.Measure { return a.measure(mask, nil) }

// Still measures a still as it was kept. What of it is transparent lies on white.
func (a Asked) Still(still *stills.Still) growth.Moment {
	picture := analysis.Opaque(still.Picture)
	return a.measure(still.Meta.LeftOut.Mask(picture), still.Meta.Judged()).Of(picture, still.Meta.Time)
}

// counted is growth.ByConfidence with the painter's last word: what is kept is sure, what is refused
// is not followed.
func counted(found *families.Found, judged []setup.Judged) (counts, sure []bool) {
	counts, sure = growth.ByConfidence(found)
	for k, i := range setup.Meant(judged, found.List) {
		if i >= 0 {
			counts[i], sure[i] = judged[k].Kept, judged[k].Kept
		}
	}
	return counts, sure
}
