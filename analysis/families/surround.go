package families

import (
	"image"
	"math"
	"slices"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/workspace"
)

// withoutWorkspace adds to a mask what lies around a canvas, where a workspace is seen: it is no
// part of the picture to the finder, even where it counts. It also returns how many pixels of it
// count for whoever asked.
func withoutWorkspace(p analysis.Pixels, mask *analysis.Mask) (wider *analysis.Mask, counted int) {
	found := workspace.Find(p)
	if found.Certainty == workspace.None || !found.Grey || sidesAround(p.Bounds(), found.Canvas) < surroundedSides {
		return mask, 0
	}
	wider = &analysis.Mask{}
	if mask != nil {
		*wider = *mask
	}
	around := analysis.Around(p.Bounds(), found.Canvas)
	wider.Areas = slices.Concat(wider.Areas, around)
	return wider, countIn(p, around, mask, p.Space.LabOfCode(found.Surround).L)
}

// surroundedSides is on how many sides of a canvas a workspace is seen, at least, to be one: on a
// single side it may be a step of a scale, or a wall (our choice).
const surroundedSides = 2

// sidesAround counts the sides of bounds that a canvas doesn't reach.
func sidesAround(bounds, canvas image.Rectangle) int {
	n := 0
	for _, gap := range [4]int{canvas.Min.X - bounds.Min.X, canvas.Min.Y - bounds.Min.Y, bounds.Max.X - canvas.Max.X, bounds.Max.Y - canvas.Max.Y} {
		if gap > 0 {
			n++
		}
	}
	return n
}

// countIn counts the pixels of areas that don't overlap, all of one lightness, that a mask counts.
func countIn(p analysis.Pixels, areas []image.Rectangle, mask *analysis.Mask, lightness float64) (n int) {
	if mask.LeavesOut(uint8(math.Round(2.55 * lightness))) {
		return 0
	}
	var left analysis.Left
	left.Set(mask, p.Bounds())
	for _, area := range areas {
		for y := area.Min.Y; y < area.Max.Y; y++ {
			for x := area.Min.X; x < area.Max.X; {
				end, counted := left.NextSpan(y, x, p.Width)
				if end = min(end, area.Max.X); counted {
					n += end - x
				}
				x = end
			}
		}
	}
	return n
}
