package widgets

import (
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"pgregory.net/rapid"

	"app.tonedesk/analysis"
	_ "app.tonedesk/analysis/lawtest"
	"app.tonedesk/gui/settings"
	"app.tonedesk/gui/wording"
)

// sixWide measures words as a font of even letters, six units wide, would.
func sixWide(words string) float32 { return 6 * float32(len([]rune(words))) }

func TestGroupLabels(t *testing.T) {
	four := fourGroups(nil).Groups
	thin := []analysis.Group{
		{Name: "dark", From: 0, To: 80, Share: 0.7}, {Name: "dark middle", From: 80, To: 82, Share: 0.1},
		{Name: "light middle", From: 82, To: 84, Share: 0.1}, {Name: "light", From: 84, To: 100, Share: 0.1},
	}
	for _, tt := range []struct {
		name   string
		groups []analysis.Group
		width  float32
		lines  int
		want   string
	}{
		{"two lines, room for all but one", four, 364, 2, "21 %/dark|23 %/dark middle|34 %/|22 %/light"},
		{"one line", four, 364, 1, "dark 21 %|23 %|34 %|22 %"},
		{"narrow", four, 304, 2, "21 %/dark|23 %/dark mid|34 %/|22 %/light"},
		{"groups narrower than their shares", thin, 400, 2, "70 %/dark|/|/|10 %/light"},
		{"one group", []analysis.Group{{Name: "middle", To: 100, Share: 1}}, 364, 1, "middle 100 %"},
		{"none", nil, 364, 2, ""},
	} {
		var words []string
		for _, l := range groupLabels(tt.groups, tt.width, tt.lines, sixWide) {
			said := l.upper(tt.lines)
			if tt.lines == 2 {
				said += "/" + l.lower(tt.lines)
			}
			words = append(words, strings.ReplaceAll(said, wording.Nbsp, " "))
		}
		if got := strings.Join(words, "|"); got != tt.want {
			t.Errorf("%s: %s, want %s", tt.name, got, tt.want)
		}
	}
}

// Whatever the groups, the width and the size of text: words lie over their groups, clear of each
// other and of the grips.
func TestGroupLabelsApart(t *testing.T) {
	app := test.NewTempApp(t)
	for _, percent := range watchTexts {
		app.Settings().SetTheme(NewTheme(settings.ThemeDark, percent))
		rapid.Check(t, func(t *rapid.T) {
			width := float32(rapid.IntRange(304, 484).Draw(t, "width"))
			cuts := rapid.SliceOfN(rapid.Float64Range(0, 100), 3, 3).Draw(t, "borders")
			slices.Sort(cuts)
			groups := slices.Clone(fourGroups(nil).Groups)
			for i, c := range cuts {
				groups[i].To, groups[i+1].From = c, c
			}
			for lines := 1; lines <= 2; lines++ {
				for i, l := range groupLabels(groups, width, lines, smallWidth) {
					for _, words := range []string{l.upper(lines), l.lower(lines)} {
						left, right := l.middle-smallWidth(words)/2, l.middle+smallWidth(words)/2
						if words == "" {
							continue
						}
						if i > 0 && left < spreadX(groups[i].From, width)+gripWidth/2 || i < 3 && right > spreadX(groups[i].To, width)-gripWidth/2 || left < 0 || right > width {
							t.Fatalf("%q from %g to %g over a group from %g to %g of %g", words, left, right, spreadX(groups[i].From, width), spreadX(groups[i].To, width), width)
						}
					}
				}
			}
		})
	}
}

func TestSpreadLines(t *testing.T) {
	test.NewTempApp(t).Settings().SetTheme(NewTheme(settings.ThemeDark, 100))
	for _, tt := range []struct {
		height float32
		few    bool
		want   int
	}{{131, false, 2}, {131, true, 1}, {80, false, 1}, {100, false, 2}} {
		if got := spreadLines(tt.height, tt.few); got != tt.want {
			t.Errorf("%g high, few %v: %d lines", tt.height, tt.few, got)
		}
	}
}

func TestLetterPlaces(t *testing.T) {
	const wide = 10
	for _, tt := range []struct {
		name    string
		xs      []float32
		offsets []float32
		levels  []int
	}{
		{"none", nil, []float32{}, []int{}},
		{"far apart: right of their lines", []float32{100, 20, 300}, []float32{3, 3, 3}, []int{0, 0, 0}},
		{"two near: the left one at its left", []float32{105, 100}, []float32{3, -13}, []int{0, 0}},
		{"in one place: on both sides", []float32{50, 50}, []float32{-13, 3}, []int{0, 0}},
		{"at the right end", []float32{355}, []float32{-13}, []int{0}},
	} {
		offsets, levels := letterPlaces(tt.xs, wide, 364)
		if !slices.Equal(offsets, tt.offsets) || !slices.Equal(levels, tt.levels) {
			t.Errorf("%s: %v, %v", tt.name, offsets, levels)
		}
	}
}

// Letters of up to eight spots never lie on each other.
func TestLettersApart(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		const wide, width = 11, 304
		xs := rapid.SliceOfN(rapid.Float32Range(12, 292), 1, 8).Draw(t, "marks")
		offsets, levels := letterPlaces(xs, wide, width)
		for i := range xs {
			from := xs[i] + offsets[i]
			if from < 0 || from+wide > width {
				t.Fatalf("letter %d from %g", i, from)
			}
			for j := range i {
				if other := xs[j] + offsets[j]; levels[i] == levels[j] && from < other+wide && other < from+wide {
					t.Fatalf("letters %d and %d lie on each other: %v, %v", j, i, offsets, levels)
				}
			}
		}
	})
}

// A press takes hold of a border up to 16 from it, of the nearer where two are near.
func TestBorderReach(t *testing.T) {
	test.NewTempApp(t).Settings().SetTheme(NewTheme(settings.ThemeDark, 100))
	s := NewSpread(SpreadActs{})
	state := fourGroups(nil)
	state.Groups[1].To, state.Groups[2].From = 47.4, 47.4 // 20 from the first
	s.Set(state)
	s.Resize(fyne.NewSize(364, 131))
	first := s.X(41.4)
	for off, want := range map[float32]int{-16: 0, -17: -1, 0: 0, 9: 0, 12: 1, 36: 1, 38: -1} {
		if got := s.borderAt(first + off); got != want {
			t.Errorf("%g from the first border: border %d, want %d", off, got, want)
		}
	}
}
