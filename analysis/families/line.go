package families

import (
	"app.tonedesk/analysis"
	"app.tonedesk/analysis/internal/fixed"
)

// linePart is the part of a side's outline from which on a line counts as there: it may
// vanish in the light, sink into a dark ground, or lie behind another form.
const linePart = 0.35

// line reads the line around family k, nil if there is none, and marks its cells.
func (m *familyMeter) line(k int, family *Family) *Line {
	seen := m.outlineOf(k)
	if seen == nil {
		return nil
	}
	n := float64(seen.lined) * fixed.LinearWhite
	spot := analysis.SpotOfLight(float64(seen.line[0])/n, float64(seen.line[1])/n, float64(seen.line[2])/n)
	spot.PointAtHue()
	dark := int32(cellLab*min(family.Light.Lightness, family.Shadow.Lightness)) - lineDarker
	for _, side := range [2]uint8{mapRole(k, lightSide), mapRole(k, shadowSide)} {
		for _, i := range m.cells[side] {
			if m.marks[i] == side && m.planes.thin[i]&thinCell != 0 && m.planes.raw[0][i] < dark {
				m.marks[i] = mapRole(k, lineRole)
			}
		}
	}
	return family.lineOf(spot, m.rules)
}

// outlineOf adds up the edges of family k that have a line: those of both sides or of one,
// on whichever the line is clearest, and those with the ground alone where there are enough,
// since where forms touch a line may be the other's. On a
// dark ground, which hides how dark a line is, its colour tells it. It returns nil if there
// is no line.
func (m *familyMeter) outlineOf(k int) *familyEdge {
	var all, ground [2]familyEdge // by side; only lengths and lines are added up
	for i := range m.areas.edges {
		e := &m.areas.edges[i]
		in, out := e.a, e.b
		if !ofFamily(m.role[in], k) {
			in, out = out, in
		}
		if !ofFamily(m.role[in], k) || ofFamily(m.role[out], k) {
			continue
		}
		side := (m.role[in] - mapRole(k, lightSide)) & 1
		all[side].addLine(e)
		if m.areas.list[out].ground {
			ground[side].addLine(e)
		}
	}
	for _, parts := range [2][2]familyEdge{ground, all} {
		both := parts[0]
		both.addLine(&parts[1])
		for _, e := range [2]*familyEdge{&both, &parts[0]} {
			if e.lined > 0 && float64(e.lined) >= linePart*float64(e.length) && 3*both.lined >= all[0].lined+all[1].lined {
				return e
			}
		}
	}
	return m.rimOf(k)
}
