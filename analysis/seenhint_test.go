package analysis

import "testing"

// Limits belong to the stronger hint, and the number as printed counts (common practice, no
// source: 3 and 8).
func TestHintLimits(t *testing.T) {
	tests := []struct {
		added float64
		want  SeenHint
	}{
		{-1, SeenAlike}, {0, SeenAlike}, {2.94, SeenAlike}, {2.96, SeenLittle}, {3, SeenLittle},
		{7.94, SeenLittle}, {7.96, SeenClearly}, {8, SeenClearly}, {40, SeenClearly},
	}
	for _, tt := range tests {
		if got := (Spot{Lightness: 50, SeenLightness: 50 + tt.added}).SeenHint(); got != tt.want {
			t.Errorf("%g added: hint %d, want %d", tt.added, got, tt.want)
		}
	}
}

// What is said agrees with helmholtz_kohlrausch.csv (HGN23).
func TestHintAsPublished(t *testing.T) {
	tab := readTable(t, "helmholtz_kohlrausch.csv")
	said := map[SeenHint]int{}
	for _, row := range tab.rows {
		want := SeenAlike
		switch added := tab.number(row, "hgn23_add"); {
		case added >= 7.95:
			want = SeenClearly
		case added >= 2.95:
			want = SeenLittle
		}
		said[want]++
		if got := SpotOf(tab.colour(row)).SeenHint(); got != want {
			t.Errorf("%s: hint %d, want %d", tab.cell(row, "name"), got, want)
		}
	}
	if len(said) != 3 {
		t.Errorf("tested %v", said)
	}
}
