package live

import "app.tonedesk/analysis"

// grower grows what is left out from the setup's seeds, anew where the picture or they changed.
type grower struct {
	*analysis.Grower
	mask  analysis.Mask // what is left out besides
	seeds []analysis.Seed
	grown *analysis.Grown
}

// grow fills in what is grown in a task's picture.
func (g *grower) grow(t *task) {
	if !t.same.reading {
		t.mask(&g.mask, t.bounds.Min)
		g.seeds = g.seeds[:0]
		for _, s := range t.Setup.Seeds {
			s.At = s.At.Sub(t.bounds.Min)
			g.seeds = append(g.seeds, s)
		}
		g.grown = g.Grow(t.pixels, g.mask.Areas, g.seeds)
	}
	t.grown = g.grown
}
