package families

import (
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// borders follows all borders of what is marked in a picture of letters, a form a letter.
func borders(rows ...string) (all []trail) {
	across := len(rows[0])
	w := &forms{}
	for _, c := range strings.Join(rows, "") {
		of := int16(noForm)
		if c != '.' {
			of = 2 * int16(c-'a')
		}
		w.of = append(w.of, of)
	}
	w.seen = make([]uint8, len(w.of))
	for i, of := range w.of {
		if of != noForm && w.begins(across, int32(i), wholeForm) {
			all = append(all, trail{cracks: slices.Clone(w.trail.cracks), turns: w.trail.turns})
		}
	}
	return all
}

// A border is as long as there are cells' sides on it, goes four times more to the right than to the
// left around the outside, and the other way around a hole (counted by hand).
func TestBorders(t *testing.T) {
	for name, tt := range map[string]struct {
		rows []string
		want [][2]int // length, turns
	}{
		"a cell":           {[]string{"a"}, [][2]int{{4, 4}}},
		"a bar":            {[]string{"....", ".aa.", "...."}, [][2]int{{6, 4}}},
		"an L":             {[]string{"a..", "a..", "aaa"}, [][2]int{{12, 4}}},
		"a ring":           {[]string{"aaa", "a.a", "aaa"}, [][2]int{{12, 4}, {4, -4}}},
		"corner to corner": {[]string{"a.", ".a"}, [][2]int{{4, 4}, {4, 4}}},
		"two forms":        {[]string{"aabb"}, [][2]int{{6, 4}, {6, 4}}},
		"one in another":   {[]string{"aaa", "aba", "aaa"}, [][2]int{{12, 4}, {4, 4}, {4, -4}}},
	} {
		var got [][2]int
		for _, b := range borders(tt.rows...) {
			got = append(got, [2]int{len(b.cracks), b.turns})
		}
		sorted := func(list [][2]int) [][2]int {
			slices.SortFunc(list, func(a, b [2]int) int { return slices.Compare(a[:], b[:]) })
			return list
		}
		if !slices.Equal(sorted(got), sorted(tt.want)) {
			t.Errorf("%s: %v, want %v", name, got, tt.want)
		}
	}
}

// Whatever is marked: every border closes, each side between a cell and what is not of its form is
// on one of them once, and what lies beyond is of another form.
func TestBordersLaws(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		across, down := rapid.IntRange(1, 7).Draw(r, "across"), rapid.IntRange(1, 7).Draw(r, "down")
		rows := make([]string, down)
		for y := range rows {
			rows[y] = rapid.StringMatching("[.ab]{"+string(rune('0'+across))+"}").Draw(r, "row")
		}
		all := strings.Join(rows, "")
		sides := 0
		for i := range all {
			x, y := i%across, i/across
			for _, s := range wayStep {
				u, v := x+s[0], y+s[1]
				if all[i] != '.' && (u < 0 || v < 0 || u >= across || v >= down || all[v*across+u] != all[i]) {
					sides++
				}
			}
		}
		type key struct {
			in  int32
			way uint8
		}
		seen := map[key]bool{}
		for _, b := range borders(rows...) {
			if b.turns != 4 && b.turns != -4 {
				r.Fatalf("%d turns", b.turns)
			}
			for _, c := range b.cracks {
				if k := (key{c.in, c.way}); seen[k] {
					r.Fatal("a side is on two borders")
				} else {
					seen[k] = true
				}
				if c.out != noCell && all[c.out] == all[c.in] {
					r.Fatal("a side between cells of one form")
				}
			}
		}
		if len(seen) != sides {
			r.Fatalf("%d sides of %d", len(seen), sides)
		}
	})
}

// The way around a large disc is as long as its circle, within a twentieth (2 pi r).
func TestBorderOfADisc(t *testing.T) {
	const size, radius = 101, 40.0
	rows := make([]string, size)
	for y := range rows {
		row := make([]byte, size)
		for x := range row {
			row[x] = '.'
			if math.Hypot(float64(x)-50, float64(y)-50) <= radius {
				row[x] = 'a'
			}
		}
		rows[y] = string(row)
	}
	b := borders(rows...)[0]
	b.place(b.cracks, size, true)
	sum := 0.0
	for _, l := range b.length {
		sum += l
	}
	if want := 2 * math.Pi * radius; math.Abs(sum-want) > 0.05*want {
		t.Errorf("%g long, want %g", sum, want)
	}
}

// Runs of places of length 1, and what is left when those shorter than leastStretch, 6, are closed.
func TestRuns(t *testing.T) {
	for name, tt := range map[string]struct {
		is     string
		closed bool
		want   string
	}{
		"a gap":              {"xxxxxxxx..xxxxxxxx", false, "xxxxxxxxxxxxxxxxxx"},
		"a wide gap":         {"xxxxxxxx......xxxxxxxx", false, "xxxxxxxx......xxxxxxxx"},
		"too short":          {"........xxx.........", false, "...................."},
		"at an end":          {"..xxxxxxxx..........", false, "..xxxxxxxx.........."},
		"over the end":       {"xxx............xxx", true, "xxx............xxx"},
		"a gap over the end": {".xxxxxxxxxx.", true, "xxxxxxxxxxxx"},
		"all":                {"xxxxxxx", true, "xxxxxxx"},
		"none":               {".......", true, "......."},
		"nothing":            {"", true, ""},
	} {
		is, length := make([]bool, len(tt.is)), make([]float64, len(tt.is))
		for i := range tt.is {
			is[i], length[i] = tt.is[i] == 'x', 1
		}
		closeRuns(is, length, tt.closed)
		got := strings.Builder{}
		for _, v := range is {
			if v {
				got.WriteByte('x')
			} else {
				got.WriteByte('.')
			}
		}
		if got.String() != tt.want {
			t.Errorf("%s: %s, want %s", name, got.String(), tt.want)
		}
	}
}
