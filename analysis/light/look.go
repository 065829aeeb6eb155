package light

import (
	"slices"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/families"
)

// look is a picture with what was found in it.
type look struct {
	*Cells              // nil where there is no picture
	lab    []colour.Lab // of the cells, evened out
	found  *families.Found
	counts func(family int) bool
}

func lookOf(c *Cells, found *families.Found, counts func(family int) bool) *look {
	k := &look{Cells: c, found: found, counts: counts}
	if c != nil {
		k.lab = c.evenedOut()
	}
	return k
}

// mostStraying is how far in L*a*b* a place lies at most from the mixtures of the two sides of the
// local colour that it was counted to: the finder gives a form what is like it beside it, which may
// be another form (tried on painted scenes of open seeds: 8, 12, 18).
const mostStraying = 10.0

// strays reports whether a place of the finder's map is of another colour than the local colour it was
// counted to.
func (k *look) strays(part families.Part, x, y int) bool {
	if k.Cells == nil {
		return false
	}
	at := (2*y+1)*k.h/(2*k.found.Height)*k.w + (2*x+1)*k.w/(2*k.found.Width)
	f := &k.found.List[part.Family]
	return farFrom(k.lab[at], f.Light.Lab, f.Shadow.Lab) > mostStraying*mostStraying
}

// farFrom returns the square of how far a colour is from the way between two others.
func farFrom(c, a, b colour.Lab) float64 {
	way, to := minus(b, a), minus(c, a)
	part := 0.0
	if length := dot(way, way); length > 0 {
		part = max(0, min(dot(to, way)/length, 1))
	}
	rest := colour.Lab{L: to.L - part*way.L, A: to.A - part*way.A, B: to.B - part*way.B}
	return dot(rest, rest)
}

func minus(p, q colour.Lab) colour.Lab { return colour.Lab{L: p.L - q.L, A: p.A - q.A, B: p.B - q.B} }

func dot(p, q colour.Lab) float64 { return p.L*q.L + p.A*q.A + p.B*q.B }

// taken reports which cells are left out, are of one of some local colours, or are a line.
func (k *look) taken(by func(family int) bool) []bool {
	taken := slices.Clone(k.left)
	k.each(by, func(i int, part families.Part) { taken[i] = true })
	return taken
}

// each calls do for the cells that are of one of some local colours, or are a line.
func (k *look) each(of func(family int) bool, do func(i int, part families.Part)) {
	b := families.BlobsOf(k.found, of)
	for i := range k.left {
		x, y := (2*(i%k.w)+1)*k.found.Width/(2*k.w), (2*(i/k.w)+1)*k.found.Height/(2*k.h)
		part := b.At(y*k.found.Width + x)
		side := part.Place == families.InLight || part.Place == families.InShadow
		if part.Place != families.InNone && !(side && k.strays(part, x, y)) {
			do(i, part)
		}
	}
}
