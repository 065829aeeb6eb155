package scenetest

import (
	"fmt"
	"image"
	"math"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/families"
)

// Tally says how a finder's answers fare against the truth of scenes, in the figures that it
// has to reach.
type Tally struct {
	Scenes        int
	Scored, Found int // families that should be found, and those that were
	False         int // reports that are no family, on scenes that have some
	OnEmpty       int // the same on scenes without families
	Ignored       int // reports that lie on what isn't scored: neither found nor false

	// Of the families that were found:
	Sides, OffLightness      int     // sides, and those that miss by more than mostLightness
	WorstLightness           float64 // L*
	Turns, OffTurn           int     // turns that are judged; off by more than mostTurn, or missing
	WorstTurn                float64 // degrees
	FlagsMissing, FlagsWrong int     // it goes toward black and that wasn't said; it was said and isn't so
	Accents, Lines           Extras
	OffAccents               int // accents that miss by more than mostLightness
	Misplaced                int // places that lie outside of their true side

	Faults []string // all that is wrong, in words
}

// Extras counts accents or lines.
type Extras struct{ Wanted, Found, Invented int }

const (
	mostLightness = 1.5 // L* by which a side may miss
	mostTurn      = 4   // degrees by which a turn may miss
	turnChroma    = 10  // C*ab of both sides from which a turn is judged
)

// Add compares what a finder says about a scene with the scene's truth.
//
// The rule: the truth is sampled at the middles of the map's pixels. Unjudged pixels, and
// the accent and line of the same family, count for nothing. A report is a family if at
// least half of its light lies in the true light and at least half of its shadow in the
// true shadow, and if it holds at least half of the true light and half of the true
// shadow, of the whole local colour or of one of its forms. So at most one report can be
// a given form. What is no family by this rule is false, unless both of its sides lie
// mostly on what isn't scored: a family that is marked so, or a cast shadow with its
// ground. In an empty scene every report is false.
func (t *Tally) Add(s *Scene, a *families.Found) {
	t.Scenes++
	answers, family := s.Answers(a)
	found := make([]int, len(s.Families)) // 1 + report
	for i, answer := range answers {
		switch f := family[i]; {
		case !a.List[i].Sure():
		case answer == Ignored:
			t.Ignored++
		case answer == Right && found[f] == 0:
			found[f] = 1 + i
		case answer == Right: // another form of the same local colour
		default:
			t.fault(s, "false: light %s, shadow %s", a.List[i].Light.Colour.Hex(), a.List[i].Shadow.Colour.Hex())
			if len(s.Families) == 0 {
				t.OnEmpty++
			} else {
				t.False++
			}
		}
	}
	for f, truth := range s.Families {
		if !truth.Scored {
			continue
		}
		t.Scored++
		if found[f] == 0 {
			t.fault(s, "missed %s", truth.Name)
			continue
		}
		t.Found++
		t.compare(s, f, a.List[found[f]-1])
	}
}

func (t *Tally) fault(s *Scene, format string, args ...any) {
	t.Faults = append(t.Faults, s.Name+": "+fmt.Sprintf(format, args...))
}

// compare compares a report with the family that it is.
func (t *Tally) compare(s *Scene, family int, got families.Family) {
	truth := s.Families[family]
	t.side(s, family, Light, truth.Light, got.Light)
	t.side(s, family, Shadow, truth.Shadow, got.Shadow)
	if min(truth.Light.Lab().Chroma(), truth.Shadow.Lab().Chroma()) >= turnChroma {
		t.Turns++
		off := math.Inf(1) // where it is missing
		if got.HueTurn != nil {
			off = math.Abs(turn(truth.turn(), *got.HueTurn))
		}
		t.WorstTurn = max(t.WorstTurn, off)
		if off > mostTurn {
			t.OffTurn++
			t.fault(s, "%s: turn off by %.1f degrees", truth.Name, off)
		}
	}
	switch {
	case !truth.Clear(), truth.TowardBlack == got.TowardBlack:
	case truth.TowardBlack:
		t.FlagsMissing++
		t.fault(s, "%s: goes toward black, which isn't said", truth.Name)
	default:
		t.FlagsWrong++
		t.fault(s, "%s: is wrongly said to go toward black", truth.Name)
	}
	if truth.Accent != nil && got.Accent != nil {
		if off := got.Accent.Lightness - truth.Accent.Lab().L; math.Abs(off) > mostLightness {
			t.OffAccents++
			t.fault(s, "%s: accent off by %.1f L*", truth.Name, off)
		}
	}
	t.extra(s, "accent of "+truth.Name, &t.Accents, truth.Accent != nil, got.Accent != nil)
	t.extra(s, "line of "+truth.Name, &t.Lines, truth.Line, got.Line != nil)
}

// side compares one of a family's two sides with a spot, and where that lies.
func (t *Tally) side(s *Scene, family int, side Side, truth Colour, got analysis.Spot) {
	off := got.Lightness - truth.Lab().L
	t.Sides++
	t.WorstLightness = max(t.WorstLightness, math.Abs(off))
	if math.Abs(off) > mostLightness {
		t.OffLightness++
		t.fault(s, "%s: side %d off by %.1f L*", s.Families[family].Name, side, off)
	}
	if got.X != nil && got.Y != nil && image.Pt(*got.X, *got.Y).In(s.Image.Rect) {
		f, is, ok := s.owner(s.labels[*got.Y*s.Image.Rect.Dx()+*got.X])
		if ok && f == family && is == side {
			return
		}
	}
	t.Misplaced++
}

// extra counts an accent or a line.
func (t *Tally) extra(s *Scene, name string, sum *Extras, wanted, got bool) {
	if wanted {
		sum.Wanted++
	}
	switch {
	case wanted && got:
		sum.Found++
	case wanted:
		t.fault(s, "the %s isn't found", name)
	case got:
		sum.Invented++
		t.fault(s, "the %s is invented", name)
	}
}

// String says it in a few lines.
func (t *Tally) String() string {
	reported := t.Found + t.False
	return fmt.Sprintf(`%d scenes: %d of %d families found (%.1f %%), false %d on empty scenes and %d of %d elsewhere (%.1f %%), %d not scored
lightness: worst %.2f L*, %d of %d sides beyond %.1f; turn: worst %.1f degrees, %d of %d beyond %d or missing
toward black: %d not said, %d wrongly said; accents %d of %d, %d off, %d invented; lines %d of %d, %d invented; %d places off their side`,
		t.Scenes, t.Found, t.Scored, 100*share(t.Found, t.Scored), t.OnEmpty, t.False, reported, 100*share(t.False, reported), t.Ignored,
		t.WorstLightness, t.OffLightness, t.Sides, mostLightness, t.WorstTurn, t.OffTurn, t.Turns, mostTurn,
		t.FlagsMissing, t.FlagsWrong, t.Accents.Found, t.Accents.Wanted, t.OffAccents, t.Accents.Invented,
		t.Lines.Found, t.Lines.Wanted, t.Lines.Invented, t.Misplaced)
}

// turn returns the way from one angle to another, (-180, 180] degrees.
func turn(from, to float64) float64 {
	d := math.Mod(to-from, 360)
	switch {
	case d > 180:
		d -= 360
	case d <= -180:
		d += 360
	}
	return d
}
