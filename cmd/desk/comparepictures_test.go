package main

import (
	"encoding/json"
	"image/color"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"app.tonedesk/analysis"
	"app.tonedesk/cmd/desk/desktest"
	"app.tonedesk/gui/files"
	"app.tonedesk/gui/stills"
	"app.tonedesk/gui/stills/notes"
)

// threeBars are bars of neutral greys, four pixels wide, the third as given.
func threeBars(third uint8) func(x, y int) color.NRGBA {
	return func(x, _ int) color.NRGBA {
		g := [3]uint8{30, 120, 230}[x/4]
		if x == 4 {
			g = third
		}
		return color.NRGBA{g, g, g, 255}
	}
}

func TestComparePicturesJSON(t *testing.T) {
	before, after := picture(t, "before.png", 12, 5, threeBars(120)), picture(t, "after.png", 12, 5, threeBars(30))
	e := desktest.Run(t, "", "compare", "--json", before, after)
	e.PlainErrors(t, 0)
	const names = "version picture_before picture_after width height alignment stretched region lightness_difference tones distance_tones changed_share group_changes gap_changes moves sentence"
	if got := strings.Join(keys(t, e.Out), " "); got != names || e.Code != 0 {
		t.Fatalf("code %d, names %s, want %s", e.Code, got, names)
	}
	var r struct {
		Alignment string
		Changed   float64 `json:"changed_share"`
		Groups    []struct {
			Before float64 `json:"share_before"`
			After  float64 `json:"share_after"`
		} `json:"group_changes"`
		Moves []struct {
			From, To string
			Share    float64
		}
		Sentence string
	}
	if err := json.Unmarshal([]byte(e.Out), &r); err != nil {
		t.Fatal(err)
	}
	// By hand: one of twelve columns went from the middle bar's grey to the dark one's.
	if r.Alignment != "same" || len(r.Moves) != 1 || r.Moves[0].From != "middle" || r.Moves[0].To != "dark" || r.Moves[0].Share != 1.0/12 || r.Changed != 1.0/12 {
		t.Errorf("%s", e.Out)
	}
	for i, want := range [][2]float64{{4.0 / 12, 5.0 / 12}, {4.0 / 12, 3.0 / 12}, {4.0 / 12, 4.0 / 12}} {
		if len(r.Groups) != 3 || r.Groups[i].Before != want[0] || r.Groups[i].After != want[1] {
			t.Fatalf("group %d, want %v: %s", i, want, e.Out)
		}
	}
	if !strings.Contains(r.Sentence, "8 % of the picture went from middle to dark") {
		t.Errorf("sentence %q", r.Sentence)
	}
}

func TestComparePicturesInWords(t *testing.T) {
	before, after := picture(t, "a.png", 12, 5, threeBars(120)), picture(t, "b.png", 24, 5, func(x, y int) color.NRGBA { return threeBars(120)(x/2, y) })
	e := desktest.Run(t, "", "compare", before, after)
	e.PlainErrors(t, 0)
	for _, want := range []string{"Their sizes and shapes differ: both are brought to 12 × 5 pixels", "No change in lightness.", "changed    0.0 %"} {
		if !strings.Contains(e.Out, want) {
			t.Errorf("%q is not in\n%s", want, e.Out)
		}
	}
	e = desktest.Run(t, "", "compare", before, "no-such-file.png")
	if e.PlainErrors(t, 1); e.Code != 1 || e.Out != "" {
		t.Errorf("code %d, %s", e.Code, e.Out)
	}
	e = desktest.Run(t, "", "compare", before)
	if e.PlainErrors(t, 1); e.Code != 2 {
		t.Errorf("code %d", e.Code)
	}
}

// keepStills fills a folder of stills and returns the environment for it, and their IDs.
func keepStills(t *testing.T, thirds ...uint8) (env []string, ids []string) {
	t.Helper()
	data := t.TempDir()
	s := stills.New(stills.Folders{Data: filepath.Join(data, "tonedesk", "stills")})
	for i, third := range thirds {
		p := analysis.Pixels{Pix: make([]byte, 4*12*5), Stride: 48, Width: 12, Height: 5}
		for k := range 12 * 5 {
			c := threeBars(third)(k%12, 0)
			copy(p.Pix[4*k:], []byte{c.R, c.G, c.B, 255})
		}
		id, err := s.Keep(p, stills.Meta{
			Name: "study", Time: time.Date(2026, 1, 2, 3, 4, i, 0, time.UTC), Display: "sRGB",
			Source:  stills.Source{Kind: stills.FromScreen, Region: files.Rect{X: 5, Y: 6, Width: 12, Height: 5}},
			LeftOut: stills.LeftOutOf(nil), Reading: stills.FiguresOf(analysis.Read(p, analysis.Options{})),
		}, []notes.Note{notes.New(notes.Label{Size: 8}, "soft edge")})
		if err != nil {
			t.Fatal(err)
		}
		ids = append(ids, id)
	}
	return []string{"XDG_DATA_HOME=" + data}, ids
}

func TestStillsOnTheCommandLine(t *testing.T) {
	env, ids := keepStills(t, 120, 30)
	e := desktest.RunWith(t, env, "", "stills", "--json")
	e.PlainErrors(t, 0)
	lines := strings.Split(strings.TrimSpace(e.Out), "\n")
	const names = "version id folder name time width height source display automatic note_count note_texts reading"
	if len(lines) != 2 || strings.Join(keys(t, lines[0]), " ") != names {
		t.Fatalf("%s", e.Out)
	}
	var r struct {
		ID, Name string
		Notes    int      `json:"note_count"`
		Texts    []string `json:"note_texts"`
		Reading  struct{ Gaps []float64 }
	}
	if err := json.Unmarshal([]byte(lines[0]), &r); err != nil || r.ID != ids[1] || r.Name != "study" || r.Notes != 1 || len(r.Texts) != 1 || r.Texts[0] != "soft edge" || len(r.Reading.Gaps) == 0 {
		t.Errorf("%+v, %v", r, err)
	}
	e = desktest.RunWith(t, env, "", "stills")
	if e.PlainErrors(t, 0); !strings.Contains(e.Out, ids[0]) || !strings.Contains(e.Out, "tones apart") || !strings.Contains(e.Out, `"study"`) || !strings.Contains(e.Out, "1 note") {
		t.Errorf("%s", e.Out)
	}
	e = desktest.RunWith(t, env, "", "compare", ids[0], ids[1])
	if e.PlainErrors(t, 0); !strings.Contains(e.Out, "8 % of the picture went from middle to dark") {
		t.Errorf("%s", e.Out)
	}
	if e = desktest.Run(t, "", "stills"); e.Code != 0 || e.Out != "" || e.Err != "" {
		t.Errorf("no stills: code %d, %s%s", e.Code, e.Out, e.Err)
	}
	e = desktest.RunWith(t, env, "", "stills", "more")
	if e.PlainErrors(t, 1); e.Code != 2 {
		t.Errorf("code %d", e.Code)
	}
}

// What is wrong with a still's notes is said, once a still; the rest is done all the same.
func TestTroubleWithNotesIsSaid(t *testing.T) {
	for name, tt := range map[string]struct{ text, why string }{
		"damaged": {`{"version": 1, "notes": [{`, "its notes are damaged"},
		"newer":   {`{"version": 7, "notes": []}`, "newer"},
	} {
		for command, args := range map[string][]string{
			"sheet":  {"sheet", "-o", filepath.Join(t.TempDir(), "x.png")},
			"change": {"compare", picture(t, "a.png", 12, 5, threeBars(30))},
			"stills": {"stills"},
			"json":   {"stills", "--json"},
		} {
			t.Run(name+", "+command, func(t *testing.T) {
				env, ids := keepStills(t, 120)
				notesFile := filepath.Join(strings.TrimPrefix(env[0], "XDG_DATA_HOME="), "tonedesk", "stills", ids[0], "notes.json")
				if err := os.WriteFile(notesFile, []byte(tt.text), 0o600); err != nil {
					t.Fatal(err)
				}
				if args[0] != "stills" {
					args = append(args, ids[0])
				}
				e := desktest.RunWith(t, env, "", args...)
				if e.PlainErrors(t, 1); e.Code != 1 || !strings.Contains(e.Err, tt.why) {
					t.Errorf("code %d, %s", e.Code, e.Err)
				}
				switch command {
				case "sheet":
					if info, err := os.Stat(args[2]); err != nil || info.Size() == 0 {
						t.Errorf("no sheet: %v", err)
					}
				case "change":
					if !strings.Contains(e.Out, "8 % of the picture went") {
						t.Errorf("%s", e.Out)
					}
				case "stills":
					if !strings.Contains(e.Out, ids[0]) || !strings.Contains(e.Out, "? notes") || strings.Contains(e.Out, "1 note") {
						t.Errorf("%s", e.Out)
					}
				case "json":
					if !strings.Contains(e.Out, `"note_count":null,"note_texts":null`) {
						t.Errorf("%s", e.Out)
					}
				}
			})
		}
	}
}
