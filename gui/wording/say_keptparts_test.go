package wording

import (
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"app.tonedesk/analysis"
	"app.tonedesk/gui/stills"
	"app.tonedesk/gui/stills/notes"
)

// A time is said by its day, as the calendar has it, not by hours gone by.
func TestSayWhen(t *testing.T) {
	at := func(day, hour, minute int) time.Time {
		return time.Date(2026, 3, day, hour, minute, 0, 0, time.Local)
	}
	now := at(15, 0, 10)
	for want, when := range map[string]time.Time{
		"today 00:09": at(15, 0, 9), "yesterday 23:59": at(14, 23, 59), "yesterday 00:00": at(14, 0, 0),
		"2026-03-13 23:59": at(13, 23, 59), "2026-03-16 09:00": at(16, 9, 0),
	} {
		if got := SayWhen(when, now); got != want {
			t.Errorf("%v is said as %q, want %q", when, got, want)
		}
	}
	for want, m := range map[[2]string]stills.Meta{
		{"flats", "today 00:09"}:   {Name: "flats", Time: at(15, 0, 9)},
		{"today 00:09", "no name"}: {Time: at(15, 0, 9)},
		{"today 00:09", "2 notes"}: {Time: at(15, 0, 9), Notes: stills.Summary{Count: 2}},
	} {
		if name, when := SayKept(m, now); name != want[0] || plain(when) != want[1] {
			t.Errorf("%+v is said as %q, %q", m, name, when)
		}
	}
}

func plain(words string) string { return strings.ReplaceAll(words, Nbsp, " ") }

// What went from one group is what came to the other, and shares add up to 100 before and now. L*
// 0 and 100 have the values 0 and 10 (ASTM D1535).
func TestSayGroupRows(t *testing.T) {
	c := &analysis.Change{Counted: 100, Altered: 0.174,
		Groups: []analysis.GroupChange{{Name: "dark", Share: 0.084, Before: 0, After: 0}, {Name: "light", Share: 0.916, Before: 100, After: math.NaN()}},
		Moves:  []analysis.Move{{From: "light", To: "dark", Share: 0.13}, {From: "dark", To: "light", Share: 0.002}},
	}
	want := []GroupRow{{"light", "92 %", "79 %", "10.0 → none"}, {"dark", "8 %", "21 %", "0.0"}}
	got := SayGroupRows(c, false)
	for i := range got {
		got[i] = GroupRow{got[i].Name, plain(got[i].Before), plain(got[i].Now), plain(got[i].Value)}
	}
	if !slices.Equal(got, want) {
		t.Errorf("the rows are %+v, want %+v", got, want)
	}
	if got := SayGroupRows(c, true); plain(got[1].Value) != "10.0" {
		t.Errorf("counted from white, dark has the value %q", got[1].Value)
	}
	for _, tt := range []struct {
		change analysis.Change
		want   []string
	}{
		{*c, []string{"17 % of the picture changed.", "13 % of the picture went from light to dark."}},
		{analysis.Change{Counted: 9, Altered: 0.02, Moves: []analysis.Move{{From: "dark", To: "light", Share: 0.004}}}, []string{"2 % of the picture changed."}},
		{analysis.Change{Counted: 9}, []string{"Nothing changed by more than a quarter of a tone."}},
		{analysis.Change{}, nil},
	} {
		lines := SayWentWhere(&tt.change)
		for i := range lines {
			lines[i] = plain(lines[i])
		}
		if !slices.Equal(lines, tt.want) {
			t.Errorf("said %q, want %q", lines, tt.want)
		}
	}
}

// A spot's reading is its value; painted shadow reads once both sides are there.
func TestSayReading(t *testing.T) {
	spot := notes.Spot{Reading: analysis.Spot{Value: 5.48}}
	both := notes.Measured{Light: &analysis.Spot{}, Shadow: &analysis.Spot{}, Tones: -2.52}
	for _, tt := range []struct {
		shape    notes.Shape
		measured notes.Measured
		want     string
	}{
		{spot, notes.Measured{}, "value 5.5"}, {notes.Area{Side: notes.Shadow}, both, "2.5 tones"}, {notes.Area{Side: notes.Light}, both, ""},
		{notes.Area{Side: notes.Shadow}, notes.Measured{Light: &analysis.Spot{}}, ""}, {notes.Arrow{}, both, ""},
	} {
		if got := plain(SayReading(tt.shape, tt.measured, false)); got != tt.want {
			t.Errorf("%T reads %q, want %q", tt.shape, got, tt.want)
		}
	}
}
