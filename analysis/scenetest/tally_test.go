package scenetest

import (
	"strings"
	"testing"
)

// A tally counts what its results say, and keeps empty scenes apart.
func TestTally(t *testing.T) {
	off := 5.0
	var tally Tally
	tally.Add(&Scene{}, Result{
		Scored: 3, Missed: []Miss{{"a", "b"}}, False: []string{"x"},
		Found: []Match{
			{LightOff: -2, TurnOff: &off, TowardBlack: FlagWrong},
			{ShadowOff: 1, TurnMissing: true, TowardBlack: FlagMissing},
		},
		Accents: Extras{Wanted: 1, Found: 1}, Lines: Extras{Invented: 1},
	})
	tally.Add(&Scene{Empty: true}, Result{False: []string{"y", "z"}})
	want := Tally{
		Scenes: 2, Scored: 3, Found: 2, OnEmpty: 2, FalseElsewhere: 1, Reported: 3,
		WorstLightness: 2, OffLightness: 1, Sides: 4, WorstTurn: 5, OffTurn: 2, Turns: 2,
		FlagsMissing: 1, FlagsWrong: 1, Accents: Extras{Wanted: 1, Found: 1}, Lines: Extras{Invented: 1},
	}
	if tally != want {
		t.Errorf("tally %+v, want %+v", tally, want)
	}
	if got := tally.String(); !strings.Contains(got, "2 of 3 families found (66.7 %)") {
		t.Error(got)
	}
}
