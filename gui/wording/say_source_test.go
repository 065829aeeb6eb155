package wording

import (
	"testing"
	"time"

	"app.tonedesk/analysis/views"
	"app.tonedesk/capture"
)

// The words of every state: they describe what is watched as the window's plan has them.
func TestSayState(t *testing.T) {
	for _, tt := range []struct {
		name       string
		state      SourceState
		long, word string
	}{
		{"waiting", SourceState{State: capture.Waiting}, "waiting", "waiting"},
		{"live", SourceState{State: capture.Live, Rate: 10}, "live, 10 a second", "live"},
		{"live, as often as it pays", SourceState{State: capture.Live}, "live, automatic", "live"},
		{"unchanged", SourceState{State: capture.Unchanged, Age: 34 * time.Second}, "unchanged for 30 s", "unchanged"},
		{"covered", SourceState{State: capture.Hidden}, "covered", "covered"},
		{"minimised", SourceState{State: capture.Minimised, Partly: true}, "minimised", "minimised"},
		{"partly covered", SourceState{State: capture.Unchanged, Partly: true}, "partly covered", "covered"},
		{"lost", SourceState{State: capture.Gone, Age: 130 * time.Second, Partly: true}, "lost 2 min ago", "lost"},
		{"lost at once", SourceState{State: capture.Gone}, "lost just now", "lost"},
		{"unchanged at once", SourceState{State: capture.Unchanged}, "unchanged", "unchanged"},
		{"not answering", SourceState{State: capture.NotAnswering}, "not answering", "no answer"},
		{"frozen", SourceState{State: capture.NotAnswering, Frozen: true, Age: 42 * time.Second}, "frozen, 42 s old", "frozen"},
	} {
		got := tt.state.SayState()
		if plainSpaces(got[0]) != tt.long || plainSpaces(got[1]) != tt.long || got[2] != tt.word {
			t.Errorf("%s: %q", tt.name, got)
		}
	}
	sized := SourceState{State: capture.Live, Rate: 10, Width: 1200, Height: 900}.SayState()
	if got := plainSpaces(sized[0]); got != "1200 × 900, live, 10 a second" {
		t.Errorf("with its size: %q", got)
	}
}

func TestSayStillKept(t *testing.T) {
	now := time.Date(2026, 3, 4, 23, 30, 0, 0, time.Local)
	for _, tt := range []struct {
		kept time.Time
		want string
	}{
		{now.Add(-89 * time.Minute), "still, today 22:01"},
		{now.Add(-24 * time.Hour), "still, 2026-03-03"},
	} {
		if got := (SourceState{}).SayStill(tt.kept, now); plainSpaces(got[1]) != tt.want || got[2] != "still" {
			t.Errorf("says %q, want %q", got, tt.want)
		}
	}
}

func TestSayKnobShort(t *testing.T) {
	for _, tt := range []struct {
		knob views.Knob
		at   float64
		want string
	}{
		{views.Knob{Name: "Bands"}, 5, "5 steps"},
		{views.Knob{Name: "Blur", Unit: "%"}, 1.5, "Blur 1.5 %"},
	} {
		if got := plainSpaces(SayKnobShort(tt.knob, tt.at)); got != tt.want {
			t.Errorf("says %q, want %q", got, tt.want)
		}
	}
}
