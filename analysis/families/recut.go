package families

// recut moves a soft edge between the sides of family k to where the colour is halfway
// between them; what doesn't hang together with the other side stays. band is the edge's.
func (m *familyMeter) recut(k int, band *edgeBand) {
	light, shadow := mapRole(k, lightSide), mapRole(k, shadowSide)
	way := m.halfway(m.cells[light], m.cells[shadow])
	front := append(append([]int32{}, band[accentReach+1]...), band[accentReach-1]...)
	for len(front) > 0 {
		var next []int32
		for _, i := range front {
			was, is := m.marks[i], shadow
			if way.along(&m.planes, int(i)) >= way.cut {
				is = light
			}
			if was == is {
				continue
			}
			m.marks[i] = is
			m.around(i, func(n int32) {
				if m.marks[n] == was {
					next = append(next, n)
				}
			})
		}
		front = next
	}
	m.resort(light, shadow)
}

// resort puts the cells of two sides in order after their marks changed; it changes the
// marks back if that has left a side with less than half of its cells.
func (m *familyMeter) resort(light, shadow uint8) {
	sides := [2][]int32{m.cells[light], m.cells[shadow]}
	both := append(append([]int32{}, sides[0]...), sides[1]...)
	m.cells[light], m.cells[shadow] = nil, nil
	for _, i := range both {
		m.cells[m.marks[i]] = append(m.cells[m.marks[i]], i)
	}
	for k, side := range [2]uint8{light, shadow} {
		if 2*len(m.cells[side]) >= len(sides[k]) {
			continue
		}
		m.cells[light], m.cells[shadow] = sides[0], sides[1]
		for _, side := range [2]uint8{light, shadow} {
			for _, i := range m.cells[side] {
				m.marks[i] = side
			}
		}
		return
	}
}

// halfway returns the way from the colours of shadow cells to those of light cells, with its
// cut in the middle between the two sides' ends.
func (m *familyMeter) halfway(light, shadow []int32) (way softCut) {
	var p, q moments
	m.addCells(&p, light)
	m.addCells(&q, shadow)
	way.axis, _ = p.toward(&q)
	p.join(&q)
	way.mean = p.mean()
	for _, cells := range [2][]int32{light, shadow} {
		for _, i := range cells {
			if m.planes.thin[i] == 0 {
				way.counts[way.bin(way.along(&m.planes, int(i)))]++
			}
		}
	}
	way.cutHalfway()
	return way
}

// addCells adds the smoothed colours of the cells that are not thin.
func (m *familyMeter) addCells(sum *moments, cells []int32) {
	flat := &m.planes.flat
	for _, i := range cells {
		if m.planes.thin[i] == 0 {
			sum.add(flat[0][i], flat[1][i], flat[2][i])
		}
	}
}
