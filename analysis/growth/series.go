package growth

import (
	"cmp"
	"math"
	"slices"

	"app.tonedesk/analysis"
)

// Kind is what a line is of.
type Kind string

const (
	GroupShare Kind = "group_share"     // share of the pixels, 0 to 1
	Gap        Kind = "gap"             // tones between neighbouring groups
	MeanValue  Kind = "mean_value"      // value of the mean lightness, 0 to 10: the key
	Murk       Kind = "murk"            // share near a border, 0 to 1
	Tones      Kind = "tones"           // between light and shadow of a local colour
	HueShift   Kind = "hue_shift"       // of its shadow: degrees, unwound
	LostEdges  Kind = "lost_edges"      // their length, parts of the picture's width
	Distance   Kind = "target_distance" // tones
)

// Line is one figure over the series. Its JSON names and units are the command line's contract.
type Line struct {
	Kind        Kind   `json:"kind"`
	Group       string `json:"group,omitempty"`        // of a share; of a gap the darker one
	Lighter     string `json:"lighter,omitempty"`      // of a gap
	LocalColour *int   `json:"local_colour,omitempty"` // its index in the series' list
	// Values are its figures, one a moment; NaN, in JSON null, where there is none.
	Values []float64 `json:"-"`
	Turn   *Turn     `json:"turn"` // nil where it turned nowhere

	by rule
}

// LocalColour is one that was followed through the series.
type LocalColour struct {
	Light  analysis.Spot `json:"light"` // as it was found last
	Shadow analysis.Spot `json:"shadow"`
	Share  float64       `json:"share"` // of what was counted, 0 to 1, as it was found last
	Found  int           `json:"found"` // in so many moments
	First  int           `json:"first"` // the first of them, from 0
	Last   int           `json:"last"`
}

// Series is what became of a picture.
type Series struct {
	Rules        Rules         `json:"turns_from"`
	Moments      []Moment      `json:"-"`
	Groups       int           `json:"groups"`        // that all moments are split into
	LocalColours []LocalColour `json:"local_colours"` // in the order of their share; never nil
	Lines        []Line        `json:"lines"`         // never nil
}

// Of follows what is in a series of moments, in their order. groups are 2, 3 or 4; anything else
// chooses the number that the most of them have by themselves, of two the larger. Lines that have a
// figure in less than two moments are left away, but for those of the groups. The moments stay the
// caller's.
func Of(moments []Moment, groups int, rules Rules) *Series {
	if groups < 2 || groups > analysis.MaxGroups {
		groups = usual(moments)
	}
	s := &Series{Rules: rules, Moments: moments, Groups: groups, LocalColours: []LocalColour{}, Lines: []Line{}}
	s.addGroups()
	tones := rule{rules.Tones, 0.1}
	s.add(Line{Kind: MeanValue, by: tones}, func(m *Moment) float64 { return m.Value })
	s.add(Line{Kind: Murk, by: rule{rules.Murk, 0.01}}, func(m *Moment) float64 {
		if len(m.splits[groups].groups) != groups {
			return math.NaN()
		}
		return m.splits[groups].murk
	})
	s.addLocals(tones)
	s.add(Line{Kind: LostEdges, by: rule{rules.Edges, 0.01}}, func(m *Moment) float64 { return m.LostEdges })
	s.add(Line{Kind: Distance, by: tones}, func(m *Moment) float64 { return m.Distance })
	return s
}

// usual returns how many groups the most moments have, 2 to 4; of two numbers the larger.
func usual(moments []Moment) int {
	var count [analysis.MaxGroups + 1]int
	for i := range moments {
		count[min(max(moments[i].chosen, 2), analysis.MaxGroups)]++
	}
	most := 2
	for k := 3; k < len(count); k++ {
		if count[k] >= count[most] && count[k] > 0 {
			most = k
		}
	}
	return most
}

// add adds a line, if it has figures in two moments at least.
func (s *Series) add(l Line, of func(m *Moment) float64) {
	known := 0
	l.Values = make([]float64, len(s.Moments))
	for i := range s.Moments {
		if l.Values[i] = of(&s.Moments[i]); !math.IsNaN(l.Values[i]) {
			known++
		}
	}
	if known < 2 {
		return
	}
	l.Turn = turnOf(l.Values, l.by)
	s.Lines = append(s.Lines, l)
}

// addGroups adds the shares of the groups and the gaps between them, dark to light.
func (s *Series) addGroups() {
	k := s.Groups
	var names []string
	for i := range s.Moments {
		if of := s.Moments[i].splits[k]; len(of.groups) == k && names == nil {
			for _, g := range of.groups {
				names = append(names, g.Name)
			}
		}
	}
	for i, name := range names {
		s.add(Line{Kind: GroupShare, Group: name, by: rule{s.Rules.Share, 0.01}}, func(m *Moment) float64 {
			if of := m.splits[k]; len(of.groups) == k {
				return of.groups[i].Share
			}
			return math.NaN()
		})
	}
	for i := 1; i < len(names); i++ {
		s.add(Line{Kind: Gap, Group: names[i-1], Lighter: names[i], by: rule{s.Rules.Tones, 0.1}}, func(m *Moment) float64 {
			if of := m.splits[k]; len(of.groups) == k {
				return of.gaps[i-1]
			}
			return math.NaN()
		})
	}
}

// addLocals adds the local colours that were found in two moments at least, with their lines.
func (s *Series) addLocals(tones rule) {
	tracks := slices.DeleteFunc(follow(s.Moments), func(t track) bool { return t.found() < 2 })
	slices.SortStableFunc(tracks, func(a, b track) int { return cmp.Compare(b.last.share, a.last.share) })
	for n, t := range tracks {
		c := LocalColour{Light: t.last.light, Shadow: t.last.shadow, Share: t.last.share, Found: t.found(), First: -1}
		for i, l := range t.in {
			if l != nil {
				c.Last = i
			}
			if l != nil && c.First < 0 {
				c.First = i
			}
		}
		s.LocalColours = append(s.LocalColours, c)
		s.addValues(Line{Kind: Tones, LocalColour: &n, by: tones}, t.values(func(l *local) float64 { return l.tones }))
		s.addValues(Line{Kind: HueShift, LocalColour: &n, by: rule{s.Rules.Degrees, 1}}, unwound(t.values(func(l *local) float64 {
			if l.hueTurn == nil {
				return math.NaN()
			}
			return *l.hueTurn
		})))
	}
}

// addValues is add for figures that there are already.
func (s *Series) addValues(l Line, values []float64) {
	i := 0
	s.add(l, func(*Moment) float64 { i++; return values[i-1] })
}

// found is in how many moments a local colour was found.
func (t *track) found() (n int) {
	for _, l := range t.in {
		if l != nil {
			n++
		}
	}
	return n
}

// values are a figure of it in every moment.
func (t *track) values(of func(*local) float64) []float64 {
	values := make([]float64, len(t.in))
	for i, l := range t.in {
		if values[i] = math.NaN(); l != nil {
			values[i] = of(l)
		}
	}
	return values
}

// unwound returns angles in degrees with whole turns added so that each is the nearest to the one
// before: a line doesn't jump where angles begin again.
func unwound(degrees []float64) []float64 {
	before := math.NaN()
	for i, v := range degrees {
		if !math.IsNaN(v) && !math.IsNaN(before) {
			degrees[i] = before + math.Remainder(v-before, 360)
		}
		if !math.IsNaN(v) {
			before = degrees[i]
		}
	}
	return degrees
}

// Turned lists the lines that turned, as indices: those that changed most by their own rule first,
// and of these before all others those that really turned, not went one way throughout.
func (s *Series) Turned() (list []int) {
	for i := range s.Lines {
		if s.Lines[i].Turn != nil {
			list = append(list, i)
		}
	}
	through := func(i int) int {
		if s.Lines[i].Turn.Throughout {
			return 1
		}
		return 0
	}
	by := func(i int) float64 { return math.Abs(s.Lines[i].Turn.Change) / s.Lines[i].by.least }
	slices.SortStableFunc(list, func(a, b int) int {
		return cmp.Or(cmp.Compare(through(a), through(b)), cmp.Compare(by(b), by(a)))
	})
	return list
}

// Span returns between which figures a line is drawn: those that it has, and around them at least
// twice what its rule asks for, so that what is small looks small. The ends of an empty one are NaN.
func (l *Line) Span() (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	for _, v := range l.Values {
		if !math.IsNaN(v) {
			low, high = min(low, v), max(high, v)
		}
	}
	if low > high {
		return math.NaN(), math.NaN()
	}
	if lack := 2*l.by.least - (high - low); lack > 0 {
		low, high = low-lack/2, high+lack/2
	}
	return low, high
}

// Ends returns the first and the last figure of a line; NaN where it has none.
func (l *Line) Ends() (first, last float64) {
	first, last = math.NaN(), math.NaN()
	for _, v := range l.Values {
		if !math.IsNaN(v) {
			if math.IsNaN(first) {
				first = v
			}
			last = v
		}
	}
	return first, last
}
