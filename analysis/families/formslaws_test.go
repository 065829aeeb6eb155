package families

import (
	"encoding/json"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/lawtest"
)

// What holds of the forms of any picture: up to three balls in a row, of any colours, some with an
// accent, some with a line, some cut by the frame.
func TestFormsLaws(t *testing.T) {
	lawtest.SkipRaced(t)
	f := NewFinder()
	defer f.Close()
	rapid.Check(t, func(r *rapid.T) {
		code := rapid.Custom(func(r *rapid.T) colour.RGB {
			c := rapid.SliceOfN(rapid.Byte(), 3, 3).Draw(r, "code")
			return colour.RGB{R: c[0], G: c[1], B: c[2]}
		})
		between := func(name string, from, to float64) float64 { return rapid.Float64Range(from, to).Draw(r, name) }
		var all []ball
		for i := range rapid.IntRange(1, 3).Draw(r, "balls") {
			b := ball{cx: 60 + 80*float64(i) + between("x", -15, 15), cy: between("y", 40, 110), r: between("r", 20, 50)}
			b.edge = b.cx + between("edge", -0.5, 0.5)*b.r
			b.light, b.shadow, b.accent, b.ink = skinLight, skinShadow, skinAccent, code.Draw(r, "ink")
			if rapid.Bool().Draw(r, "any colours") {
				b.light, b.shadow, b.accent = code.Draw(r, "light"), code.Draw(r, "shadow"), code.Draw(r, "accent")
			}
			b.line, b.band = rapid.SampledFrom([]float64{0, 2, 4}).Draw(r, "line"), rapid.SampledFrom([]float64{0, 3, 8}).Draw(r, "band")
			all = append(all, b)
		}
		p := balls(280, 150, paper, all...)
		f.Take(p, nil)
		found := f.Find(DefaultRules())
		before, marks := inJSON(r, found), slices.Clone(found.Map)
		list := f.Forms()
		if inJSON(r, found) != before || !slices.Equal(marks, found.Map) {
			r.Fatal("what was found has changed")
		}
		holdForms(r, found, list)
		if inJSON(r, f.Forms()) != inJSON(r, list) {
			r.Fatal("asked again it is another answer")
		}
		if f.Take(p, nil); len(f.Forms()) > 0 {
			r.Fatal("forms of a picture that wasn't searched yet")
		}
	})
}

func inJSON(r rapid.TB, v any) string {
	data, err := json.Marshal(v)
	if err != nil {
		r.Fatal(err)
	}
	return string(data)
}

// holdForms checks the forms of what was found.
func holdForms(r rapid.TB, found *Found, list []Form) {
	shares := make([]float64, len(found.List))
	for i := range list {
		g := &list[i]
		holdForm(r, g)
		shares[g.Family] += g.Share
		if i > 0 && (g.Family < list[i-1].Family || g.Family == list[i-1].Family && g.Share > list[i-1].Share) {
			r.Fatalf("form %d is out of order", i)
		}
	}
	for k, share := range shares {
		if share > *found.List[k].Share+1e-9 {
			r.Fatalf("the forms of a local colour of %g take %g", *found.List[k].Share, share)
		}
	}
}

// holdForm checks a form for itself.
func holdForm(r rapid.TB, g *Form) {
	inWhole := func(name string, v float64) {
		if !(v >= 0 && v <= 1) {
			r.Fatalf("%s is %g", name, v)
		}
	}
	inWhole("x", g.X)
	inWhole("y", g.Y)
	inWhole("share", g.Share)
	stretches := func(name string, list []Stretch, within float64) {
		sum := 0.0
		for _, s := range list {
			sum += s.Length
			for _, at := range s.Way {
				inWhole(name, at.X)
				inWhole(name, at.Y)
			}
			if s.From != s.Way[0] || s.To != s.Way[len(s.Way)-1] {
				r.Fatalf("%s: its ends aren't those of its way", name)
			}
		}
		if sum > within+1e-9 {
			r.Fatalf("%s: %g of %g", name, sum, within)
		}
	}
	if e := g.Edge; e != nil {
		inWhole("accent share", e.AccentShare)
		inWhole("leaves share", e.LeavesShare)
		stretches("accents", e.Accents, e.Length)
		stretches("leaves", e.Leaves, e.AccentShare*e.Length)
		if (e.Accent == nil) != (e.AccentShare == 0) {
			r.Fatalf("an accent along %g of an edge, and its colour is %v", e.AccentShare, e.Accent)
		}
	}
	if o := g.Outline; o != nil {
		inWhole("line share", o.LineShare)
		if sum := o.LineShare + o.VanishesLight + o.VanishesDark; o.Line != nil && math.Abs(sum-1) > 1e-9 {
			r.Fatalf("an outline's parts are %g of it", sum)
		}
		if o.Line == nil && len(o.Vanishes) > 0 {
			r.Fatal("a line vanishes that isn't there")
		}
	}
}
