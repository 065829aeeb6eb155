package analysis

// linePart is the part of a form's outline from which on a line counts as there: it may
// vanish in the light, or where another form lies before it.
const linePart = 0.35

// line finds the line around family k, nil if there is none, and marks its cells.
func (m *familyMeter) line(k int, family *Family) *FamilyLine {
	a, role := &m.areas, m.role
	var all, ground familyEdge // only lengths and lines are added up
	for i := range a.edges {
		e := &a.edges[i]
		other := e.b
		if !ofFamily(role[e.a], k) {
			other = e.a
		}
		if ofFamily(role[e.a], k) == ofFamily(role[e.b], k) {
			continue
		}
		all.addLine(e)
		if a.list[other].ground {
			ground.addLine(e)
		}
	}
	if all.lined == 0 || float64(all.lined) < linePart*float64(all.length) {
		return nil
	}
	if 3*ground.lined >= all.lined { // where forms touch, the line may be the other's
		all = ground
	}
	n := float64(all.lined) * linearWhite
	spot := spotOfLight(float64(all.line[0])/n, float64(all.line[1])/n, float64(all.line[2])/n)
	dark := int32(cellUnitLab*min(family.Light.Lightness, family.Shadow.Lightness)) - lineDarker
	for _, side := range [2]int{lightSide, shadowSide} {
		for _, i := range m.cells[mapRole(k, side)] {
			if m.marks[i] == mapRole(k, side) && m.planes.thin[i]&thinCell != 0 && m.planes.raw[0][i] < dark {
				m.marks[i] = mapRole(k, lineRole)
			}
		}
	}
	spot.pointAtHue()
	return family.lineOf(spot, m.rules)
}

// addLine adds what is known of lines along an edge.
func (e *familyEdge) addLine(o *familyEdge) {
	e.length += o.length
	e.lined += o.lined
	for c := range e.line {
		e.line[c] += o.line[c]
	}
}
