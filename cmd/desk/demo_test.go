package main

import (
	"encoding/json"
	"math"
	"testing"

	"app.tonedesk/cmd/desk/desktest"
)

// The demo painting's forms are found, and nothing else: coat, hair, skin and scarf, each
// with the values that it was mixed to (assets/demo/colours.go).
func TestReadFindsTheDemosFamilies(t *testing.T) {
	e := desktest.Run(t, "", "read", "--json", "../../assets/demo.png")
	e.PlainErrors(t, 0)
	var report struct {
		Families []struct {
			Light, Shadow struct{ Value float64 }
			TowardBlack   bool `json:"toward_black"`
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
	if len(report.Families) != len(want) {
		t.Fatalf("%d families, want %d: %+v", len(report.Families), len(want), report.Families)
	}
	for i, f := range report.Families { // the largest first
		w := want[i]
		if math.Abs(f.Light.Value-w.light) > 0.15 || math.Abs(f.Shadow.Value-w.shadow) > 0.15 || f.TowardBlack != w.towardBlack {
			t.Errorf("family %d, the %s, is %+v", i, w.form, f)
		}
	}
}
