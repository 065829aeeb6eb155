package scenetest

import (
	"math"
	"strings"
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
		if f.Light.X == nil || f.Shadow.X == nil {
			f.Confidence = new(float64) // one side alone shows: no answer
		}
		if t.Accent != nil {
			f.Accent = &families.Accent{Spot: spotOf(*t.Accent)}
		}
		if t.Line {
			f.Line = &families.Line{}
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

// scored is the tally of one answer.
func scored(s *Scene, a *families.Found) (t Tally) {
	t.Add(s, a)
	return t
}

// The truth itself has nothing missed, nothing false and no error but that of 8 bits.
func checkScore(t *testing.T, s *Scene) {
	t.Helper()
	r := scored(s, truthful(s))
	if len(r.Faults) > 0 || r.Found != r.Scored || r.False+r.OnEmpty+r.Misplaced+r.FlagsMissing+r.FlagsWrong > 0 {
		t.Errorf("%d of %d found, %d misplaced, faults %q", r.Found, r.Scored, r.Misplaced, r.Faults)
	}
	if r.WorstLightness > 0.3 || r.WorstTurn > 3.5 { // of C*ab 10 a code is nearly two degrees, on either side
		t.Errorf("off by %.2f L* and %.2f degrees", r.WorstLightness, r.WorstTurn)
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
		r := scored(s, &families.Found{Width: 10, Height: 10, Map: make([]uint8, 100)})
		if r.Scored != n || r.Found != 0 || r.False != 0 {
			t.Errorf("found %d of %d, false %d", r.Found, r.Scored, r.False)
		}
	})
	t.Run("light and shadow changed over", func(t *testing.T) {
		a := truthful(s)
		for i, m := range a.Map {
			if side := (m - 1) % 4; m > 0 && side < 2 {
				a.Map[i] = m - side + (1 - side)
			}
		}
		if r := scored(s, a); r.Found != 0 || r.False != n {
			t.Errorf("found %d of %d, false %d", r.Found, n, r.False)
		}
	})
	t.Run("each light with the next one's shadow", func(t *testing.T) {
		a := truthful(s)
		for i, m := range a.Map {
			if m > 0 && (m-1)%4 == 1 {
				a.Map[i] = uint8((int(m) + 4) % (4 * n))
			}
		}
		if r := scored(s, a); r.Found != 0 || r.False != n {
			t.Errorf("found %d of %d, false %d", r.Found, n, r.False)
		}
	})
	t.Run("a family in an empty scene", func(t *testing.T) {
		e := Named("empty: flat shapes on a ground")
		a := &families.Found{Width: 2, Height: 1, Map: []uint8{1, 2}, List: []families.Family{{}}}
		if r := scored(e, a); r.OnEmpty != 1 || r.False != 0 {
			t.Errorf("false %d on an empty scene, %d elsewhere", r.OnEmpty, r.False)
		}
	})
	t.Run("colours that are off", func(t *testing.T) {
		a := truthful(s)
		a.List[0].Light.Lightness += 5
		if r := scored(s, a); r.OffLightness != 1 || math.Abs(r.WorstLightness-5) > 0.3 {
			t.Errorf("%d sides off, by %.2f, not 5", r.OffLightness, r.WorstLightness)
		}
	})
	t.Run("what is wrong of a family that is found", func(t *testing.T) {
		a := truthful(s)
		f := &a.List[1] // the warm stone: its hue turns, its line is tinted
		f.HueTurn, f.TowardBlack, f.Line, f.Accent, f.Shadow.X = nil, true, nil, &families.Accent{}, f.Light.X
		f.Shadow.Y = f.Light.Y
		r := scored(s, a)
		if r.OffTurn != 1 || r.FlagsWrong != 1 || r.Misplaced != 1 || r.Accents.Invented != 1 || r.Lines != (Extras{n, n - 1, 0}) {
			t.Errorf("%+v", r)
		}
		a.List[3].TowardBlack = false // the mossy one goes toward black
		if r := scored(s, a); r.FlagsMissing != 1 {
			t.Errorf("%+v", r)
		}
	})
	t.Run("two scenes", func(t *testing.T) {
		e := Named("empty: blank")
		r := scored(s, truthful(s))
		r.Add(e, &families.Found{Width: 2, Height: 1, Map: []uint8{1, 2}, List: []families.Family{{}}})
		if got := r.String(); r.Scenes != 2 || !strings.Contains(got, "4 of 4 families found (100.0 %), false 1 on empty scenes and 0 of 4") {
			t.Error(got)
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
		if r := scored(s, a); r.Found != n || r.False != 0 {
			t.Errorf("found %d of %d, false %d", r.Found, n, r.False)
		}
	})
}
