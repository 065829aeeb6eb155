package analysis

import (
	"encoding/json"
	"math"

	"app.tonedesk/analysis/colour"
)

// MaxGroups is the greatest number of groups a picture is split into.
const MaxGroups = 4

// leastGap is how many tones neighbouring groups' means are apart at least where their number is
// automatic: two that are nearer are one mass (our choice; common practice draws no line).
const leastGap = 0.8

// enoughSeparability is what the automatic number of groups must reach (common practice,
// no source).
const enoughSeparability = 0.90

// murkReach is how near to a border a pixel is murky, in value steps (common practice, no
// source).
const murkReach = 0.25

// Group is a class of lightness in the whole picture. Only borders set by hand can leave one
// without pixels.
type Group struct {
	Name  string  `json:"name"`  // "dark", "middle" ...
	From  float64 `json:"from"`  // L*: 0, or the border to the next darker group
	To    float64 `json:"to"`    // L*: 100, or the border to the next lighter group
	Share float64 `json:"share"` // of the counted pixels, 0 to 1
	Mean  float64 `json:"mean"`  // L*, from the bins, or of all 16 bits; NaN, in JSON null, without pixels
}

// MarshalJSON writes a mean that is not there as null.
func (g Group) MarshalJSON() ([]byte, error) {
	type group Group
	written := struct {
		group
		Mean *float64 `json:"mean"`
	}{group: group(g)}
	if !math.IsNaN(g.Mean) {
		written.Mean = &g.Mean
	}
	return json.Marshal(written)
}

// Split divides a picture's lightness into groups, from dark to light. It has fewer groups
// than asked for where fewer bins are filled, and none if no pixel was counted.
type Split struct {
	// Separability is the share of the variance of lightness that lies between the groups,
	// 0 to 1; NaN if there is no variance.
	Separability float64
	// Murk is the share of pixels within 0.25 value steps of a border; NaN if no pixel was
	// counted.
	Murk float64

	count      int
	groups     [MaxGroups]Group
	gaps       [MaxGroups - 1]float64
	thresholds [MaxGroups - 1]int
}

// Groups returns the groups from dark to light.
func (s *Split) Groups() []Group { return s.groups[:s.count] }

// Gaps returns the distances of neighbouring groups' means in tones, dark to light; all
// are positive, or NaN beside a group without pixels.
func (s *Split) Gaps() []float64 { return s.gaps[:max(0, s.count-1)] }

// Thresholds returns, from dark to light, the last bin of every group but the lightest.
func (s *Split) Thresholds() []int { return s.thresholds[:max(0, s.count-1)] }

// groupNames by number of groups. A picture of one lightness is named by its key.
var groupNames = [MaxGroups + 1][]string{
	2: {"dark", "light"},
	3: {"dark", "middle", "light"},
	4: {"dark", "dark middle", "light middle", "light"},
}

var loneNames = map[Key]string{LowKey: "dark", MiddleKey: "middle", HighKey: "light"}

// Split returns the split into k groups: 2, 3 or 4; nil for another k. Its thresholds are
// the best there are for the picture, unless the Reader is Steady.
func (r *Reading) Split(k int) *Split {
	if k < 2 || k > MaxGroups {
		return nil
	}
	return &r.splits[k-2]
}

// Choices that are no index into the splits.
const (
	chosenByHand = -1 // by borders set by hand
	chosenLone   = -2 // one group: nothing in the picture is far enough apart
)

// Chosen returns the split into the number of groups that Options.Groups asked for or, if
// it left that open, into the fewest whose separability reaches 0.90, else into the most; of
// those whose neighbouring means are 0.8 tones apart or more, one group if there are none such.
// Borders set by hand go before both.
func (r *Reading) Chosen() *Split {
	switch r.chosen {
	case chosenByHand:
		return &r.byHand
	case chosenLone:
		return &r.lone
	}
	return &r.splits[r.chosen]
}

// setBorders cuts the lightness at borders set by hand, and reports whether it could: there are
// one to three, and none lies below the one before. Each goes to the nearest place between
// two bins, so that it is at most 0.2 L* from where it was set, and leaves at least one bin
// on either side.
func (s *Split) setBorders(borders []float64, sums *binSums) bool {
	if len(borders) == 0 || len(borders) >= MaxGroups {
		return false
	}
	for i, border := range borders {
		if math.IsNaN(border) || i > 0 && border < borders[i-1] {
			return false
		}
		s.thresholds[i] = thresholdAt(border)
	}
	s.count = len(borders) + 1
	if sums.count() == 0 {
		s.count = 0
	}
	return true
}

// thresholdAt returns the threshold whose border is nearest to a lightness.
func thresholdAt(border float64) int {
	border = max(0, min(border, 100))
	return max(0, min(int(math.Ceil(border*colour.BinsPerLightness))-1, 254))
}

// fill computes the figures of a split whose count and thresholds are set.
func (s *Split) fill(sums *binSums) {
	s.Separability, s.Murk = math.NaN(), math.NaN()
	if s.count == 0 {
		return
	}
	from, begin := 0.0, 0
	for i := range s.count {
		to, end := 100.0, len(sums.pixels)-1
		if i < s.count-1 {
			to, end = borderOf(s.thresholds[i]), s.thresholds[i]+1
		}
		n := sums.pixels[end] - sums.pixels[begin]
		s.groups[i] = Group{
			Name: s.name(i, sums), From: from, To: to,
			Share: float64(n) / float64(sums.count()),
			Mean:  sums.mean(begin, end),
		}
		from, begin = to, end
	}
	for i := range s.Gaps() {
		s.gaps[i] = math.NaN()
		if darker, lighter := s.groups[i].Mean, s.groups[i+1].Mean; !math.IsNaN(lighter - darker) {
			s.gaps[i] = colour.Value(lighter) - colour.Value(darker)
		}
	}
	s.Separability = min(sums.separability(s.Thresholds()), 1) // rounding may go over
	s.Murk = s.murk(sums)
}

// borderOf returns the lightness of the border at a threshold: between its bin and the next.
func borderOf(threshold int) float64 { return colour.LightnessOfBins(2*threshold+1, 2) }

func (s *Split) name(i int, sums *binSums) string {
	if s.count == 1 {
		return loneNames[keyOf(sums.mean(0, 256))]
	}
	return groupNames[s.count][i]
}

// murk counts each bin once, however many borders are near.
func (s *Split) murk(sums *binSums) float64 {
	values, murky := binValues(), 0
	bin := 0
	for _, t := range s.Thresholds() {
		border := colour.Value(borderOf(t))
		for bin < 256 && values[bin] < border-murkReach {
			bin++
		}
		begin := bin
		for bin < 256 && values[bin] <= border+murkReach {
			bin++
		}
		murky += sums.pixels[bin] - sums.pixels[begin]
	}
	return float64(murky) / float64(sums.count())
}
