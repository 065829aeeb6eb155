package wording

import (
	"math"
	"strings"
	"testing"
	"time"

	"app.tonedesk/analysis"
)

func TestTenth(t *testing.T) {
	for _, tt := range []struct {
		v    float64
		want string
	}{
		{74.12, "74.1"}, {0, "0.0"}, {100, "100.0"}, {7.25, "7.3"}, {-2.2, "−2.2"},
		{-0.04, "0.0"}, {math.Copysign(0, -1), "0.0"}, {math.NaN(), "–"}, {math.Inf(-1), "–"},
	} {
		if got := Tenth(tt.v); got != tt.want {
			t.Errorf("Tenth(%g) = %q, want %q", tt.v, got, tt.want)
		}
	}
}

// What is shown must not contradict the verdict, whose limits round by AsPrinted.
func FuzzTenthIsAsPrinted(f *testing.F) {
	f.Add(2.05)
	f.Add(-5.25)
	f.Fuzz(func(t *testing.T, v float64) {
		if math.IsNaN(v) || math.Abs(v) > 1e6 {
			t.Skip("nothing measured is so large")
		}
		s := Tenth(v)
		if a, b := Tenth(analysis.AsPrinted(v)), s; a != b {
			t.Errorf("%g is shown as %s, as printed it is %s", v, b, a)
		}
		if whole, tenth, ok := strings.Cut(s, "."); !ok || whole == "" || len(tenth) != 1 || strings.Contains(s, "-") {
			t.Errorf("%g is shown as %q", v, s)
		}
	})
}

func TestFigures(t *testing.T) {
	hue := func(v float64) *float64 { return &v }
	for _, tt := range []struct{ got, want string }{
		{Whole(182.6), "183"}, {Whole(0), "0"}, {Whole(-0.2), "0"}, {Whole(-3), "−3"}, {Whole(math.NaN()), "–"},
		{Percent(0.241), "24\u00a0%"}, {Percent(1), "100\u00a0%"}, {Percent(0), "0\u00a0%"},
		{Percent(0.004), "<1\u00a0%"}, {Percent(0.005), "1\u00a0%"}, {Percent(math.NaN()), "–"},
		{SayWorkspace(0.29, true), "A plain frame, 29\u00a0% of the region. Leave it out?"},
		{SayWorkspace(0.004, false), "A plain frame, <1\u00a0% of the picture. Leave it out?"},
		{SayStrip(false, 0.29)[0], "71\u00a0% would be counted"}, {SayStrip(true, 0.29)[0], "the last picture"}, {SayStrip(false, 0)[0], ""},
		{SayCounted(0.72), "72\u00a0% counted"}, {SayCounted(0.9999), "99\u00a0% counted"}, {SayCounted(0.001), "<1\u00a0% counted"}, {SayCounted(0), "0\u00a0% counted"}, {SayCounted(1), ""}, {SayCounted(math.NaN()), ""},
		{ValueSay(7.3, false), "7.3"}, {ValueSay(7.3, true), "2.7"}, {ValueSay(0, true), "10.0"}, {ValueSay(10, true), "0.0"},
		{HueSay(nil), "–"}, {HueSay(hue(60.74)), "60.7"}, {HueSay(hue(359.97)), "0.0"}, {HueSay(hue(0)), "0.0"},
		{SizeSay(1280, 720), "1280\u00a0×\u00a0720"},
	} {
		if tt.got != tt.want {
			t.Errorf("got %q, want %q", tt.got, tt.want)
		}
	}
}

func TestAge(t *testing.T) {
	for _, tt := range []struct {
		age  time.Duration
		want string
	}{
		{-time.Hour, "under 1 s"}, {0, "under 1 s"}, {999 * time.Millisecond, "under 1 s"}, {time.Second, "1 s"},
		{9999 * time.Millisecond, "9 s"}, {19 * time.Second, "10 s"}, {59 * time.Second, "50 s"},
		{time.Minute, "1 min"}, {119 * time.Second, "1 min"}, {59 * time.Minute, "59 min"},
		{time.Hour, "1 h"}, {1000 * time.Hour, "1000 h"},
	} {
		if got := strings.ReplaceAll(Age(tt.age), Nbsp, " "); got != tt.want {
			t.Errorf("Age(%v) = %q, want %q", tt.age, got, tt.want)
		}
	}
}

// By hand, by the method of the largest remainder.
func TestGroupShares(t *testing.T) {
	for _, tt := range []struct {
		shares []float64
		want   []string
	}{
		{[]float64{0.125, 0.125, 0.75}, []string{"13", "12", "75"}},
		{[]float64{0.774, 0.115, 0.111}, []string{"77", "12", "11"}},
		{[]float64{1. / 3, 1. / 3, 1. / 3}, []string{"34", "33", "33"}},
		{[]float64{0.5, 0.5, 0}, []string{"50", "50", "0"}},
		{[]float64{0.003, 0.997}, []string{"<1", "100"}},
		{nil, nil},
	} {
		var groups []analysis.Group
		for _, s := range tt.shares {
			groups = append(groups, analysis.Group{Share: s})
		}
		for i, got := range GroupShares(groups) {
			if got != tt.want[i]+Nbsp+"%" {
				t.Errorf("%v: %q", tt.shares, got)
				break
			}
		}
	}
}

func TestRateSay(t *testing.T) {
	for rate, want := range map[float64]string{10: "10\u00a0a\u00a0second", 2.5: "2.5\u00a0a\u00a0second", 1: "1\u00a0a\u00a0second", 0: "automatic"} {
		if got := RateSay(rate); got != want {
			t.Errorf("%g: %q", rate, got)
		}
	}
}
