package families

// What is shorter than leastStretch cells, about an eightieth of the picture's width, is no stretch
// of its own: neither of something nor of nothing (our choice).
const leastStretch = 6

// close takes runs of places that are shorter than leastStretch for what lies beside them: first
// gaps, then what is left alone. length is that of each place; closed says that they run in a ring.
func closeRuns(is []bool, length []float64, closed bool) {
	for _, which := range [2]bool{false, true} {
		for _, r := range runsOf(is, which, closed) {
			if !closed && (r.from == 0 || r.from+r.count == len(is)) && !which {
				continue // an end is no gap
			}
			sum := 0.0
			for k := range r.count {
				sum += length[(r.from+k)%len(is)]
			}
			if sum < leastStretch && r.count < len(is) {
				for k := range r.count {
					is[(r.from+k)%len(is)] = !which
				}
			}
		}
	}
}

// run is so many places from one on; in a ring it may go over its end.
type run struct{ from, count int }

// runsOf lists the runs of places that are what is asked for.
func runsOf(is []bool, which, closed bool) (runs []run) {
	n, start := len(is), 0
	if closed { // begin where a run does
		for start < n && (is[start] == which) == (is[(start+n-1)%n] == which) {
			start++
		}
		start %= max(n, 1)
	}
	for k := 0; k < n; {
		from := k
		for k < n && is[(start+k)%n] == which {
			k++
		}
		if k > from {
			runs = append(runs, run{(start + from) % n, k - from})
			continue
		}
		k++
	}
	return runs
}

// stretchOf makes a stretch of a run of places of the trail.
func (f *Finder) stretchOf(r run) Stretch {
	t, s := &f.forms.trail, &f.source
	st := Stretch{Way: make([]At, r.count)}
	for k := range r.count {
		i := (r.from + k) % len(t.at)
		st.Length += t.length[i]
		st.Way[k] = At{s.grid.X.Part(t.at[i].x), s.grid.Y.Part(t.at[i].y)}
	}
	st.Length /= s.grid.X.Parts()
	st.From, st.Middle, st.To = st.Way[0], st.Way[r.count/2], st.Way[r.count-1]
	return st
}
