package main

import (
	"encoding/json"
	"math"
	"os"
	"os/exec"
	"strings"
	"testing"

	"app.tonedesk/cmd/desk/desktest"
)

// keys returns the names of a JSON object's members in the order in which they stand.
func keys(t *testing.T, line string) []string {
	t.Helper()
	dec := json.NewDecoder(strings.NewReader(line))
	if tok, err := dec.Token(); err != nil || tok != json.Delim('{') {
		t.Fatalf("not an object: %s", line)
	}
	var names []string
	for dec.More() {
		tok, err := dec.Token()
		if err != nil {
			t.Fatal(err)
		}
		names = append(names, tok.(string))
		var skipped json.RawMessage
		if err := dec.Decode(&skipped); err != nil {
			t.Fatal(err)
		}
	}
	return names
}

// object decodes a line of JSON.
func object(t *testing.T, line string) map[string]any {
	t.Helper()
	var m map[string]any
	if err := json.Unmarshal([]byte(line), &m); err != nil {
		t.Fatalf("%v: %s", err, line)
	}
	return m
}

const spotNames = "colour lightness value layer_grey ok_lightness seen_lightness chroma hue"

func TestSpotJSON(t *testing.T) {
	e := desktest.Run(t, "", "spot", "--json", "#ff0000", "#808080")
	e.PlainErrors(t, 0)
	lines := strings.Split(strings.TrimSpace(e.Out), "\n")
	if e.Code != 0 || len(lines) != 2 {
		t.Fatalf("code %d, output %q", e.Code, e.Out)
	}
	for _, line := range lines {
		if got := strings.Join(keys(t, line), " "); got != "version "+spotNames {
			t.Errorf("names are %s, want %s", got, spotNames)
		}
	}
	red := object(t, lines[0])
	for _, tt := range []struct {
		source, name string
		want, tol    float64
	}{
		{"CIE 15:2004 with CSS Color 4's matrices", "lightness", 53.237116, 1e-5},
		{"CIE 15:2004 with CSS Color 4's matrices", "chroma", 104.550012, 1e-5},
		{"CIE 15:2004 with CSS Color 4's matrices", "hue", 39.9999, 1e-3},
		{"Oklab, Ottosson 2020, CSS Color 4", "ok_lightness", 0.62795536, 1e-7},
		{"W3C Compositing and Blending Level 1, Lum", "layer_grey", 0.3 * 255, 1e-9},
	} {
		if got, _ := red[tt.name].(float64); math.Abs(got-tt.want) > tt.tol {
			t.Errorf("%s: %s is %v, want %g", tt.source, tt.name, red[tt.name], tt.want)
		}
	}
	if grey := object(t, lines[1]); grey["hue"] != nil || grey["colour"] != "#808080" {
		t.Errorf("a neutral's hue is %v, its colour %v", grey["hue"], grey["colour"])
	}
}

func TestSpotReportLinesUp(t *testing.T) {
	e := desktest.Run(t, "", "spot", "#fff", "rgb(255, 0, 0)", "rgb(0 0 255)")
	e.PlainErrors(t, 0)
	lines := strings.Split(strings.TrimSpace(e.Out), "\n")
	if e.Code != 0 || len(lines) != 4 || !strings.HasPrefix(lines[1], "#ffffff") {
		t.Fatalf("code %d, output\n%s", e.Code, e.Out)
	}
	end := len(lines[0]) // of the hue, the last column of numbers
	for _, line := range lines[1:] {
		if len(line) < end || line[end-1] == ' ' || len(line) > end && line[end] != ' ' {
			t.Errorf("columns do not line up:\n%s\n%s", lines[0], line)
		}
	}
}

func TestSpotArguments(t *testing.T) {
	tests := []struct {
		name         string
		args         []string
		code, errors int
		lines        int // of output
	}{
		{"no colour", nil, 2, 1, 0},
		{"a bad one among good ones", []string{"--json", "#fff", "#ggg", "#000"}, 2, 1, 2},
		{"two bad ones", []string{"white", "rgb(1 2 300)"}, 2, 2, 0},
		{"empty", []string{""}, 2, 1, 0},
		{"unknown option", []string{"--jsn", "#fff"}, 2, 1, 0},
		{"option with a value it does not take", []string{"--json=yes", "#fff"}, 2, 1, 0},
		{"single dash", []string{"-json", "#fff"}, 2, 1, 0},
		{"list beside colours", []string{"#fff", "-"}, 2, 1, 0},
		{"option behind the colours", []string{"#fff", "--json"}, 0, 0, 1},
		{"steering the terminal", []string{"\x1b[2J\n#fff"}, 2, 1, 0},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			e := desktest.Run(t, "", append([]string{"spot"}, tt.args...)...)
			e.PlainErrors(t, tt.errors)
			if e.Code != tt.code {
				t.Errorf("exit code %d, want %d", e.Code, tt.code)
			}
			if n := strings.Count(e.Out, "\n"); n != tt.lines {
				t.Errorf("%d lines of output, want %d:\n%s", n, tt.lines, e.Out)
			}
			if strings.ContainsRune(e.Err, '\x1b') {
				t.Errorf("an escape sequence reached the terminal: %q", e.Err)
			}
		})
	}
}

func TestSpotList(t *testing.T) {
	input := "\ufeff#fff\r\n\n  rgb(1 2 3)  \nnonsense\n" + strings.Repeat("#", 10_000) + "\n#000"
	e := desktest.Run(t, input, "spot", "--json", "-")
	e.PlainErrors(t, 2)
	if e.Code != 1 {
		t.Errorf("exit code %d, want 1", e.Code)
	}
	var got []string
	for line := range strings.Lines(e.Out) {
		got = append(got, object(t, line)["colour"].(string))
	}
	if want := "#ffffff #010203 #000000"; strings.Join(got, " ") != want {
		t.Errorf("read %v, want %s", got, want)
	}
	for _, want := range []string{`line 4 of the list, "nonsense"`, "line 5 of the list"} {
		if !strings.Contains(e.Err, want) {
			t.Errorf("standard error does not name %s:\n%s", want, e.Err)
		}
	}
}

func TestEmptyListIsDone(t *testing.T) {
	if e := desktest.Run(t, "\n  \n", "spot", "-"); e != (desktest.Ended{}) {
		t.Errorf("an empty list gives %+v", e)
	}
}

func TestUnwritableOutputIsSaid(t *testing.T) {
	full, err := os.OpenFile("/dev/full", os.O_WRONLY, 0)
	if err != nil {
		t.Skip("this system has no /dev/full")
	}
	defer full.Close()
	for _, args := range [][]string{
		{"spot", "#fff"}, {"spot", "-"}, {"compare", "#fff", "#000"}, {"help"}, {"read", "../../assets/demo.png"},
		{"shade", "#fff"}, {"match", "#fff", "#000"}, {"palette", "../../assets/demo.png"},
		{"relight", "../../assets/demo.png"}, {"shade", "--as", "../../assets/demo.png", "#fff"},
	} {
		var fault strings.Builder
		cmd := exec.Command(desktest.Program(t), args...)
		cmd.Stdin, cmd.Stdout, cmd.Stderr = strings.NewReader("#fff\n"), full, &fault
		_ = cmd.Run() // how it ended is looked at below
		e := desktest.Ended{Err: fault.String(), Code: cmd.ProcessState.ExitCode()}
		e.PlainErrors(t, 1)
		if e.Code != 1 || !strings.Contains(e.Err, "the disk is full") {
			t.Errorf("%v: code %d, said %q", args, e.Code, e.Err)
		}
	}
}
