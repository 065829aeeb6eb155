package main

import (
	"encoding/json"
	"math"
	"slices"
	"testing"

	"app.tonedesk/cmd/desk/desktest"
)

// The demo painting's forms are found, each with the values that it was mixed to
// (assets/demo/colours.go): coat, hair, skin and scarf. Beside them there is at most one pair: its two
// hills, flats of like hue that no finder could tell from a hill's two sides.
func TestReadFindsTheDemosFamilies(t *testing.T) {
	e := desktest.Run(t, "", "read", "--json", "../../assets/demo.png")
	e.PlainErrors(t, 0)
	var report struct {
		Families []struct {
			Light, Shadow struct{ Value float64 }
			Remarks       []string
			Confidence    float64
		}
	}
	if err := json.Unmarshal([]byte(e.Out), &report); err != nil {
		t.Fatal(err)
	}
	want := []struct {
		form          string
		light, shadow float64
		towardBlack   bool
	}{
		{"coat", 5.75, 3.25, false}, {"hair", 4.75, 2.25, false}, {"skin", 8, 5.5, false}, {"scarf", 8.25, 5.75, true},
	}
	next, others := 0, 0 // the largest come first
	for _, f := range report.Families {
		switch {
		case f.Confidence < 0.5:
		case next < len(want) && math.Abs(f.Light.Value-want[next].light) <= 0.15 && math.Abs(f.Shadow.Value-want[next].shadow) <= 0.15 && slices.Contains(f.Remarks, "toward_black") == want[next].towardBlack:
			next++
		default:
			others++
		}
	}
	if next < len(want) || others > 1 {
		t.Fatalf("%d of the forms in their order, %d others: %+v", next, others, report.Families)
	}
}
