package families

// matched takes from pairs, the likeliest first, so that each of so many areas is in one at
// most and the sum of the squared scores is large: greedily, and then two for one wherever
// that is better.
func matched(pairs []familyPair, areas int) []familyPair {
	m := matching{pairs, make([]bool, len(pairs)), make([]int32, areas)}
	for k, p := range pairs {
		if m.of[p.light] == 0 && m.of[p.shadow] == 0 {
			m.set(int32(k), true)
		}
	}
	for m.improve() {
	}
	var kept []familyPair
	for k, p := range pairs {
		if m.in[k] {
			kept = append(kept, p)
		}
	}
	return kept
}

// matching is a choice of pairs.
type matching struct {
	pairs []familyPair
	in    []bool
	of    []int32 // 1 + the pair that an area is in, 0 for none
}

func (m *matching) set(k int32, in bool) {
	m.in[k] = in
	mark := int32(0)
	if in {
		mark = k + 1
	}
	m.of[m.pairs[k].light], m.of[m.pairs[k].shadow] = mark, mark
}

// improve puts two pairs in the place of one, if it finds where that is better. Each time
// the sum grows, so that it comes to an end.
func (m *matching) improve() bool {
	for k := range m.pairs {
		if !m.in[k] {
			continue
		}
		p := m.pairs[k]
		first, second := m.instead(int32(k), p.light, p.shadow), m.instead(int32(k), p.shadow, p.light)
		for _, a := range first {
			for _, b := range second {
				if m.disjoint(a, b) && square(m.pairs[a].score)+square(m.pairs[b].score) > square(p.score) {
					m.set(int32(k), false)
					m.set(a, true)
					m.set(b, true)
					return true
				}
			}
		}
	}
	return false
}

// instead lists the pairs that would be free for area if pair k were not taken, without the
// other area of k.
func (m *matching) instead(k, area, other int32) (list []int32) {
	for i, p := range m.pairs {
		if p.light != area && p.shadow != area || p.light == other || p.shadow == other {
			continue
		}
		free := func(a int32) bool { return m.of[a] == 0 || m.of[a] == k+1 }
		if free(p.light) && free(p.shadow) {
			list = append(list, int32(i))
		}
	}
	return list
}

func (m *matching) disjoint(a, b int32) bool {
	p, q := m.pairs[a], m.pairs[b]
	return p.light != q.light && p.light != q.shadow && p.shadow != q.light && p.shadow != q.shadow
}

func square(v float64) float64 { return v * v }
