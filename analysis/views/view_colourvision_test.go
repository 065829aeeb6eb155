package views

import (
	"encoding/json"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/internal/testkit"
)

var machadoTables = map[string]*colour.MachadoTable{"protan": &colour.ProtanTable, "deutan": &colour.DeutanTable, "tritan": &colour.TritanTable}

// Source: Machado, Oliveira and Fernandes 2009, testdata/cvd_matrices.json.
func TestMachadoTables(t *testing.T) {
	data, err := os.ReadFile("../../testdata/cvd_matrices.json")
	if err != nil {
		t.Fatal(err)
	}
	var file struct {
		Machado map[string]map[string][3][3]float64 `json:"machado2009"`
	}
	if err := json.Unmarshal(data, &file); err != nil || len(file.Machado) != len(machadoTables) {
		t.Fatalf("%d types, %v", len(file.Machado), err)
	}
	for name, published := range file.Machado {
		if len(published) != 11 {
			t.Errorf("%s: %d severities", name, len(published))
		}
		for text, want := range published {
			severity, err := strconv.ParseFloat(text, 64)
			if err != nil {
				t.Fatal(err)
			}
			got := machadoTables[name].At(severity)
			for i := range got {
				for j := range got[i] {
					if !(math.Abs(got[i][j]-want[i][j]) <= 1e-9) {
						t.Errorf("%s %s, row %d column %d: %g, want %g", name, text, i, j, got[i][j], want[i][j])
					}
				}
			}
		}
	}
}

// Half-way between two severities stands the mean of their matrices.
func TestMachadoBetween(t *testing.T) {
	got := colour.DeutanTable.At(0.35)
	for i := range got {
		for j := range got[i] {
			if want := (colour.DeutanTable[3][i][j] + colour.DeutanTable[4][i][j]) / 2; !(math.Abs(got[i][j]-want) < 1e-12) {
				t.Errorf("row %d column %d: %g, want %g", i, j, got[i][j], want)
			}
		}
	}
}

// Source: testdata/cvd_worked_values.csv, the rows of Machado, Oliveira and Fernandes 2009:
// the matrix on linear light, and the code that the view paints.
func TestColourVisionWorked(t *testing.T) {
	tab := testkit.ReadTable(t, "cvd_worked_values.csv")
	rows := 0
	for _, row := range tab.Rows {
		severity, ours := strings.CutPrefix(tab.Cell(row, "method"), "machado2009_")
		if !ours {
			continue
		}
		rows++
		at, err := strconv.ParseFloat(severity, 64)
		if err != nil {
			t.Fatal(err)
		}
		c, err := colour.Parse(tab.Cell(row, "hex"))
		if err != nil {
			t.Fatal(err)
		}
		kind := tab.Cell(row, "type")
		m := machadoTables[kind].At(at)
		light := [3]float64{colour.Linear(c.R), colour.Linear(c.G), colour.Linear(c.B)}
		for i, name := range []string{"out_r", "out_g", "out_b"} {
			got := m[i][0]*light[0] + m[i][1]*light[1] + m[i][2]*light[2]
			if want := tab.Number(row, name); !(math.Abs(got-want) <= 1e-6) {
				t.Errorf("%s %s, %s %s: %g, want %g", c.Hex(), kind, severity, name, got, want)
			}
		}
		p := analysis.Pixels{Pix: []byte{c.R, c.G, c.B, 255}, Stride: 4, Width: 1, Height: 1}
		got := paintOf(t, p, kind, Look{Knob: at})
		if hex := (colour.RGB{R: got[0], G: got[1], B: got[2]}).Hex(); hex != tab.Cell(row, "hex_out") || got[3] != 255 {
			t.Errorf("%s %s %s is painted %s, want %s", c.Hex(), kind, severity, hex, tab.Cell(row, "hex_out"))
		}
	}
	if rows != 90 {
		t.Errorf("%d rows", rows)
	}
}

// A grey stays what it is at any severity.
func TestColourVisionKeepsGreys(t *testing.T) {
	ramp := greyRamp()
	for kind := range machadoTables {
		for tenths := range 11 {
			if got, want := paintOf(t, ramp, kind, Look{Knob: float64(tenths) / 10}), paintOf(t, ramp, "colour", Look{}); string(got) != string(want) {
				t.Errorf("%s at %d tenths changes greys", kind, tenths)
			}
		}
	}
}
