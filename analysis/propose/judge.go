package propose

import (
	"app.tonedesk/analysis"
	"app.tonedesk/analysis/families"
)

// Judged is a shadow that a painter chose for a local colour, and what would satisfy the
// rules instead.
type Judged struct {
	Family families.Family `json:"family"`
	// Nearest is the colour nearest to the chosen shadow (CIEDE2000) that satisfies the rules:
	// no code near it is nearer. nil if the chosen one does, or nothing does.
	Nearest *analysis.Spot `json:"nearest"`

	Distance *float64 `json:"distance"` // CIEDE2000 from the chosen shadow to Nearest
}

// JudgeShadow judges a shadow chosen for a local colour, which is the lighter of the two. It
// takes about two milliseconds where it has to look for another.
//
// The colour it offers reads and doesn't go toward black. For a shadow that does, it turns
// the hue the way of the shadow ramp, for light of shadowHue (Oklch, degrees), since the
// trade turns the hue first; and it loses no saturation, unless the chosen one has lost it or the display
// has no more. A neutral shadow says nothing of hue and saturation: for it, both go as in the ramp.
func JudgeShadow(local, shadow analysis.Spot, rules families.Rules, shadowHue float64) Judged {
	j := Judged{Family: families.Of(local, shadow, rules)}
	if j.Family.Satisfies() {
		return j
	}
	if better, distance, ok := searchShadow(demandOf(&j.Family, rules, shadowHue)); ok {
		nearest := analysis.SpotOf(better)
		j.Nearest, j.Distance = &nearest, &distance
	}
	return j
}
