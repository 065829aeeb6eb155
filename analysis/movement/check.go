package movement

import "math"

// checked says how well a transform explains a picture by the one before.
type checked struct {
	shown float64 // share of the cells whose place the other picture shows
	toned float64 // share of these that have the tone they had there
	edges int     // how many of these lay on an edge before
	after int     // how many lie on one now
	kept  float64 // share of the edges of before that are there now
	old   float64 // share of the edges of now that were there before
}

// support is by how many the edges of before that are there are more than those that are not.
func (c checked) support() float64 { return float64(c.edges) * (2*c.kept - 1) }

// there is how many of the edges of before are there.
func (c checked) there() float64 { return float64(c.edges) * c.kept }

// rank is higher the less it is by chance that edges of before are there: by standard deviations, of
// which as many as of so many edges lie about alike anyway. A share alone ranks a corner that hardly
// shows anything before most of the picture.
func (c checked) rank() int {
	return int(1000 * math.Sqrt(float64(c.edges)) * max(0, c.kept-checkChance))
}

// How a transform is checked (our choice).
const (
	checkTone   = 3.0  // steps of lightness that may differ
	checkChance = 0.2  // share of edges that are there by chance
	checkSlope  = 0.35 // cells by which an edge may lie elsewhere
)

// check compares the pictures under a transform, at a level, edges of both counting.
func (a *aligner) check(t Transform, level int) (c checked) {
	p := a.pair(t, level)
	m := t
	if p.inverse {
		m = t.Inverse()
	}
	l, in := p.lookup(m), p.in.sampled()
	ratio := float32(p.at.side) // slopes are from cell to cell of p.at
	n, shown, toned := 0, 0, 0
	edgesAt, goodAt, edgesIn, goodIn := 0, 0, 0, 0 // of p.at, of p.in
	for y := 1; y < p.at.down-1; y += 2 {
		rows := p.at.around(y)
		n += len(rows.here) - 2
		for x := 1; x < len(rows.here)-1; x++ {
			s := spot{(float32(x)+0.5)*ratio - float32(p.halfX), (float32(y)+0.5)*ratio - float32(p.halfY), rows.here[x]}
			u, v := p.look(&l, &s)
			if !in.has(u, v) {
				continue
			}
			shown++
			ix, iy := int(u), int(v) // as in.at, which the compiler doesn't inline
			a, b, c, d := in.square(iy*in.across + ix)
			was, gx, gy := between4(a, b, c, d, u-float32(ix), v-float32(iy))
			// slopes turned back to p.at's axes: by the transform's transpose
			gx, gy = (l.a*gx+l.b*gy)*l.flip*ratio, (l.a*gy-l.b*gx)*ratio
			sx, sy := rows.slope(x)
			one, two := sx*sx+sy*sy, gx*gx+gy*gy
			d = s.v - was
			most := max(one, two)
			same := d < checkTone && d > -checkTone
			if most > edgeSlope*edgeSlope {
				limit := checkTone + checkSlope*float32(math.Sqrt(float64(most)))
				same = d < limit && d > -limit
				alike := same && slopesAlike(one, two, sx*gx+sy*gy)
				if one > edgeSlope*edgeSlope {
					edgesAt++
					if alike {
						goodAt++
					}
				}
				if two > edgeSlope*edgeSlope {
					edgesIn++
					if alike {
						goodIn++
					}
				}
			}
			if same {
				toned++
			}
		}
	}
	c.edges, c.after = edgesAt, edgesIn
	c.shown, c.toned = share(shown, n), share(toned, shown)
	c.kept, c.old = share(goodAt, edgesAt), share(goodIn, edgesIn)
	if p.inverse {
		c.edges, c.after, c.kept, c.old = c.after, c.edges, c.old, c.kept
	}
	return c
}

func share(part, all int) float64 { return float64(part) / float64(max(all, 1)) }
