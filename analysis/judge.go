package analysis

import "math"

// Judged is a shadow that a painter chose for a local colour, and what would satisfy the
// rules instead.
type Judged struct {
	Family Family `json:"family"`
	// Nearest is the colour nearest to the chosen shadow (CIEDE2000) that satisfies the rules,
	// as near as the search's grid comes; nil if the chosen one does, or nothing does.
	Nearest *Spot `json:"nearest"`

	Distance *float64 `json:"distance"` // CIEDE2000 from the chosen shadow to Nearest
}

// JudgeShadow judges a shadow chosen for a local colour, which is the lighter of the two. It
// takes about two milliseconds where it has to look for another.
//
// The colour it offers reads and doesn't go toward black. For a shadow that does, it turns
// the hue the way of the shadow ramp, for light of shadowHue (Oklch, degrees), since the
// trade turns the hue first; and it loses no saturation, unless the chosen one has lost it or the display
// has no more.
func JudgeShadow(local, shadow Spot, rules FamilyRules, shadowHue float64) Judged {
	j := Judged{Family: FamilyOf(local, shadow, rules)}
	if j.Family.satisfies() {
		return j
	}
	search := shadowSearch{local: local, shadow: shadow, rules: rules, distance: math.Inf(1)}
	search.demand(&j.Family, shadowHue)
	search.run()
	if search.found {
		nearest, distance := SpotOf(search.best), search.distance
		j.Nearest, j.Distance = &nearest, &distance
	}
	return j
}

// satisfies reports whether a family reads and has nothing against it.
func (f *Family) satisfies() bool { return len(f.Verdict) == 1 && f.Verdict[0] == Reads }

// shadowSearch looks for the 8-bit colour nearest to a shadow that satisfies the rules. It
// goes over a grid of hues and saturations around the shadow's, at the nearest lightness
// that reads, then over finer ones around the best.
type shadowSearch struct {
	local, shadow Spot
	rules         FamilyRules
	turn          float64 // the way in which the hue must turn: -1 or 1, 0 for any
	leastGain     float64 // of saturation

	best     RGB
	distance float64 // CIEDE2000
	found    bool
}

// The grid's first step and how often it is halved; half as many places lie on either side.
const (
	searchHue        = 8.0  // degrees
	searchSaturation = 0.03 // Oklch chroma over lightness
	searchTones      = 0.1
	searchSides      = 4
	searchFirst      = 2.0 // steps
	searchLast       = 1.0 / 16
)

// demand says what a better shadow than that of f must have beside its rules.
func (s *shadowSearch) demand(f *Family, shadowHue float64) {
	s.leastGain = math.Inf(-1)
	if f.SaturationGain != nil {
		s.leastGain = min(0, *f.SaturationGain)
	}
	way := wayToShadow(f.Light.Oklab.Hue(), roundTheCircle(shadowHue))
	if f.TowardBlack && math.Abs(way) >= s.rules.LeastTurn {
		s.turn = math.Copysign(1, way)
	}
}

// accepts reports whether a shadow satisfies the rules and what else is demanded. At the
// gamut's edge there is no more saturation to demand.
func (s *shadowSearch) accepts(shadow Spot, atEdge bool) bool {
	f := FamilyOf(s.local, shadow, s.rules)
	switch {
	case !f.satisfies():
		return false
	case s.turn != 0 && (f.HueTurn == nil || AsPrinted(*f.HueTurn*s.turn) < s.rules.LeastTurn):
		return false
	}
	return atEdge || f.SaturationGain == nil || asPercent(*f.SaturationGain) >= asPercent(s.leastGain)
}

func (s *shadowSearch) run() {
	for _, centre := range s.starts() {
		for step := searchFirst; step >= searchLast; step /= 2 {
			centre = s.around(centre, step)
		}
	}
}

// place is where the grid's middle lies.
type place struct{ hue, saturation, tones float64 }

// starts returns where to look from: the shadow's own place, brought to the nearest number
// of tones that reads. The hue of a neutral shadow is chance; the local colour's counts, and
// a second start has its saturation too.
func (s *shadowSearch) starts() []place {
	own, local := s.shadow.Oklab.Oklch(), s.local.Oklab.Oklch()
	p := place{own.H, saturationOf(own), s.tones(s.local.Value - s.shadow.Value)}
	if !s.rules.neutral(s.shadow) {
		return []place{p}
	}
	p.hue = local.H
	return []place{p, {local.H, saturationOf(local), p.tones}}
}

// saturationOf returns chroma over lightness, 0 for black.
func saturationOf(c Oklch) float64 {
	if !(c.L > 0) {
		return 0
	}
	return c.C / c.L
}

// tones cuts a number of tones to what reads and there is room for.
func (s *shadowSearch) tones(tones float64) float64 {
	return max(s.rules.LeastTones, min(tones, s.rules.MostTones, s.local.Value))
}

// around tries the grid around a place and returns the best place of all so far.
func (s *shadowSearch) around(centre place, step float64) place {
	best := centre
	for h := -searchSides; h <= searchSides; h++ {
		for c := -searchSides; c <= searchSides; c++ {
			for t := -1; t <= 1; t++ {
				p := place{
					centre.hue + step*searchHue*float64(h),
					max(0, centre.saturation+step*searchSaturation*float64(c)),
					s.tones(centre.tones + step*searchTones*float64(t)),
				}
				if s.try(p) {
					best = p
				}
			}
		}
	}
	return best
}

// try reports whether the colour of a place satisfies the rules and is nearer than all
// before.
func (s *shadowSearch) try(p place) bool {
	value := s.local.Value - p.tones
	if value < 0 {
		return false
	}
	kept := promise{ByLightness, Lightness(YOfValue(value))}
	made, whole, ok := shineOf(p.hue, p.saturation).fit(kept)
	if !ok {
		return false
	}
	distance := CIEDE2000(s.shadow.Lab, LabOf(made.Light()))
	if distance >= s.distance+1 { // rounding won't make up for that
		return false
	}
	code, _ := settle(made, kept)
	spot := spotOfCode(code)
	if distance = CIEDE2000(s.shadow.Lab, spot.Lab); distance >= s.distance || !s.accepts(spot, !whole) {
		return false
	}
	s.best, s.distance, s.found = code, distance, true
	return true
}
