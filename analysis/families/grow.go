package families

import (
	"math"

	"app.tonedesk/analysis/colour"
)

// Cells wait to be taken in steps of growStep in L*a*b* of their distance from an area's
// colour; from alienFrom on they count in no side (found on drawn scenes; no source).
const (
	growSteps = 256
	growStep  = 0.5
	alienFrom = 12.0
)

// growing is a cell that waits to be taken by an area.
type growing struct{ cell, area int32 }

// growQueue holds the cells that wait, by their distance.
type growQueue struct {
	steps  [growSteps][]growing
	lowest int // the first step in which cells may wait
	spare  []growing
	means  []colour.Lab // of the areas
}

// growAreas lets the areas grow into the cells between them, the nearest colour first
// (GROW): that takes up lines, soft edges and what is too small to be an area.
func (f *Finder) growAreas() {
	a := &f.areas
	q := &a.queue
	f.measureAreas()
	q.means = q.means[:0]
	for i := range a.list {
		q.means = append(q.means, a.list[i].mean())
	}
	for i := range a.label {
		if a.label[i] != noArea {
			f.growAround(int32(i))
		}
	}
	for q.lowest = 0; q.lowest < growSteps; {
		if len(q.steps[q.lowest]) == 0 {
			q.lowest++
			continue
		}
		f.takeStep(q.lowest)
	}
}

// takeStep takes the cells that wait in a step.
func (f *Finder) takeStep(step int) {
	a, q := &f.areas, &f.areas.queue
	taken := q.steps[step]
	q.steps[step], q.spare = q.spare[:0], nil
	for _, g := range taken {
		if a.label[g.cell] != noArea {
			continue
		}
		a.label[g.cell] = g.area
		if float64(step)*growStep >= alienFrom {
			f.planes.thin[g.cell] |= alienCell
		}
		f.growAround(g.cell)
	}
	q.spare = taken
}

// growAround lets the free cells beside a cell wait for the cell's area.
func (f *Finder) growAround(i int32) {
	a := &f.areas
	area := a.label[i]
	mean := a.queue.means[area]
	f.around(i, func(k int32) {
		if a.label[k] != noArea || f.source.left[k] != 0 {
			return
		}
		apart := math.Sqrt(squareApart(labAt(&f.planes.flat, k), mean))
		step := min(int(apart/growStep), growSteps-1)
		a.queue.lowest = min(a.queue.lowest, step)
		a.queue.steps[step] = append(a.queue.steps[step], growing{k, area})
	})
}
