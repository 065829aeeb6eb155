package growth

import (
	"cmp"
	"math"
	"time"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/edges"
	"app.tonedesk/analysis/families"
)

// Moment is what was measured of a picture at one point of a series. It holds no pixels: a
// kilobyte, and half of one more for each local colour.
type Moment struct {
	At    time.Time // when the picture was as it was measured; zero if unknown
	Value float64   // of the mean lightness, 0 to 10; NaN if nothing was counted
	// LostEdges is how long all borders are that colour alone carries, in parts of the picture's
	// width.
	LostEdges float64
	Distance  float64 // from the target, tones; NaN without one

	chosen int // groups that the picture has by itself
	splits [analysis.MaxGroups + 1]split
	locals []local
}

// split is a picture's lightness in so many groups; none where it has fewer.
type split struct {
	groups []analysis.Group // dark to light
	gaps   []float64        // tones
	murk   float64          // share, 0 to 1
}

// local is a local colour with where it lies.
type local struct {
	light, shadow analysis.Spot
	tones         float64
	hueTurn       *float64 // degrees from light to shadow, (-180, 180]; nil beside a neutral
	share         float64  // of what is counted, 0 to 1
	sure          bool
	at            cells
}

// cells are the places of a local colour, in a grid of 64 x 64 over the picture: a row a number, a
// column a bit.
type cells [side]uint64

const side = 64

// Measure is what is to be measured of a picture.
type Measure struct {
	Options analysis.Options // how groups are made, and what is left out
	Rules   families.Rules
	Edges   edges.Options    // by which edges are lost; the zero value for as at first
	Target  *analysis.Target // nil for none
	// Counts says which of the local colours found are followed, and whether each is surely one;
	// nil for ByConfidence.
	Counts func(*families.Found) (counts, sure []bool)
}

// keptFrom is the confidence from which a local colour that was known before is known again: as
// long as the window's list keeps one (our choice).
const keptFrom = 0.4

// Of measures a picture. Pixels that fail Check are an empty picture. Any goroutine may call it.
func (m Measure) Of(p analysis.Pixels, at time.Time) Moment {
	reading := analysis.Read(p, m.Options)
	found := families.Find(p, m.Options.Mask, m.Rules)
	now := Moment{At: at, Value: colour.Value(reading.Mean), Distance: math.NaN(), chosen: len(reading.Chosen().Groups())}
	for k := 2; k <= analysis.MaxGroups; k++ {
		now.splits[k] = splitOf(reading.Split(k))
	}
	lost := edges.Find(p, m.Options.Mask, cmp.Or(m.Edges, edges.DefaultOptions())).Of(edges.Lost)
	for i := range lost {
		now.LostEdges += lost[i].Length
	}
	if reading.Counted == 0 {
		now.LostEdges = math.NaN()
	}
	if m.Target != nil {
		now.Distance = m.Target.Match(reading).Distance
	}
	now.locals = m.localsOf(found)
	return now
}

func splitOf(s *analysis.Split) split {
	return split{append([]analysis.Group{}, s.Groups()...), append([]float64{}, s.Gaps()...), s.Murk}
}

// ByConfidence says which local colours are followed: those that are found with confidence, and for
// what was known before also those that are so with a little less.
func ByConfidence(found *families.Found) (counts, sure []bool) {
	counts, sure = make([]bool, len(found.List)), make([]bool, len(found.List))
	for i := range found.List {
		f := &found.List[i]
		counts[i], sure[i] = f.Sure() || *f.Confidence >= keptFrom, f.Sure()
	}
	return counts, sure
}

// localsOf are the local colours that are followed.
func (m Measure) localsOf(found *families.Found) (list []local) {
	choose := ByConfidence
	if m.Counts != nil {
		choose = m.Counts
	}
	counts, sure := choose(found)
	for i := range found.List {
		if counts[i] {
			f := &found.List[i]
			l := local{light: f.Light, shadow: f.Shadow, tones: f.Tones, hueTurn: f.HueTurn, sure: sure[i], at: cellsOf(found, i)}
			if f.Share != nil {
				l.share = *f.Share
			}
			list = append(list, l)
		}
	}
	return list
}

// cellsOf returns where the two sides of a family lie: what is in the middle of each cell counts.
func cellsOf(found *families.Found, family int) (c cells) {
	const roles = 4 // of a family in the map: light, shadow, accent, line
	if found.Width == 0 || found.Height == 0 {
		return c
	}
	for y := range side {
		row := found.Map[(2*y+1)*found.Height/(2*side)*found.Width:][:found.Width]
		for x := range side {
			if part := int(row[(2*x+1)*found.Width/(2*side)]) - 1 - roles*family; part == 0 || part == 1 {
				c[y] |= 1 << x
			}
		}
	}
	return c
}
