package families

import (
	"image"
	"math"

	"app.tonedesk/analysis/reduce"
)

// mostCells is how many cells there may be with what is left out around the picture (our choice:
// a workspace as large as the canvas).
const mostCells = 2 * familyCells

// gridOf returns into which cells a picture is reduced, as square as may be: so many that its canvas has
// about familyCells, or a cell a pixel for small ones. What lies around a canvas makes its cells no
// coarser, unless there is more of that than of the canvas. Cells begin where the canvas does: wherever it
// lies in a workspace, its cells are those of the canvas alone, and so is what is found.
func gridOf(size image.Point, canvas image.Rectangle) reduce.Grid {
	cells := image.Rectangle{Max: size}
	if !canvas.Empty() {
		cells = canvas
	}
	scale := min(1, math.Sqrt(familyCells/max(1, float64(cells.Dx())*float64(cells.Dy()))))
	scale = min(scale, math.Sqrt(mostCells/max(1, float64(size.X)*float64(size.Y))))
	if scale == 1 {
		return reduce.EqualGrid(size, size)
	}
	return reduce.Grid{X: boxesFrom(size.X, cells.Min.X, cells.Dx(), scale), Y: boxesFrom(size.Y, cells.Min.Y, cells.Dy(), scale)}
}

// boxesFrom returns boxes of about 1/scale pixels that fill a part of a side and go on beyond it.
func boxesFrom(pixels, from, length int, scale float64) reduce.Boxes {
	b := reduce.Equal(length, max(1, int(math.Round(float64(length)*scale))))
	b.Pixels = pixels
	b.From = (b.Size - from*b.Unit%b.Size) % b.Size
	b.Count = (pixels*b.Unit + b.From + b.Size - 1) / b.Size
	return b
}

// laid returns what was found of cells with a map that covers the picture evenly.
func (s *familySource) laid(found *Found) *Found {
	out := &Found{List: found.List}
	out.Width, out.Height, out.Map = evenly(s, found.Map)
	return out
}

// evenly lays what is said of each cell on a map that covers the picture evenly, of about as many places.
func evenly[T any](s *familySource, of []T) (width, height int, on []T) {
	if s.grid == reduce.EqualGrid(image.Pt(s.width, s.height), s.grid.Count()) {
		return s.across, s.down, of
	}
	width, height = max(1, int(math.Round(s.grid.X.Parts()))), max(1, int(math.Round(s.grid.Y.Parts())))
	on = make([]T, width*height)
	columns := make([]int, width)
	for x := range columns {
		columns[x] = s.grid.X.BoxOf((2*x + 1) * s.width / (2 * width))
	}
	for y := range height {
		row := of[s.grid.Y.BoxOf((2*y+1)*s.height/(2*height))*s.across:][:s.across]
		for x, column := range columns {
			on[y*width+x] = row[column]
		}
	}
	return width, height, on
}
