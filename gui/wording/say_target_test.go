package wording

import (
	"math"
	"strings"
	"testing"

	"app.tonedesk/analysis"
)

// matchOf is how a picture stands to a target, both given as pixels of L* 0, 50 and 100.
func matchOf(picture, target [3]int) analysis.Match {
	read := func(counts [3]int) *analysis.Reading {
		var pix []byte
		for i, grey := range []byte{0, 119, 255} {
			for range counts[i] {
				pix = append(pix, grey, grey, grey, 255)
			}
		}
		return analysis.Read(analysis.Pixels{Pix: pix, Stride: len(pix), Width: len(pix) / 4, Height: 1}, analysis.Options{Groups: 3})
	}
	return analysis.NewTarget(read(target)).Match(read(picture))
}

func TestSayTarget(t *testing.T) {
	tests := []struct {
		name            string
		picture, target [3]int
		want            string
	}{
		{"more middle", [3]int{20, 54, 26}, [3]int{30, 40, 30}, "14 % more middle, 10 % less dark, 4 % less light"},
		{"the same", [3]int{30, 40, 30}, [3]int{3, 4, 3}, "Shared as in the target"},
		{"too little to print", [3]int{3000, 4004, 2996}, [3]int{3, 4, 3}, "Shared as in the target"},
		{"one group is right", [3]int{40, 40, 20}, [3]int{30, 40, 30}, "10 % more dark, 10 % less light"},
		{"six tenths round up", [3]int{206, 394, 400}, [3]int{20, 40, 40}, "1 % more dark, 1 % less middle"},
		{"nothing", [3]int{}, [3]int{3, 4, 3}, "Nothing to compare with the target"},
	}
	for _, tt := range tests {
		if got := strings.ReplaceAll(SayTarget(matchOf(tt.picture, tt.target)), Nbsp, " "); got != tt.want {
			t.Errorf("%s: %q, want %q", tt.name, got, tt.want)
		}
	}
}

// By hand: half of the pixels go from black to white, ten tones.
func TestSayTargetDistance(t *testing.T) {
	for m, want := range map[analysis.Match]string{
		matchOf([3]int{2, 0, 2}, [3]int{0, 0, 7}): "5.0 tones from it on average",
		matchOf([3]int{1, 2, 3}, [3]int{1, 2, 3}): "0.0 tones from it on average",
		{Distance: math.NaN()}:                    "The spread can't be compared with the target's",
	} {
		if got := strings.ReplaceAll(SayTargetDistance(m), Nbsp, " "); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}
