package analysis

// linePart is the part of a form's outline from which on a line counts as there: it may
// vanish in the light, or where another form lies before it.
const linePart = 0.35

// line finds the line around family k, nil if there is none, and marks its cells.
func (f *FamilyFinder) line(marks []uint8, k int, role []uint8, family *Family, rules FamilyRules) *FamilyLine {
	a := &f.areas
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
	for i, m := range marks {
		if ofFamily(m, k) && m <= mapRole(k, shadowSide) && f.planes.thin[i]&thinCell != 0 && f.planes.raw[0][i] < dark {
			marks[i] = mapRole(k, lineRole)
		}
	}
	spot.pointAtHue()
	return family.lineOf(spot, rules)
}

// addLine adds what is known of lines along an edge.
func (e *familyEdge) addLine(o *familyEdge) {
	e.length += o.length
	e.lined += o.lined
	for c := range e.line {
		e.line[c] += o.line[c]
	}
}

// ofFamily reports whether a place marked so belongs to family k.
func ofFamily(mark uint8, k int) bool {
	return mark >= mapRole(k, lightSide) && mark <= mapRole(k, roles)
}
