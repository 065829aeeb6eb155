package main

import (
	"encoding/json"
	"image/color"
	"path/filepath"
	"strings"
	"testing"

	"app.tonedesk/cmd/desk/desktest"
)

// halvesTurned is three quarters of black beside a quarter of white.
func halvesTurned(x, _ int) color.NRGBA {
	if x < 6 {
		return color.NRGBA{A: 255}
	}
	return color.NRGBA{255, 255, 255, 255}
}

// distanceIn returns distance_tones of a report, and whether the name is there.
func distanceIn(t *testing.T, line string) (distance *float64, there bool) {
	t.Helper()
	names := map[string]json.RawMessage{}
	if err := json.Unmarshal([]byte(line), &names); err != nil {
		t.Fatalf("%v: %s", err, line)
	}
	raw, there := names["distance_tones"]
	if there {
		if err := json.Unmarshal(raw, &distance); err != nil {
			t.Fatal(err)
		}
	}
	return distance, there
}

// By hand: half of the pixels are white in one and black in the other, which are ten tones
// apart.
func TestReadTarget(t *testing.T) {
	one, other := picture(t, "one.png", 8, 4, halves), picture(t, "other.png", 8, 4, halvesTurned)
	if _, there := distanceIn(t, desktest.Run(t, "", "read", "--json", one).Out); there {
		t.Error("a distance without a target")
	}
	for path, want := range map[string]float64{one: 0, other: 5} {
		e := desktest.Run(t, "", "read", "--json", "--target", one, path)
		e.PlainErrors(t, 0)
		if got, there := distanceIn(t, e.Out); !there || got == nil || *got-want > 1e-9 || want-*got > 1e-9 {
			t.Errorf("%s: %s, want %g", path, e.Out, want)
		}
	}
	e := desktest.Run(t, "", "read", "--target="+one, "--groups", "2", other)
	e.PlainErrors(t, 0)
	const want = "  target     5.0 tones from it on average\n             50 % more dark, 50 % less light\n"
	if !strings.Contains(e.Out, want) {
		t.Errorf("the report lacks %q:\n%s", want, e.Out)
	}
}

// What can't be known is null: the distance from a picture in which nothing is counted, or
// from one that could not be read.
func TestReadTargetUnknown(t *testing.T) {
	one, clear := picture(t, "one.png", 8, 4, halves), picture(t, "clear.png", 3, 3, func(x, y int) color.NRGBA { return color.NRGBA{} })
	e := desktest.Run(t, "", "read", "--json", "--target", clear, one)
	e.PlainErrors(t, 0)
	if got, there := distanceIn(t, e.Out); !there || got != nil || e.Code != 0 {
		t.Errorf("code %d, %s", e.Code, e.Out)
	}
	e = desktest.Run(t, "", "read", "--json", "--target", filepath.Join(t.TempDir(), "none.png"), one)
	e.PlainErrors(t, 1)
	if got, there := distanceIn(t, e.Out); !there || got != nil || e.Code != 1 || !strings.Contains(e.Err, "there is no such file") {
		t.Errorf("code %d, %s, said %s", e.Code, e.Out, e.Err)
	}
	if e = desktest.Run(t, "", "read", "--target", clear, one); !strings.Contains(e.Out, "can't be compared") {
		t.Errorf("the report says\n%s", e.Out)
	}
}
