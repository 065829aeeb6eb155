package analysis

import (
	"testing"

	"app.tonedesk/analysis/internal/testkit"
)

// From 3 a little, from 8 clearly (common practice, no source), as printed.
func TestSeenHintLimits(t *testing.T) {
	tests := []struct {
		added float64
		want  SeenHint
	}{
		{-1, SeenAlike}, {0, SeenAlike}, {2.94, SeenAlike}, {2.96, SeenLittle}, {3, SeenLittle},
		{7.94, SeenLittle}, {7.96, SeenClearly}, {8, SeenClearly}, {44, SeenClearly},
	}
	for _, tt := range tests {
		s := Spot{Lightness: 50, SeenLightness: 50 + tt.added}
		if got := s.SeenHint(); got != tt.want {
			t.Errorf("%g added: %d, want %d", tt.added, got, tt.want)
		}
	}
}

// Source: helmholtz_kohlrausch.csv (HGN23): what is added to each colour.
func TestSeenHintByThePublishedFormula(t *testing.T) {
	tab := testkit.ReadTable(t, "helmholtz_kohlrausch.csv")
	count := map[SeenHint]int{}
	for _, row := range tab.Rows {
		s := SpotOf(colourOf(t, tab, row))
		tab.Check(row, "hgn23_add", s.SeenLightness-s.Lightness, 1e-3)
		want := SeenAlike
		switch added := AsPrinted(tab.Number(row, "hgn23_add")); {
		case added >= 8:
			want = SeenClearly
		case added >= 3:
			want = SeenLittle
		}
		count[want]++
		if got := s.SeenHint(); got != want {
			t.Errorf("%s: hint %d, want %d", row[0], got, want)
		}
	}
	if count[SeenAlike] == 0 || count[SeenLittle] == 0 || count[SeenClearly] == 0 {
		t.Errorf("not every hint is tested: %v", count)
	}
}
