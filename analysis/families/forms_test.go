package families_test

import (
	"math"
	"slices"
	"testing"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/families"
	"app.tonedesk/analysis/lawtest"
	"app.tonedesk/analysis/scenetest"
)

// What painted edges are judged by (our choice): a share of an edge or an outline is right within
// shareWithin, a place within placeWithin of the picture, a line's colour within lineWithin of
// CIEDE2000; and leastRight of them are right.
const (
	shareWithin = 0.1
	placeWithin = 0.04
	lineWithin  = 10.0
	leastRight  = 0.9
)

// count counts what is right.
type count struct{ right, of int }

func (c *count) add(right bool) {
	c.of++
	if right {
		c.right++
	}
}

func (c count) reached() bool { return float64(c.right) >= leastRight*float64(c.of) }

// nearest returns the form with an edge that lies nearest to a place; nil for none within a tenth.
func nearest(list []families.Form, x, y float64) (best *families.Form) {
	least := 0.1
	for i := range list {
		if d := math.Hypot(list[i].X-x, list[i].Y-y); d < least && list[i].Edge != nil && list[i].Outline != nil {
			best, least = &list[i], d
		}
	}
	return best
}

// Painted scenes with accents and lines along known parts, of seeds that nothing was tried on.
func TestFormsOnPaintedEdges(t *testing.T) {
	paintsManyScenes(t)
	var seeds []int
	for seed := scenetest.FirstHeldOut; seed <= scenetest.LastHeldOut; seed++ {
		seeds = append(seeds, seed)
	}
	judgeEdges(t, lawtest.Some(seeds, 5))
}

func judgeEdges(t *testing.T, seeds []int) {
	var seen, accents, bare, leaves, stays, lines, unlined, colours, lifts count
	for _, seed := range seeds {
		s := scenetest.Edges(seed)
		_, list := families.FindForms(s.Pixels(), nil, families.DefaultRules())
		for _, truth := range s.Forms {
			g := nearest(list, truth.X, truth.Y)
			if seen.add(g != nil); g == nil {
				continue
			}
			e, o := g.Edge, g.Outline
			right := math.Abs(e.AccentShare-truth.AccentShare) <= shareWithin
			if truth.AccentShare > 0 {
				accents.add(right)
			} else {
				bare.add(e.AccentShare == 0)
			}
			if right && truth.LeavesShare > 0 {
				leaves.add(math.Abs(e.LeavesShare-truth.LeavesShare) <= shareWithin)
			} else if right && truth.AccentShare > 0 {
				stays.add(e.LeavesShare <= shareWithin)
			}
			if truth.LineShare == 0 {
				unlined.add(o.Line == nil)
				continue
			}
			lines.add(o.Line != nil && math.Abs(o.LineShare-truth.LineShare) <= shareWithin)
			if o.Line == nil {
				continue
			}
			colours.add(colour.CIEDE2000(o.Line.Lab, truth.Line.Lab()) <= lineWithin)
			if truth.Lifted != nil {
				lifts.add(slices.ContainsFunc(o.Vanishes, func(v families.Stretch) bool {
					return math.Hypot(v.Middle.X-truth.Lifted[0], v.Middle.Y-truth.Lifted[1]) <= placeWithin
				}))
			}
		}
	}
	t.Logf("forms with their edges %v; accents' shares %v, none where there is none %v; leaving the lightness %v, not where they don't %v; lines' shares %v, none where there is none %v, colours %v, places where they vanish %v",
		seen, accents, bare, leaves, stays, lines, unlined, colours, lifts)
	for name, c := range map[string]count{"forms": seen, "accents": accents, "bare edges": bare, "leaving": leaves, "keeping": stays, "lines": lines, "unlined": unlined, "colours": colours, "vanishing": lifts} {
		if !c.reached() {
			t.Errorf("%s: %d of %d", name, c.right, c.of)
		}
	}
}

// A picture that is mirrored has the same forms: shares of their edges and outlines change by what
// cells fall elsewhere at most.
func TestFormsMirrored(t *testing.T) {
	paintsManyScenes(t)
	for _, seed := range lawtest.Some([]int{3, 5, 9, 18}, 2) {
		p := scenetest.Edges(seed).Pixels()
		_, list := families.FindForms(p, nil, families.DefaultRules())
		_, other := families.FindForms(mirrored(p), nil, families.DefaultRules())
		for i := range list {
			a := &list[i]
			b := nearest(other, 1-a.X, a.Y)
			if a.Edge == nil || a.Outline == nil {
				continue
			}
			if b == nil {
				t.Errorf("seed %d: form %d has gone", seed, i)
				continue
			}
			for name, d := range map[string]float64{
				"accent": a.Edge.AccentShare - b.Edge.AccentShare, "leaves": a.Edge.LeavesShare - b.Edge.LeavesShare,
				"line": a.Outline.LineShare - b.Outline.LineShare, "length": a.Edge.Length - b.Edge.Length,
			} {
				if math.Abs(d) > 0.05 {
					t.Errorf("seed %d: form %d: %s is %g more", seed, i, name, d)
				}
			}
		}
	}
}

// mirrored exchanges left and right.
func mirrored(p analysis.Pixels) analysis.Pixels {
	q := p
	q.Pix = make([]byte, len(p.Pix))
	for y := range p.Height {
		for x := range p.Width {
			copy(q.Pix[y*p.Stride+analysis.PixelBytes*x:][:analysis.PixelBytes], p.Pix[y*p.Stride+analysis.PixelBytes*(p.Width-1-x):])
		}
	}
	return q
}
