package light_test

import (
	"image"
	"math"
	"testing"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/families"
	"app.tonedesk/analysis/lawtest"
	"app.tonedesk/analysis/light"
	"app.tonedesk/analysis/scenetest"
)

// What painted scenes are judged by. The shares, and 15 degrees, are what we asked for.
const (
	mostOff    = 15.0 // degrees
	mostFrom   = 3.0  // CIEDE2000 of a shadow that is proposed as in the picture
	leastRight = 0.9
	mostFalse  = 0.05
)

// heldOut are the seeds that the limits were not tried on.
func heldOut() (seeds []int) {
	for seed := scenetest.FirstHeldOut; seed <= scenetest.LastHeldOut; seed++ {
		seeds = append(seeds, seed)
	}
	return lawtest.Some(seeds, 4)
}

// onScene is what a scene says of its light, with what the finder found.
func onScene(s *scenetest.Lit) (*light.Light, *families.Found) {
	found := families.Find(s.Pixels(), nil, families.DefaultRules())
	return light.OfPicture(found, light.Take(s.Pixels(), nil), nil, light.DefaultOptions()), found
}

// formAt names the family of a scene that a form is of, by what is painted nearest to its middle
// (between its sides may lie what isn't judged); "" for none within a twentieth of the width.
func formAt(s *scenetest.Lit, f *light.Lighting) string {
	size := s.Image.Rect.Size()
	x, y := int(f.X*float64(size.X)), int(f.Y*float64(size.Y))
	for r := range size.X / 20 {
		for _, at := range [4]image.Point{{x + r, y}, {x - r, y}, {x, y + r}, {x, y - r}} {
			if !at.In(s.Image.Rect) {
				continue
			}
			if k, _, ok := s.At(at.X, at.Y); ok {
				return s.Families[k].Name
			}
		}
	}
	return ""
}

// tally counts what is right.
type tally struct{ right, of int }

func (c *tally) add(right bool) {
	c.of++
	if right {
		c.right++
	}
}

func (c tally) share() float64 { return float64(c.right) / float64(max(c.of, 1)) }

// painted reads a colour as a picture's 8 bits have it.
func painted(c scenetest.Colour) analysis.Spot {
	return analysis.SpotOf(analysis.SpotOfLight(c.Red, c.Green, c.Blue).Colour)
}

// Painted scenes with one light: its direction, and the shadow of a form that is left out, and its
// light, from the others.
func TestPaintedInOneLight(t *testing.T) {
	if testing.Short() {
		t.Skip("paints scenes")
	}
	lawtest.SkipRaced(t)
	var direction, shadow, lit, scenesAlarmed, formsAlarmed, disagree tally
	for _, seed := range heldOut() {
		s := scenetest.OneLight(seed, false)
		l, found := onScene(s)
		direction.add(l.Direction != nil && math.Abs(math.Remainder(l.Direction.Degrees-s.Degrees, 360)) <= mostOff)
		alarm := false
		for _, f := range l.Forms {
			formsAlarmed.add(f.Verdict == light.Elsewhere)
			alarm = alarm || f.Verdict == light.Elsewhere
		}
		for _, f := range l.Others {
			formsAlarmed.add(f.Verdict == light.Elsewhere)
			alarm = alarm || f.Verdict == light.Elsewhere
		}
		scenesAlarmed.add(alarm)
		for _, c := range l.LocalColours {
			disagree.add(!c.Agrees())
		}
		answers, family := s.Answers(found)
		for k, truth := range s.Families {
			if !truth.Scored {
				continue
			}
			others := &families.Found{}
			for i, f := range found.List {
				if answers[i] != scenetest.Right || family[i] != k {
					others.List = append(others.List, f)
				}
			}
			r := light.Of(others, nil, light.DefaultOptions()).Ratio
			shadow.add(r != nil && colour.CIEDE2000(r.Shadow(painted(truth.Light)).Spot.Lab, truth.Shadow.Lab()) <= mostFrom)
			lit.add(r != nil && colour.CIEDE2000(r.Light(painted(truth.Shadow)).Spot.Lab, truth.Light.Lab()) <= mostFrom)
		}
	}
	t.Logf("direction within %g degrees %v, shadows within %g %v, lights %v, scenes with a false alarm %v, forms %v, local colours that seem to disagree %v",
		mostOff, direction, mostFrom, shadow, lit, scenesAlarmed, formsAlarmed, disagree)
	if direction.share() < leastRight {
		t.Errorf("the direction of %d of %d scenes", direction.right, direction.of)
	}
	if shadow.share() < leastRight {
		t.Errorf("the shadows of %d of %d forms that were left out", shadow.right, shadow.of)
	}
	if lit.share() < leastRight {
		t.Errorf("the lights of %d of %d forms that were left out", lit.right, lit.of)
	}
	if formsAlarmed.share() >= mostFalse || disagree.share() >= mostFalse {
		t.Errorf("%d of %d forms seem to be lit from elsewhere, %d of %d local colours disagree", formsAlarmed.right, formsAlarmed.of, disagree.right, disagree.of)
	}
}

// The same scenes, with one form of each lit from at least 90 degrees away.
func TestPaintedWithOneTurned(t *testing.T) {
	if testing.Short() {
		t.Skip("paints scenes")
	}
	lawtest.SkipRaced(t)
	var named, ofFound, alarmed, direction tally
	for _, seed := range heldOut() {
		s := scenetest.OneLight(seed, true)
		if s.Turned == "" {
			continue // too little shows of it
		}
		l, found := onScene(s)
		direction.add(l.Direction != nil && math.Abs(math.Remainder(l.Direction.Degrees-s.Degrees, 360)) <= mostOff)
		answers, family := s.Answers(found)
		seen, hit := false, false
		for i, f := range found.List {
			seen = seen || f.Sure() && answers[i] == scenetest.Right && s.Families[family[i]].Name == s.Turned
		}
		for _, f := range l.Forms {
			if answers[f.Family] == scenetest.Right && s.Families[family[f.Family]].Name == s.Turned {
				hit = hit || f.Verdict == light.Elsewhere
				continue
			}
			alarmed.add(f.Verdict == light.Elsewhere)
		}
		for _, f := range l.Others {
			if formAt(s, &f.Lighting) == s.Turned {
				hit = hit || f.Verdict == light.Elsewhere
				continue
			}
			alarmed.add(f.Verdict == light.Elsewhere)
		}
		if named.add(hit); seen {
			ofFound.add(hit)
		}
	}
	t.Logf("named %v, of those whose local colour was found for sure %v, false alarms %v, direction %v", named, ofFound, alarmed, direction)
	if ofFound.share() < leastRight || named.share() < leastRight || ofFound.of < 5 {
		t.Errorf("named in %d of %d scenes, and of %d in which it was found", named.right, named.of, ofFound.of)
	}
	if alarmed.share() >= mostFalse {
		t.Errorf("%d of %d others are named too", alarmed.right, alarmed.of)
	}
}
