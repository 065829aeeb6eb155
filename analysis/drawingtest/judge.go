package drawingtest

import (
	"cmp"
	"image"
	"math"
	"slices"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/families"
)

const (
	usuallyNear = 8.0 // CIEDE2000 up to which a reported colour counts as a side's
	stillNear   = 4   // times that, where places have to tell
	samePlace   = 5.0 // CIEDE2000 up to which neighbouring pixels belong to a place's area
)

// Verdict says what a report is.
type Verdict uint8

const (
	Invented  Verdict = iota // no family
	Duplicate                // a family that another report is already
	True
)

// Judged is a report with its verdict.
type Judged struct {
	Verdict Verdict
	Family  int  // of what is true or a duplicate
	Step    bool // of what is invented: two steps of one side
}

// fit says how well a report fits a truth.
type fit struct {
	report, family int
	places         bool // both places lie in the sides' areas
	apart          float64
}

// Judge judges reports. A family is taken by the report that fits best: by its places too, then
// by its share. Reports that aren't sure never take one from those that are.
func (d *Drawing) Judge(list []families.Family) []Judged {
	var fits []fit
	for i := range list {
		for k := range d.Families {
			if f, ok := d.fit(&list[i], &d.Families[k]); ok {
				f.report, f.family = i, k
				fits = append(fits, f)
			}
		}
	}
	flag := func(b bool) int {
		if b {
			return 0
		}
		return 1
	}
	share := func(i int) float64 {
		if s := list[i].Share; s != nil {
			return *s
		}
		return 0
	}
	slices.SortStableFunc(fits, func(p, q fit) int {
		return cmp.Or(
			cmp.Compare(flag(list[p.report].Sure()), flag(list[q.report].Sure())),
			cmp.Compare(flag(p.places), flag(q.places)),
			cmp.Compare(share(q.report), share(p.report)),
			cmp.Compare(p.apart, q.apart))
	})
	judged := make([]Judged, len(list))
	taken := make([]bool, len(d.Families))
	for _, f := range fits {
		if judged[f.report].Verdict == Invented && !taken[f.family] {
			judged[f.report] = Judged{Verdict: True, Family: f.family}
			taken[f.family] = true
		}
	}
	for _, f := range fits {
		if judged[f.report].Verdict == Invented {
			judged[f.report] = Judged{Verdict: Duplicate, Family: f.family}
		}
	}
	for i := range judged {
		if judged[i].Verdict == Invented {
			judged[i].Step = d.isStep(&list[i])
		}
	}
	return judged
}

// Fits returns the family that a report fits best, whatever else is reported; ok is false for
// none.
func (d *Drawing) Fits(f *families.Family) (family int, ok bool) {
	least := math.Inf(1)
	for k := range d.Families {
		if got, fits := d.fit(f, &d.Families[k]); fits && got.apart < least {
			family, ok, least = k, true, got.apart
		}
	}
	return family, ok
}

// fit reports whether a report fits a truth: each of its colours is near to one of its side,
// and not nearer to one of the other side. Where it is further away, its places lie in the
// areas of the true places.
func (d *Drawing) fit(f *families.Family, t *Truth) (fit, bool) {
	places := [2]image.Point{placeOf(f.Light), placeOf(f.Shadow)}
	if !t.Within.Empty() && (!places[0].In(t.Within) || !places[1].In(t.Within)) {
		return fit{}, false
	}
	sides := [2]*Side{&t.Light, &t.Shadow}
	near, sum := true, 0.0
	for k, c := range [2]colour.Lab{f.Light.Lab, f.Shadow.Lab} {
		own, other := sides[k].Away(c), sides[1-k].Away(c)
		if own > other+1e-9 || own > stillNear*usuallyNear {
			return fit{}, false
		}
		near = near && own <= t.Near
		sum += own
	}
	in := d.joined(places[0], &t.Light) && d.joined(places[1], &t.Shadow)
	return fit{places: in, apart: sum}, near || in
}

// isStep reports whether a report is two steps of one side of a family.
func (d *Drawing) isStep(f *families.Family) bool {
	for k := range d.Families {
		for _, s := range [2]*Side{&d.Families[k].Light, &d.Families[k].Shadow} {
			if s.Away(f.Light.Lab) <= usuallyNear && s.Away(f.Shadow.Lab) <= usuallyNear {
				return true
			}
		}
	}
	return false
}

// Away returns how far a colour is from the nearest of a side's, CIEDE2000.
func (s *Side) Away(c colour.Lab) float64 {
	least := math.Inf(1)
	for _, own := range s.Colours {
		least = min(least, colour.CIEDE2000(own, c))
	}
	return least
}

func placeOf(s analysis.Spot) image.Point {
	if s.X == nil || s.Y == nil {
		return image.Pt(-1, -1)
	}
	return image.Pt(*s.X, *s.Y)
}

// joined reports whether a place is joined with a side's by pixels of the side's main colour.
func (d *Drawing) joined(from image.Point, s *Side) bool {
	w, h := d.Pixels.Width, d.Pixels.Height
	known := map[colour.RGB]bool{}
	like := func(p image.Point) bool {
		q := d.Pixels.Row(p.Y)[4*p.X:]
		c := colour.RGB{R: q[0], G: q[1], B: q[2]}
		is, ok := known[c]
		if !ok {
			is = colour.CIEDE2000(analysis.SpotOf(c).Lab, s.Colours[0]) < samePlace
			known[c] = is
		}
		return is
	}
	frame := image.Rect(0, 0, w, h)
	if !from.In(frame) || !like(from) || !like(s.At) {
		return false
	}
	seen := make([]bool, w*h)
	seen[from.Y*w+from.X] = true
	for wait := []image.Point{from}; len(wait) > 0; {
		p := wait[len(wait)-1]
		wait = wait[:len(wait)-1]
		if p == s.At {
			return true
		}
		for _, step := range [4]image.Point{{1, 0}, {-1, 0}, {0, 1}, {0, -1}} {
			if n := p.Add(step); n.In(frame) && !seen[n.Y*w+n.X] && like(n) {
				seen[n.Y*w+n.X] = true
				wait = append(wait, n)
			}
		}
	}
	return false
}

// Same reports whether two colours are of one family, whatever their sides.
func (d *Drawing) Same(a, b colour.Lab) (family int, ok bool) {
	for k := range d.Families {
		t := &d.Families[k]
		near := func(c colour.Lab) bool { return min(t.Light.Away(c), t.Shadow.Away(c)) <= t.Near }
		if near(a) && near(b) {
			return k, true
		}
	}
	return 0, false
}
