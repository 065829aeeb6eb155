package families

import (
	"math"
	"slices"

	"app.tonedesk/analysis/colour"
)

// Roles of a cell in Found.Map, beside roles times the family's index.
const (
	lightSide = 1 + iota
	shadowSide
	accentBand
	lineRole
	roles = lineRole
)

// mapRole returns what Found.Map says of a role in family k.
func mapRole(k, role int) uint8 { return uint8(roles*k + role) }

// ofFamily reports whether a place marked so belongs to family k.
func ofFamily(mark uint8, k int) bool {
	return mark >= mapRole(k, lightSide) && mark <= mapRole(k, roles)
}

// familyMeter measures families once it is known which areas they are made of.
type familyMeter struct {
	*Finder
	rules Rules
	marks []uint8   // Found.Map
	role  []uint8   // what the cells of an area are marked with
	main  []bool    // whether an area is of its side's main step
	cells [][]int32 // by mark, as the areas have them

	seen []uint8 // what a walk has come to, as the number of that walk; see edgeCells
	turn uint8   // two walks for each of mostFamilies, at most
}

// LeastSure is the confidence under which a local colour isn't worth a look (our choice).
const LeastSure = 0.1

// describe fills found with the local colours, in their order.
func (f *Finder) describe(found *Found, families []local, rules Rules) {
	families = families[:min(len(families), mostFamilies)]
	m := familyMeter{Finder: f, rules: rules, marks: found.Map, role: make([]uint8, len(f.areas.list)), main: make([]bool, len(f.areas.list)),
		seen: make([]uint8, len(found.Map))}
	for k, g := range families {
		for side, areas := range g.areas {
			for _, i := range areas {
				m.role[i] = mapRole(k, lightSide+side)
			}
			for _, i := range g.main[side] {
				m.main[i] = true
			}
		}
	}
	m.cells = make([][]int32, roles*len(families)+1)
	for i, l := range f.areas.label {
		if l != noArea && m.role[l] != 0 && f.planes.thin[i]&halfCell == 0 {
			m.marks[i] = m.role[l]
			m.cells[m.role[l]] = append(m.cells[m.role[l]], int32(i))
		}
	}
	f.measureDepth(m.marks)
	renamed := make([]uint8, len(m.cells)) // 0 for what turns out to be none
	for k := range families {
		family := m.family(k)
		if family.LightnessApart < leastStep || families[k].confidence < LeastSure {
			continue
		}
		family.Confidence = new(families[k].confidence)
		for role := lightSide; role <= roles; role++ {
			renamed[mapRole(k, role)] = mapRole(len(found.List), role)
		}
		found.List = append(found.List, family)
	}
	for i, mark := range found.Map {
		found.Map[i] = renamed[mark]
	}
	f.areas.family = f.areas.family[:0]
	for _, mark := range m.role {
		k := int8(-1)
		if of := renamed[mark]; of != 0 {
			k = int8((of - 1) / roles)
		}
		f.areas.family = append(f.areas.family, k)
	}
}

// family measures family k.
func (m *familyMeter) family(k int) Family {
	light, shadow := mapRole(k, lightSide), mapRole(k, shadowSide)
	band := m.bandAround(k, accentReach)
	accent := m.accent(k, band)
	if accent == nil {
		accent = m.accent(k, m.bandAround(k, wideReach))
	}
	soft := accent == nil && band.soft(m)
	if soft {
		m.recut(k, band)
	}
	lit, dim := m.body(light, soft), m.body(shadow, soft)
	family := m.sides(m.plateau(m.mainStep(lit)), m.plateau(m.mainStep(dim)))
	family.Share = new(float64(len(m.cells[light])+len(m.cells[shadow])) / m.source.whole)
	family.Overlap = new(colour.Value(m.tenth(dim, true)) - colour.Value(m.tenth(lit, false)))
	if accent != nil {
		family.Accent = family.accentOf(*accent, m.rules)
	}
	family.Line = m.line(k, &family)
	family.judge(m.rules)
	return family
}

// tenth returns the L* at which a side's lightest, or darkest, tenth begins.
func (m *familyMeter) tenth(cells []int32, lightest bool) float64 {
	values := make([]int32, len(cells))
	for i, c := range cells {
		values[i] = m.planes.flat[0][c]
	}
	slices.Sort(values)
	at := len(values) / 10
	if lightest {
		at = len(values) - 1 - at
	}
	return math.Max(0, float64(values[at])/cellLab)
}
