package widgets

import (
	"cmp"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
)

// spotLine is a spot's mark on the spread: a light line between dark ones, and its letter with a
// dark rim, so that both are seen over bars and panel of every theme.
type spotLine struct {
	dark, light *canvas.Rectangle
	letter      [5]*canvas.Text // four dark ones around a light one
}

func newSpotLine(d *drawn) *spotLine {
	l := &spotLine{dark: d.addBox(), light: d.addBox()}
	fill(l.dark, MarkDark)
	fill(l.light, MarkLight)
	for i := range l.letter {
		l.letter[i] = d.addText(SmallSize, fyne.TextStyle{Bold: true})
	}
	return l
}

// write shows a mark, or hides it.
func (l *spotLine) write(name string, there bool) {
	show(l.dark, there)
	show(l.light, there)
	for i, t := range l.letter {
		ink := MarkDark
		if i == len(l.letter)-1 {
			ink = MarkLight
		}
		say(t, name, ink)
	}
}

// place stands the mark on the foot at x, its letter with its left end and its baseline at a
// place.
func (l *spotLine) place(x, foot, high float32, letter fyne.Position) {
	put(l.dark, fyne.NewPos(x-2, foot-high), fyne.NewSize(4, high))
	put(l.light, fyne.NewPos(x-1, foot-high), fyne.NewSize(2, high))
	for i, by := range [len(l.letter)]fyne.Position{{X: -1, Y: -1}, {X: 1, Y: -1}, {X: -1, Y: 1}, {X: 1, Y: 1}, {}} {
		setOn(l.letter[i], letter.X+by.X, letter.Y+by.Y)
	}
}

// markGap is from a mark's line to its letter.
const markGap = 3

// letterPlaces returns where the letters of the marks at xs begin, as an offset from the mark, and
// on which level they stand, 0 the lowest. A letter stands right of its mark or, where another
// letter or mark is there, left of it, else higher up.
func letterPlaces(xs []float32, wide, width float32) (offsets []float32, levels []int) {
	order := make([]int, len(xs))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(xs[a], xs[b]) })
	offsets, levels = make([]float32, len(xs)), make([]int, len(xs))
	var taken [][3]float32 // from, to, level
	free := func(own int, from float32, level int) bool {
		if from < 0 || from+wide > width {
			return false
		}
		for _, t := range taken {
			if int(t[2]) == level && from < t[1] && t[0] < from+wide {
				return false
			}
		}
		for i, x := range xs {
			if i != own && level == 0 && x != xs[own] && x+2 > from && x-2 < from+wide {
				return false
			}
		}
		return true
	}
	for n, i := range order {
		leftFirst := 0
		if n+1 < len(order) && xs[order[n+1]]-xs[i] < wide+2*markGap {
			leftFirst = 1 // the next one's letter stands at the right
		}
		for try := 0; ; try++ {
			level, offset := try/2, float32(markGap)
			if (try+leftFirst)%2 == 1 {
				offset = -markGap - wide
			}
			if free(i, xs[i]+offset, level) || try > 4*len(xs) {
				offsets[i], levels[i] = offset, level
				taken = append(taken, [3]float32{xs[i] + offset, xs[i] + offset + wide, float32(level)})
				break
			}
		}
	}
	return offsets, levels
}
