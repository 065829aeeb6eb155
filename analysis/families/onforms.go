package families

import (
	"math"
	"slices"
)

// measureForms returns how often light and shadow take turns on the forms of a local colour, as a
// logarithm and by cells (a form has one of each or few, a pattern many), and which part of the light
// and of the shadow is on forms without the other. around are the edges of each area.
func (f *Finder) measureForms(l *local, around [][]int32) (turns float64, lone [2]float64) {
	forms, of := f.formsOf(l, around)
	all := [2]float64{}
	for s, areas := range l.areas {
		for _, i := range areas {
			n, form := float64(f.areas.list[i].all), forms[of.root(i)]
			turns += n * form.turns()
			all[s] += n
			if form.cells[1-s] == 0 {
				lone[s] += n
			}
		}
	}
	for s := range lone {
		lone[s] /= max(all[s], 1)
	}
	return turns / max(all[0]+all[1], 1), lone
}

// oneForm is what hangs together of a local colour, with no line in between: the cells of its
// sides, and the squares of those of their pieces, added up.
type oneForm struct{ cells, squares [2]float64 }

// turns returns how many pieces the side with fewer is in, as a logarithm: so many as there would
// be of one size, so that crumbs count for little.
func (f *oneForm) turns() float64 {
	least := math.Inf(1)
	for s, n := range f.cells {
		if n == 0 {
			return 0
		}
		least = min(least, n*n/f.squares[s])
	}
	return math.Log(least)
}

// formsOf gathers the areas of a local colour into forms, by what of says stands for an area.
func (f *Finder) formsOf(l *local, around [][]int32) (forms map[int32]*oneForm, of joined) {
	a, side := &f.areas, map[int32]int{}
	for s, areas := range l.areas {
		for _, i := range areas {
			side[i] = s
		}
	}
	of, pieces := joined{}, joined{}
	both := slices.Concat(l.areas[0], l.areas[1])
	for _, i := range both {
		for _, k := range around[i] {
			e := &a.edges[k]
			other, in := side[e.other(i)]
			if !in || e.isLined() {
				continue
			}
			of.join(e.a, e.b)
			if other == side[i] {
				pieces.join(e.a, e.b)
			}
		}
	}
	forms = map[int32]*oneForm{}
	cells := map[int32]float64{} // of a piece
	for _, i := range both {
		form := forms[of.root(i)]
		if form == nil {
			form = &oneForm{}
			forms[of.root(i)] = form
		}
		s, n, piece := side[i], float64(a.list[i].all), pieces.root(i)
		form.cells[s] += n
		form.squares[s] += n * (2*cells[piece] + n)
		cells[piece] += n
	}
	return forms, of
}

// joined says what hangs together: of each area another one that stands for it, itself where there
// is none.
type joined map[int32]int32

func (j joined) root(i int32) int32 {
	for {
		to, ok := j[i]
		if !ok || to == i {
			return i
		}
		i = to
	}
}

func (j joined) join(i, k int32) {
	i, k = j.root(i), j.root(k)
	j[max(i, k)] = min(i, k)
}
