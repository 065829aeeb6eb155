package palette

import (
	"cmp"
	"maps"
	"math"
	"slices"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/families"
)

// Most is how many colours a palette holds at most.
const Most = 24

// Palette is what a picture is painted with: colours that it really uses, from dark to
// light, and how its values spread.
type Palette struct {
	Colours []Colour              `json:"colours"` // by value, from dark to light; empty if nothing is counted
	Spread  [colour.Steps]float64 `json:"spread"`  // share of the counted pixels with a value from i to i+1; white counts in the last
	Empty   []int                 `json:"empty"`   // steps of Spread that hold less than a thousandth
}

// Colour is a colour of the picture.
type Colour struct {
	analysis.Spot
	Share  float64 `json:"share"`  // of the counted pixels to which no other of the palette is nearer (in Oklab)
	Family *int    `json:"family"` // number in Found.List, from 0; nil if it belongs to none
	Side   Side    `json:"side"`   // where in the family; "" if it belongs to none
}

// Side says which part of a family a place belongs to.
type Side string

const (
	LightSide  Side = "light"
	ShadowSide Side = "shadow"
	AccentSide Side = "accent"
	LineSide   Side = "line"
)

// emptyBelow is the share of the picture under which a value counts as empty: some stray
// pixels of a soft edge don't fill it (common practice, no source).
const emptyBelow = 0.001

// Of returns the palette of a picture, as far as mask counts it; mask may be nil.
// Pixels that fail Check have none. families, which may be nil, are those of the same
// picture and give the colours their families.
//
// The same picture gives the same palette. It takes some tens of milliseconds for a large
// one; any goroutine may call it.
func Of(p analysis.Pixels, mask *analysis.Mask, families *families.Found) *Palette {
	palette := &Palette{Colours: []Colour{}, Empty: []int{}}
	if p.Check() != nil {
		return palette
	}
	bins := countColours(p, mask)
	if bins.counted == 0 {
		return palette
	}
	palette.spread(bins)
	cells := bins.cells()
	centres := clusters(cells)
	places := palette.share(bins, bins.exactly(representatives(cells, centres)))
	if families != nil {
		palette.join(p, families, places)
	}
	slices.SortFunc(palette.Colours, func(a, b Colour) int {
		return cmp.Or(cmp.Compare(a.Lightness, b.Lightness), cmp.Compare(a.Colour.Hex(), b.Colour.Hex()))
	})
	return palette
}

// spread fills in how the picture's values spread.
func (p *Palette) spread(bins *colourBins) {
	for i, n := range bins.values {
		p.Spread[i] = float64(n) / float64(bins.counted)
		if p.Spread[i] < emptyBelow {
			p.Empty = append(p.Empty, i)
		}
	}
}

// share makes the palette of colours, each with the share of the pixels that are nearest to
// it, and returns their places.
func (p *Palette) share(bins *colourBins, used []colour.RGB) []colour.Oklab {
	places := make([]colour.Oklab, len(used))
	for i, c := range used {
		spot := analysis.SpotOfCodeIn(bins.space, c)
		spot.PointAtHue()
		p.Colours = append(p.Colours, Colour{Spot: spot})
		places[i] = p.Colours[i].Oklab
	}
	for i, n := range bins.nearest(places) {
		p.Colours[i].Share = float64(n) / float64(bins.counted)
	}
	return places
}

// join gives each colour the family that holds most of its pixels, if that is clearly the
// largest part of them, and the side where most of these lie. A colour that a family's light
// or shadow has belongs to it also where more of it lies elsewhere, as long as that is no
// other family's. It looks at one pixel for each place of the families' map.
func (p *Palette) join(pixels analysis.Pixels, families *families.Found, places []colour.Oklab) {
	if len(families.List) == 0 {
		return
	}
	tallies := make([][256]int, len(p.Colours))
	for i, side := range families.Map {
		x, y := i%families.Width, i/families.Width
		r, g, b, counted := pixels.At((2*x+1)*pixels.Width/(2*families.Width), (2*y+1)*pixels.Height/(2*families.Height))
		if counted {
			nearest, _ := nearestOf(colour.OklabOf(pixels.Space.LightOfCode(colour.RGB{R: r, G: g, B: b})), places)
			tallies[nearest][side]++
		}
	}
	for i := range p.Colours {
		p.Colours[i].joinBy(&tallies[i])
	}
	p.joinOwn(families.List, places, tallies)
}

// sidesOfFamily are the parts of a family in the order of Found.Map.
var sidesOfFamily = [...]Side{LightSide, ShadowSide, AccentSide, LineSide}

// partOf returns how many of the places counted by their number in a families' map belong to
// a family.
func partOf(tally *[256]int, family int) int {
	sum := 0
	for _, n := range tally[1+family*len(sidesOfFamily):][:len(sidesOfFamily)] {
		sum += n
	}
	return sum
}

// joinBy joins the family that holds clearly most of the places counted by their number in a
// families' map: half of all, or a third more than any other and than those of none (our own
// limits).
func (c *Colour) joinBy(tally *[256]int) {
	all, most, second, best := tally[0], 0, tally[0], 0
	for family := range (len(tally) - 1) / len(sidesOfFamily) {
		sum := partOf(tally, family)
		all += sum
		second = max(second, min(sum, most))
		if sum > most {
			most, best = sum, family
		}
	}
	if most == 0 || 2*most < all && 3*most < 4*second {
		return
	}
	c.Family = &best
	sides := tally[1+best*len(sidesOfFamily):][:len(sidesOfFamily)]
	c.Side = sidesOfFamily[slices.Index(sides, slices.Max(sides))]
}

// joinOwn lets the colours that the families' sides have join them, unless another family
// holds them already. Where several families have a colour, the one with the most of it does.
func (p *Palette) joinOwn(list []families.Family, places []colour.Oklab, tallies [][256]int) {
	most := make([]int, len(p.Colours))
	for k := range list {
		for i, s := range [...]*analysis.Spot{&list[k].Light, &list[k].Shadow} {
			nearest, square := nearestOf(s.Oklab, places)
			c, n := &p.Colours[nearest], partOf(&tallies[nearest], k)
			if square >= clusterApart*clusterApart || n <= most[nearest] || c.Family != nil && most[nearest] == 0 {
				continue
			}
			c.Family, c.Side, most[nearest] = new(k), sidesOfFamily[i], n
		}
	}
}

// Group are the colours of one family, or those of none.
type Group struct {
	Family  *int  // nil for those of none
	Colours []int // numbers in Palette.Colours, from dark to light
}

// ByFamily returns the palette's colours by family; those of none come last.
func (p *Palette) ByFamily() []Group {
	byNumber := map[int]*Group{}
	for i, c := range p.Colours {
		number := math.MaxInt
		if c.Family != nil {
			number = *c.Family
		}
		if byNumber[number] == nil {
			byNumber[number] = &Group{Family: c.Family}
		}
		byNumber[number].Colours = append(byNumber[number].Colours, i)
	}
	var groups []Group
	for _, number := range slices.Sorted(maps.Keys(byNumber)) {
		groups = append(groups, *byNumber[number])
	}
	return groups
}
