package views

import (
	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/internal/fixed"
	"app.tonedesk/analysis/reduce"
)

// Two values, dark and light, by the picture's own groups, the notan; and three.
var (
	twoToneView   = View{Key: "two-tone", Name: "Two-tone", Groups: true, Paint: inGroups(2)}
	threeToneView = View{Key: "three-tone", Name: "Three-tone", Groups: true, Paint: inGroups(3)}
)

func inGroups(k int) func(dst []byte, src *reduce.Picture, look Look) {
	return func(dst []byte, src *reduce.Picture, look Look) { paintGroups(dst, src, look.Reading, k) }
}

// paintGroups paints the picture's split into k groups, each group as its mean's grey. A
// picture of which nothing is counted is cut by even steps of value instead.
func paintGroups(dst []byte, src *reduce.Picture, reading *analysis.Reading, k int) {
	if reading == nil || reading.Counted == 0 {
		paintEvenBands(dst, src, k)
		return
	}
	split := reading.Split(k)
	if chosen := reading.Chosen(); len(chosen.Groups()) == k { // edges may be set by hand
		split = chosen
	}
	var edges [analysis.MaxGroups - 1]uint32
	for i, t := range split.Thresholds() {
		edges[i] = fixed.Bins.Edges[t]
	}
	scale := reduce.MemoryOf[toneScale](src)
	for i, group := range split.Groups() {
		scale.greys[i] = colour.GreyOf(group.Mean)
	}
	scale.reached.Set(edges[:len(split.Thresholds())])
	paintTones(dst, src, scale)
}
