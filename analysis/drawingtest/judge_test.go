package drawingtest

import (
	"path/filepath"
	"testing"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/families"
)

// of is a report of two codes.
func of(t *testing.T, light, shadow string, confidence float64) families.Family {
	t.Helper()
	var spots [2]analysis.Spot
	for i, code := range [2]string{light, shadow} {
		c, err := colour.Parse(code)
		if err != nil {
			t.Fatal(err)
		}
		spots[i] = analysis.SpotOf(c)
	}
	return families.Family{Light: spots[0], Shadow: spots[1], Share: new(0.1), Confidence: &confidence}
}

// A drawing that is made up: a red thing with a highlight that counts as light, and a blue one.
func madeUp(t *testing.T) *Drawing {
	t.Helper()
	lab := func(codes ...string) (s Side) {
		for _, c := range codes {
			s.Colours = append(s.Colours, of(t, c, c, 1).Light.Lab)
		}
		return s
	}
	return &Drawing{Families: []Truth{
		{Name: "red", Light: lab("#e05040", "#ffb0a0"), Shadow: lab("#902030"), Near: usuallyNear, Sure: true},
		{Name: "blue", Light: lab("#7090d0"), Shadow: lab("#304080"), Near: usuallyNear},
	}}
}

// What is said is true once; a second time it is a duplicate; light and shadow changed over,
// other things' sides together, and two steps of one side are invented.
func TestJudge(t *testing.T) {
	d := madeUp(t)
	list := []families.Family{
		of(t, "#e05040", "#902030", 1), of(t, "#e35242", "#92222e", 1), of(t, "#902030", "#e05040", 1),
		of(t, "#e05040", "#304080", 1), of(t, "#ffb0a0", "#e05040", 1), of(t, "#7090d0", "#304080", 1),
	}
	want := []Judged{
		{Verdict: True}, {Verdict: Duplicate}, {}, {}, {Step: true}, {Verdict: True, Family: 1},
	}
	for i, got := range d.Judge(list) {
		if got != want[i] {
			t.Errorf("report %d is %+v, want %+v", i, got, want[i])
		}
	}
	var sum Tally
	sum.Add(d, list)
	if sum.True != 2 || sum.Arguable != 1 || sum.Duplicates != 1 || sum.Invented != 3 || sum.Steps != 1 || sum.Found != 1 || sum.Truths != 1 || sum.LargestWrong != 0 {
		t.Errorf("%+v", sum)
	}
}

// A guess takes no family from what is sure, and is counted apart.
func TestJudgeGuesses(t *testing.T) {
	d := madeUp(t)
	var sum Tally
	sum.Add(d, []families.Family{of(t, "#e05040", "#902030", 0.4), of(t, "#e35242", "#92222e", 0.6), of(t, "#112233", "#000000", 0.1)})
	if sum.True != 1 || sum.UnsureDuplicate != 1 || sum.UnsureInvented != 1 || sum.Found != 1 {
		t.Errorf("%+v", sum)
	}
}

// Every written truth can be read, and judges itself true; where the drawings are installed.
func TestTruths(t *testing.T) {
	all, err := Load(filepath.Join("..", "..", "testdata", "drawings"), 1)
	if err != nil {
		t.Skip(err)
	}
	if testing.Short() {
		t.Skip("renders 40 drawings")
	}
	for i := range all {
		var said []families.Family
		for _, f := range all[i].Families {
			said = append(said, families.Family{
				Light:  analysis.Spot{Lab: f.Light.Colours[0], X: &f.Light.At.X, Y: &f.Light.At.Y},
				Shadow: analysis.Spot{Lab: f.Shadow.Colours[0], X: &f.Shadow.At.X, Y: &f.Shadow.At.Y},
			})
		}
		for k, got := range all[i].Judge(said) {
			if got.Verdict != True {
				t.Errorf("%s: %s is judged %+v", all[i].Name, all[i].Families[k].Name, got)
			}
		}
	}
}
