package main

import (
	"encoding/csv"
	"encoding/json"
	"image/color"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/cmd/desk/desktest"
)

// twoGreys is a picture of two halves.
func twoGreys(left, right uint8) func(x, y int) color.NRGBA {
	return func(x, _ int) color.NRGBA {
		if x < 20 {
			return color.NRGBA{left, left, left, 255}
		}
		return color.NRGBA{right, right, right, 255}
	}
}

// valueOfGrey is the value of a grey, by the published formulas of L* and value.
func valueOfGrey(grey uint8) float64 {
	return colour.Value(analysis.SpotOf(colour.RGB{R: grey, G: grey, B: grey}).Lightness)
}

// Over pictures of two greys, of which the dark one comes nearer from the third on, desk stills says
// just that: in words, in JSON and as a table.
func TestSeriesOfPictures(t *testing.T) {
	var paths []string
	darks := []uint8{40, 40, 40, 70, 100}
	for i, dark := range darks {
		paths = append(paths, picture(t, "study"+string(rune('1'+i))+".png", 40, 20, twoGreys(dark, 200)))
	}
	table := filepath.Join(t.TempDir(), "grew.csv")
	e := desktest.Run(t, "", append([]string{"stills", "--series", "--csv", table}, paths...)...)
	e.PlainErrors(t, 0)
	fell := valueOfGrey(100) - valueOfGrey(40)
	if want := `Since "study3.png" dark and light have drawn together by ` + oneDecimal(fell) + " tones."; !strings.Contains(e.Out, want) {
		t.Errorf("%s\nwant: %s", e.Out, want)
	}
	file, err := os.Open(table)
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	rows, err := csv.NewReader(file).ReadAll()
	if err != nil || len(rows) != 6 {
		t.Fatalf("%d rows: %v", len(rows), err)
	}
	if gap := slices.Index(rows[0], "dark_light_gap_tones"); gap < 0 || rows[1][0] != "study1.png" || rows[1][slices.Index(rows[0], "dark_share")] != "0.5" {
		t.Errorf("%q", rows)
	}
	if info, err := file.Stat(); err != nil || info.Mode().Perm() != 0o600 && !desktest.Foreign() {
		t.Errorf("the table's mode is %v: %v", info.Mode(), err)
	}

	var report struct {
		Lines []struct {
			Kind   string
			Values []*float64
			Turn   *struct {
				At         int
				Change     float64
				Throughout bool
			}
		}
		Turned []int
	}
	e = desktest.Run(t, "", append([]string{"stills", "--series", "--json"}, paths...)...)
	if err := json.Unmarshal([]byte(e.Out), &report); err != nil {
		t.Fatalf("%v: %s", err, e.Out)
	}
	for _, l := range report.Lines {
		if l.Kind != "gap" {
			continue
		}
		if l.Turn == nil || l.Turn.At != 2 || l.Turn.Throughout || math.Abs(l.Turn.Change+fell) > 0.1 {
			t.Errorf("%+v", l.Turn)
		}
		for i, v := range l.Values {
			if want := valueOfGrey(200) - valueOfGrey(darks[i]); v == nil || math.Abs(*v-want) > 0.05 {
				t.Errorf("gap %d is %v, want %g", i, v, want)
			}
		}
		return
	}
	t.Errorf("no gap in %s", e.Out)
}

// oneDecimal is a figure as it is printed.
func oneDecimal(v float64) string {
	text, _ := json.Marshal(math.Round(10*v) / 10)
	return string(text)
}

// Without names the stills of the newest one's source are the series; what can't be read of named ones
// is said and left out; nothing is written over.
func TestSeriesOfStills(t *testing.T) {
	env, ids := keepStills(t, 120, 30, 60)
	e := desktest.RunWith(t, env, "", "stills", "--series")
	e.PlainErrors(t, 0)
	if !strings.HasPrefix(e.Out, "3 pictures, ") {
		t.Errorf("%s", e.Out)
	}
	e = desktest.RunWith(t, env, "", "stills", "--series", ids[2], "gone.png", ids[0])
	e.PlainErrors(t, 1)
	if e.Code != 1 {
		t.Errorf("code %d", e.Code)
	}
	if !strings.HasPrefix(e.Out, "2 pictures, ") || !strings.Contains(e.Err, "gone.png") {
		t.Errorf("%s%s", e.Out, e.Err)
	}
	there := picture(t, "there.png", 40, 20, twoGreys(40, 200))
	still := filepath.Join(strings.TrimPrefix(env[0], "XDG_DATA_HOME="), "tonedesk", "stills", ids[0], "picture.png")
	for name, args := range map[string][]string{
		"over a file":          {"--csv", there},
		"over what is read":    {"--csv", there, "--force", there},
		"over a still by name": {"--csv", still, "--force"},
	} {
		was, _ := os.ReadFile(args[1])
		e := desktest.RunWith(t, env, "", append(append([]string{"stills", "--series"}, ids...), args...)...)
		e.PlainErrors(t, 1)
		if is, _ := os.ReadFile(args[1]); string(is) != string(was) || e.Out != "" || e.Code != 1 {
			t.Errorf("%s: code %d, written over, or read before: %s", name, e.Code, e.Out)
		}
	}
	nowhere := desktest.RunWith(t, env, "", "stills", "--series", "--csv", filepath.Join(t.TempDir(), "no", "folder.csv"))
	if nowhere.PlainErrors(t, 1); nowhere.Code != 1 {
		t.Errorf("code %d", nowhere.Code)
	}
	for _, args := range [][]string{
		{"stills", "--csv", "a.csv"}, {"stills", "--series", "--force"}, {"stills", "--series", "--turn", "9"}, {"stills", "--series", "--groups", "5"},
		{"stills", "--series", "-"}, {"stills", "--series", "--csv", "-"}, {"stills", ids[0]},
	} {
		e := desktest.RunWith(t, env, "", args...)
		if e.PlainErrors(t, 1); e.Code != 2 {
			t.Errorf("%q: code %d", args, e.Code)
		}
	}
	for _, e := range []desktest.Ended{
		desktest.RunWith(t, env, "", "stills", "--series", ids[0]),
		desktest.RunWith(t, []string{"XDG_DATA_HOME=" + t.TempDir()}, "", "stills", "--series"),
	} {
		if e.PlainErrors(t, 1); e.Code != 1 || e.Out != "" {
			t.Errorf("code %d: %s", e.Code, e.Out)
		}
	}
}
