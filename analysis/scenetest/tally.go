package scenetest

import (
	"fmt"
	"math"
	"strings"
)

// Tally sums up results over many scenes, in the figures that a finder has to reach.
type Tally struct {
	Scenes, Scored, Found int
	OnEmpty               int // reports on empty scenes
	FalseElsewhere        int
	Reported              int // on scenes that aren't empty: found and false
	Ignored               int

	WorstLightness float64 // L*, the largest miss of a side
	OffLightness   int     // sides that miss by more than 1.5 L*
	OffBoth        int     // those that miss by more than that without the soft terminator too
	Sides          int
	WorstTurn      float64 // degrees
	OffTurn        int     // turns that miss by more than 4 degrees, or are missing
	Turns          int

	FlagsRight, FlagsMissing, FlagsWrong int // toward black
	Accents, Lines                       Extras
	Misplaced                            int
	OffAccents                           int // accents that miss by more than 1.5 L*
}

// The figures to reach: L* of a side and degrees of a turn.
const (
	mostLightness = 1.5
	mostTurn      = 4
)

// Add counts a scene's result.
func (t *Tally) Add(s *Scene, r Result) {
	t.Scenes++
	t.Scored += r.Scored
	t.Found += len(r.Found)
	t.Ignored += r.Ignored
	t.Misplaced += r.Misplaced
	if s.Empty {
		t.OnEmpty += len(r.False)
	} else {
		t.FalseElsewhere += len(r.False)
		t.Reported += len(r.Found) + len(r.False)
	}
	for _, m := range r.Found {
		t.match(m)
	}
	t.Accents.sum(r.Accents)
	t.Lines.sum(r.Lines)
}

func (t *Tally) match(m Match) {
	for _, side := range [][2]float64{{m.LightOff, m.LightCore}, {m.ShadowOff, m.ShadowCore}} {
		off, core := math.Abs(side[0]), math.Abs(side[1])
		t.Sides++
		t.WorstLightness = max(t.WorstLightness, off)
		if off > mostLightness {
			t.OffLightness++
		}
		if min(off, core) > mostLightness {
			t.OffBoth++
		}
	}
	if m.ToneOfAccent != nil && math.Abs(*m.ToneOfAccent) > mostLightness {
		t.OffAccents++
	}
	switch {
	case m.TurnMissing:
		t.Turns++
		t.OffTurn++
	case m.TurnOff != nil:
		t.Turns++
		t.WorstTurn = max(t.WorstTurn, math.Abs(*m.TurnOff))
		if math.Abs(*m.TurnOff) > mostTurn {
			t.OffTurn++
		}
	}
	switch m.TowardBlack {
	case FlagRight:
		t.FlagsRight++
	case FlagMissing:
		t.FlagsMissing++
	case FlagWrong:
		t.FlagsWrong++
	}
}

func (e *Extras) sum(f Extras) {
	e.Wanted += f.Wanted
	e.Found += f.Found
	e.Invented += f.Invented
}

// String says it in a few lines.
func (t *Tally) String() string {
	var b strings.Builder
	fmt.Fprintf(&b, "%d scenes: %d of %d families found (%.1f %%), false %d on empty scenes and %d of %d elsewhere (%.1f %%), %d not scored\n",
		t.Scenes, t.Found, t.Scored, 100*share(t.Found, t.Scored), t.OnEmpty, t.FalseElsewhere, t.Reported,
		100*share(t.FalseElsewhere, t.Reported), t.Ignored)
	fmt.Fprintf(&b, "lightness: worst %.2f L*, %d of %d sides beyond %.1f, %d of them without the terminator too; turn: worst %.1f degrees, %d of %d beyond %d or missing\n",
		t.WorstLightness, t.OffLightness, t.Sides, mostLightness, t.OffBoth, t.WorstTurn, t.OffTurn, t.Turns, mostTurn)
	fmt.Fprintf(&b, "toward black: %d right, %d not said, %d wrongly said; accents %d of %d, %d off, %d invented; lines %d of %d, %d invented; %d places off their side",
		t.FlagsRight, t.FlagsMissing, t.FlagsWrong, t.Accents.Found, t.Accents.Wanted, t.OffAccents, t.Accents.Invented,
		t.Lines.Found, t.Lines.Wanted, t.Lines.Invented, t.Misplaced)
	return b.String()
}

// String says what is worth looking at in a result: nothing if all is right.
func (r Result) String() string {
	var b strings.Builder
	for _, m := range r.Missed {
		fmt.Fprintf(&b, "missed %s: %s\n", m.Family, m.Why)
	}
	for _, f := range r.False {
		fmt.Fprintf(&b, "false: %s\n", f)
	}
	for _, m := range r.Found {
		if max(math.Abs(m.LightOff), math.Abs(m.ShadowOff)) > mostLightness {
			fmt.Fprintf(&b, "%s: light off by %.1f L* (core %.1f), shadow by %.1f (core %.1f)\n",
				m.Family, m.LightOff, m.LightCore, m.ShadowOff, m.ShadowCore)
		}
		if m.ToneOfAccent != nil && math.Abs(*m.ToneOfAccent) > mostLightness {
			fmt.Fprintf(&b, "%s: accent off by %.1f L*\n", m.Family, *m.ToneOfAccent)
		}
		if m.TurnMissing {
			fmt.Fprintf(&b, "%s: no turn given\n", m.Family)
		}
		if m.TurnOff != nil && math.Abs(*m.TurnOff) > mostTurn {
			fmt.Fprintf(&b, "%s: turn off by %.1f degrees\n", m.Family, *m.TurnOff)
		}
		switch m.TowardBlack {
		case FlagMissing:
			fmt.Fprintf(&b, "%s: goes toward black, which isn't said\n", m.Family)
		case FlagWrong:
			fmt.Fprintf(&b, "%s: is wrongly said to go toward black\n", m.Family)
		}
	}
	if r.Accents.Found < r.Accents.Wanted || r.Accents.Invented > 0 {
		fmt.Fprintf(&b, "accents: %d of %d, %d invented\n", r.Accents.Found, r.Accents.Wanted, r.Accents.Invented)
	}
	if r.Lines.Found < r.Lines.Wanted || r.Lines.Invented > 0 {
		fmt.Fprintf(&b, "lines: %d of %d, %d invented\n", r.Lines.Found, r.Lines.Wanted, r.Lines.Invented)
	}
	if r.Misplaced > 0 {
		fmt.Fprintf(&b, "%d places lie off their side\n", r.Misplaced)
	}
	return strings.TrimSuffix(b.String(), "\n")
}
