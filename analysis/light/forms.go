package light

import (
	"cmp"
	"math"
	"slices"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/families"
)

// Form is one form of a local colour: what hangs together of its light and shadow side. Cast
// shadows on a form and reflected light are in these sides as far as the finder put them there and
// their colour doesn't stray; what they make unclear is unsure.
type Form struct {
	Family int `json:"family"` // the index of its local colour
	Lighting
}

// Lighting is what the two sides of a form say of its light.
type Lighting struct {
	X       float64     `json:"x"`       // its middle, in parts of the picture's width, 0 to 1
	Y       float64     `json:"y"`       // of its height, from the top
	Degrees float64     `json:"degrees"` // where its light seems to come from: 0 from the right, 90 from above, [0, 360)
	Parted  float64     `json:"parted"`  // how well light and shadow are parted in its plane, 0 to 1: see parted
	Share   float64     `json:"share"`   // of the picture, 0 to 1
	Verdict FormVerdict `json:"verdict"`
}

// Lightings are those of all forms, of local colours and others.
func (l *Light) Lightings() (all []*Lighting) {
	for i := range l.Forms {
		all = append(all, &l.Forms[i].Lighting)
	}
	for i := range l.Others {
		all = append(all, &l.Others[i].Lighting)
	}
	return all
}

// FormVerdict says how a form stands to the direction of all.
type FormVerdict string

const (
	FormAgrees FormVerdict = "agrees"
	Elsewhere  FormVerdict = "elsewhere" // it seems to be lit from elsewhere
	Unsure     FormVerdict = "unsure"    // its sides don't say, or there is no direction of all
)

// weight is how much a form says: its area, and how well its sides are parted. The root is so
// that one large form doesn't outvote several smaller ones (our choice).
func (f *Lighting) weight() float64 { return math.Sqrt(f.Share) * f.Parted }

// What a form has at least to say from where its light comes (our choice).
const (
	leastSide   = 0.0006 // of the picture for each side
	leastOfForm = 0.12   // of the form for each side: a narrow rim of light or shadow says little
	leastParted = 0.25   // see parted: a shadow inside of a light has next to none
	mostCut     = 0.5    // of the form's outline that may lie at the picture's frame, as the ground's does
)

// Sides of a form, as moments count them.
const (
	lightSide  = int(families.InLight)
	shadowSide = int(families.InShadow)
)

// forms returns the forms of the families that count.
func (k *look) forms() (forms []Form) {
	found := k.found
	b := families.BlobsOf(found, k.counts)
	at := make(map[int32]*moments)
	var all []*moments // in the order of the map, so that it is the same every time
	for y := range found.Height {
		last, m := int32(-1), (*moments)(nil)
		for x := range found.Width {
			i := y*found.Width + x
			part := b.At(i)
			if part.Place > families.InShadow || k.strays(part, x, y) {
				continue
			}
			if root := b.Form(int32(i)); root != last {
				if last, m = root, at[root]; m == nil {
					m = &moments{family: int(part.Family)}
					at[root] = m
					all = append(all, m)
				}
			}
			m.add(int(part.Place), x, y, found.Width, found.Height)
		}
	}
	for _, m := range all {
		if lit, ok := m.form(found.Width, found.Height); ok {
			forms = append(forms, Form{m.family, lit})
		}
	}
	slices.SortStableFunc(forms, func(p, q Form) int {
		return cmp.Or(cmp.Compare(p.Family, q.Family), cmp.Compare(q.Share, p.Share))
	})
	return forms
}

// moments are counts, sums and sums of products of places, by side, in whole numbers. Doubled
// places, so that a cell's middle is one.
type moments struct {
	family int
	n      [2]int64
	x, y   [2]int64
	xx, yy int64 // of both sides
	xy     int64
	rim    int64 // cells' sides at the picture's frame
}

func (m *moments) add(side, x, y, w, h int) {
	u, v := int64(2*x+1), int64(2*y+1)
	m.n[side]++
	m.x[side] += u
	m.y[side] += v
	m.xx += u * u
	m.yy += v * v
	m.xy += u * v
	for _, at := range [4]bool{x == 0, y == 0, x == w-1, y == h-1} {
		if at {
			m.rim++
		}
	}
}

// form returns what moments say of a form; ok is false where it hasn't both sides.
func (m *moments) form(w, h int) (f Lighting, ok bool) {
	cells := float64(w * h)
	lit, dim := float64(m.n[0]), float64(m.n[1])
	n := lit + dim
	if min(lit, dim) < max(1, leastSide*cells) {
		return f, false
	}
	mean := func(sum [2]int64, side int) float64 { return float64(sum[side]) / 2 / float64(m.n[side]) }
	way := vector{mean(m.x, lightSide) - mean(m.x, shadowSide), mean(m.y, lightSide) - mean(m.y, shadowSide)}
	mx, my := float64(m.x[0]+m.x[1])/2/n, float64(m.y[0]+m.y[1])/2/n
	const ofCell = 1.0 / 12 // variance of the places inside of a cell
	spread := spread{float64(m.xx)/4/n - mx*mx + ofCell, float64(m.yy)/4/n - my*my + ofCell, float64(m.xy)/4/n - mx*my}
	toLight := spread.evened(way)
	f = Lighting{
		X: mx / float64(w), Y: my / float64(h), Share: n / cells, Verdict: Unsure,
		Degrees: colour.Degrees(-toLight.y, toLight.x), Parted: parted(way, spread, lit/n),
	}
	outline := leastOutline(n)
	switch {
	case min(lit, dim) < leastOfForm*n, f.Parted < leastParted, float64(m.rim) > mostCut*outline:
	default:
		f.Verdict = FormAgrees // until all are known
	}
	return f, true
}

// vector is a way in the picture, in cells, y downwards.
type vector struct{ x, y float64 }

// spread is the covariance of a form's places, in cells squared.
type spread struct{ xx, yy, xy float64 }

// evened returns a way as it is where the form is scaled until it is as wide as it is long, but for
// its length: divided by the root of the covariance.
//
// From the middle of a form's shadow to that of its light leads the way to the light, if the form
// is round. In a long one that is cut straight across the light, that way is turned toward its
// length, and to be divided by all of the covariance; in a long ellipsoid, lit as such, it is the
// way to the light as it stands (both computed). What painters do lies between, and so does the
// root (our choice, tried on painted scenes of open seeds).
func (s spread) evened(v vector) vector {
	sin, cos := math.Sincos(0.5 * math.Atan2(2*s.xy, s.xx-s.yy)) // the axes of the form
	long, short := s.along(vector{cos, sin}), s.along(vector{-sin, cos})
	u, w := (v.x*cos+v.y*sin)/math.Sqrt(long), (v.y*cos-v.x*sin)/math.Sqrt(short)
	return vector{u*cos - w*sin, u*sin + w*cos}
}

// along returns the variance along a way of length 1.
func (s spread) along(v vector) float64 { return v.x*v.x*s.xx + v.y*v.y*s.yy + 2*v.x*v.y*s.xy }

// parted returns the share of the variance of a form's places, along the way from the middle of its
// shadow to that of its light, that lies between the two: OTSU's criterion, for places. It is 0.72
// for a disc that is halved, 0.75 for a square, and 0 for a shadow all round a light. lit is the
// share of the light.
func parted(way vector, s spread, lit float64) float64 {
	square := way.x*way.x + way.y*way.y
	if square == 0 {
		return 0
	}
	return min(1, lit*(1-lit)*square*square/s.along(way))
}
