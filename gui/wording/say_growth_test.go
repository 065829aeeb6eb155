package wording_test

import (
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/growth"
	"app.tonedesk/gui/wording"
)

// growthLineOf is a line that changed from one figure to another.
func growthLineOf(k growth.Kind, from, to float64, throughout bool) growth.Line {
	return growth.Line{
		Kind: k, Group: "dark", Lighter: "light middle", LocalColour: new(int), Values: []float64{from, math.NaN(), from, to},
		Turn: &growth.Turn{At: 2, From: from, To: to, Change: to - from, Throughout: throughout},
	}
}

// What is said of a line, whichever way it goes.
func TestSayGrowth(t *testing.T) {
	start := time.Date(2026, 3, 1, 21, 20, 0, 0, time.Local)
	var moments []growth.Moment
	var times []time.Time
	for i := range 4 {
		moments = append(moments, growth.Moment{At: start.Add(time.Duration(i) * 10 * time.Minute)})
		times = append(times, moments[i].At)
	}
	skin := growth.LocalColour{Light: analysis.SpotOf(colour.RGB{R: 0xe2, G: 0xab, B: 0x85})}
	for want, l := range map[string]growth.Line{
		"since 21:40 dark has grown by 12 % of the picture":                                        growthLineOf(growth.GroupShare, 0.2, 0.32, false),
		"since 21:40 dark and light middle have drawn together by 0.8 tones":                       growthLineOf(growth.Gap, 2.8, 2, false),
		"since 21:40 dark and light middle have moved apart by 0.8 tones":                          growthLineOf(growth.Gap, 2, 2.8, false),
		"since 21:40 the picture has become 0.7 tones darker":                                      growthLineOf(growth.MeanValue, 5.7, 5, false),
		"since 21:40 the murk has shrunk by 6 % of the picture":                                    growthLineOf(growth.Murk, 0.1, 0.04, false),
		"since 21:40 light and shadow of the orange #e2ab85 have moved apart by 0.6 tones":         growthLineOf(growth.Tones, 2, 2.6, false),
		"since 21:40 the hue shift of the orange #e2ab85 has gone from −2° to +12°":                growthLineOf(growth.HueShift, -2.2, 12.4, false),
		"since 21:40 lost edges have grown by 40 % of the width":                                   growthLineOf(growth.LostEdges, 0.1, 0.5, false),
		"since 21:40 the picture has come nearer to the target by 0.9 tones":                       growthLineOf(growth.Distance, 1.4, 0.5, false),
		"from the first picture on, 21:40, dark and light middle have drawn together by 0.8 tones": growthLineOf(growth.Gap, 2.8, 2, true),
	} {
		s := &growth.Series{Moments: moments, LocalColours: []growth.LocalColour{skin}, Lines: []growth.Line{l}}
		text := wording.SayGrowth(s, wording.MomentNames(times), false)
		if got := strings.ReplaceAll(text.Title, wording.Nbsp, " "); got != want {
			t.Errorf("%q, want %q", got, want)
		}
		if got := strings.ReplaceAll(text.About, wording.Nbsp, " "); got != "4 pictures, 21:20 to 21:50" {
			t.Errorf("%q", got)
		}
		drawn := text.Lines[0]
		if len(drawn.Points) != 3 || !drawn.Points[1].Gap || drawn.Points[2].Gap || drawn.Points[0].X != 0 || drawn.Points[2].X != 1 {
			t.Errorf("%q: points %+v", want, drawn.Points)
		}
		if turn := 1; l.Turn.Throughout && drawn.Turn != -1 || !l.Turn.Throughout && drawn.Turn != turn {
			t.Errorf("%q: marked at %d", want, drawn.Turn)
		}
		for _, p := range drawn.Points {
			if !(0 <= p.Y && p.Y <= 1) {
				t.Errorf("%q: points %+v", want, drawn.Points)
			}
		}
	}
	if text := wording.SayGrowth(&growth.Series{}, nil, false); text.Title == "" || len(text.More)+len(text.Lines) != 0 {
		t.Errorf("of nothing: %+v", text)
	}
}

// Values count from white where the painter wants that.
func TestGrowthFromWhite(t *testing.T) {
	s := &growth.Series{Moments: make([]growth.Moment, 2), Lines: []growth.Line{{Kind: growth.MeanValue, Values: []float64{3, 4}}}}
	for fromWhite, want := range map[bool]string{false: "3.0 4.0", true: "7.0 6.0"} {
		if l := wording.SayGrowth(s, []string{"a", "b"}, fromWhite).Lines[0]; l.First+" "+l.Last != want {
			t.Errorf("%s %s, want %s", l.First, l.Last, want)
		}
	}
}

// Moments have names by which they are told apart.
func TestMomentNames(t *testing.T) {
	at := func(day, hour, minute, second int) time.Time {
		return time.Date(2026, 3, day, hour, minute, second, 0, time.Local)
	}
	for _, tt := range []struct {
		times []time.Time
		want  []string
	}{
		{nil, nil},
		{[]time.Time{at(1, 9, 5, 0), at(1, 21, 40, 0)}, []string{"09:05", "21:40"}},
		{[]time.Time{at(1, 21, 40, 0), at(2, 9, 5, 0)}, []string{"1 Mar 21:40", "2 Mar 09:05"}},
		{[]time.Time{at(1, 21, 40, 7), at(1, 21, 40, 30)}, []string{"21:40:07", "21:40:30"}},
	} {
		got := wording.MomentNames(tt.times)
		for i := range got {
			got[i] = strings.ReplaceAll(got[i], wording.Nbsp, " ")
		}
		if !slices.Equal(got, tt.want) {
			t.Errorf("%q, want %q", got, tt.want)
		}
	}
}
