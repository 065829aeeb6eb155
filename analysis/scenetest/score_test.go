package scenetest

import (
	"math"
	"testing"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/families"
)

// truthful answers a scene with its own truth, all families, scored or not.
func truthful(s *Scene) *families.Found {
	a := &families.Found{Width: s.Image.Rect.Dx(), Height: s.Image.Rect.Dy(), Map: make([]uint8, len(s.labels))}
	for i, l := range s.labels {
		if f, side, ok := s.owner(l); ok {
			a.Map[i] = uint8(4*f + 1 + int(side))
		}
	}
	for i, t := range s.Families {
		f := families.Of(spotOf(t.Light), spotOf(t.Shadow), families.DefaultRules())
		f.Light.X, f.Light.Y = s.anywhere(i, Light)
		f.Shadow.X, f.Shadow.Y = s.anywhere(i, Shadow)
		if t.Accent != nil {
			f.Accent = &families.Accent{Spot: spotOf(*t.Accent)}
		}
		if t.Line != nil {
			f.Line = &families.Line{Spot: spotOf(*t.Line)}
		}
		a.List = append(a.List, f)
	}
	return a
}

func spotOf(c Colour) analysis.Spot {
	return analysis.SpotOf(colour.RGB{R: colour.Encode(c.Red), G: colour.Encode(c.Green), B: colour.Encode(c.Blue)})
}

func (s *Scene) anywhere(family int, side Side) (x, y *int) {
	for i, l := range s.labels {
		if f, is, ok := s.owner(l); ok && f == family && is == side {
			px, py := i%s.Image.Rect.Dx(), i/s.Image.Rect.Dx()
			return &px, &py
		}
	}
	return nil, nil
}

// The truth itself has nothing missed, nothing false and no error but that of 8 bits.
func checkScore(t *testing.T, s *Scene) {
	t.Helper()
	r := Score(s, truthful(s))
	if len(r.Missed) > 0 || len(r.False) > 0 || len(r.Found) != r.Scored || r.Misplaced > 0 {
		t.Errorf("%d of %d found, missed %v, false %v, %d misplaced", len(r.Found), r.Scored, r.Missed, r.False, r.Misplaced)
	}
	for _, m := range r.Found {
		if math.Abs(m.LightOff) > 0.3 || math.Abs(m.ShadowOff) > 0.3 {
			t.Errorf("%s: off by %.2f and %.2f L*", m.Family, m.LightOff, m.ShadowOff)
		}
		if m.TurnMissing || m.TurnOff != nil && math.Abs(*m.TurnOff) > 2.5 {
			t.Errorf("%s: turn off by %v", m.Family, m.TurnOff)
		}
		if m.TowardBlack == FlagMissing || m.TowardBlack == FlagWrong {
			t.Errorf("%s: toward black %d", m.Family, m.TowardBlack)
		}
	}
	if r.Accents.Invented > 0 || r.Accents.Found != r.Accents.Wanted || r.Lines.Invented > 0 || r.Lines.Found != r.Lines.Wanted {
		t.Errorf("accents %+v, lines %+v", r.Accents, r.Lines)
	}
}

// Bad answers are seen to be bad.
func TestScoreOfBadAnswers(t *testing.T) {
	s := Named("grey rocks, tinted lines")
	n := len(s.Families)
	t.Run("nothing", func(t *testing.T) {
		r := Score(s, &families.Found{Width: 10, Height: 10, Map: make([]uint8, 100)})
		if len(r.Missed) != n || len(r.False) != 0 {
			t.Errorf("missed %d of %d, false %d", len(r.Missed), n, len(r.False))
		}
	})
	t.Run("light and shadow changed over", func(t *testing.T) {
		a := truthful(s)
		for i, m := range a.Map {
			if side := (m - 1) % 4; m > 0 && side < 2 {
				a.Map[i] = m - side + (1 - side)
			}
		}
		if r := Score(s, a); len(r.Missed) != n || len(r.False) != n {
			t.Errorf("missed %d of %d, false %d", len(r.Missed), n, len(r.False))
		}
	})
	t.Run("each light with the next one's shadow", func(t *testing.T) {
		a := truthful(s)
		for i, m := range a.Map {
			if m > 0 && (m-1)%4 == 1 {
				a.Map[i] = uint8((int(m) + 4) % (4 * n))
			}
		}
		if r := Score(s, a); len(r.Missed) != n || len(r.False) != n {
			t.Errorf("missed %d of %d, false %d", len(r.Missed), n, len(r.False))
		}
	})
	t.Run("a family in an empty scene", func(t *testing.T) {
		e := Named("empty: flat shapes on a ground")
		a := &families.Found{Width: 2, Height: 1, Map: []uint8{1, 2}, List: []families.Family{{}}}
		if r := Score(e, a); len(r.False) != 1 {
			t.Errorf("false %v", r.False)
		}
	})
	t.Run("colours that are off", func(t *testing.T) {
		a := truthful(s)
		a.List[0].Light.Lightness += 5
		if r := Score(s, a); math.Abs(r.Found[0].LightOff-5) > 0.3 {
			t.Errorf("light off by %.2f, not 5", r.Found[0].LightOff)
		}
	})
	t.Run("a map of a third of the size", func(t *testing.T) {
		whole := truthful(s)
		a := &families.Found{Width: whole.Width / 3, Height: whole.Height / 3, List: whole.List}
		for y := range a.Height {
			for x := range a.Width {
				a.Map = append(a.Map, whole.Map[(3*y+1)*whole.Width+3*x+1])
			}
		}
		if r := Score(s, a); len(r.Found) != n || len(r.False) != 0 {
			t.Errorf("found %d of %d, false %v", len(r.Found), n, r.False)
		}
	})
}
