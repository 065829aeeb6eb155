package notes

import (
	"encoding/json"
	"reflect"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	_ "app.tonedesk/analysis/lawtest" // the same cases every time
	"app.tonedesk/gui/stills/ink"
)

// somePoint draws a place on a still, in hundredths of its pixels.
func somePoint(t *rapid.T) ink.Point {
	return ink.Pt(float64(rapid.IntRange(-20000, 200000).Draw(t, "x"))/100, float64(rapid.IntRange(-20000, 200000).Draw(t, "y"))/100)
}

// someNote draws a note of any kind.
func someNote(t *rapid.T) Note {
	width := float64(rapid.IntRange(1, 500).Draw(t, "width")) / 10
	points := rapid.SliceOfN(rapid.Custom(somePoint), 1, 6).Draw(t, "points")
	from, to := points[0], points[len(points)-1]
	shapes := []Shape{
		Stroke{points, width}, Arrow{from, to, width}, Ring{from, to, width}, Box{from, to, width},
		Label{from, width}, Spot{from, analysis.SpotOf(colour.RGB{R: 200, G: 120, B: 40})},
		Area{Light, points, width}, Area{Shadow, points, width},
	}
	n := New(rapid.SampledFrom(shapes).Draw(t, "shape"), rapid.String().Draw(t, "text"))
	// JSON holds text, and text is UTF-8 (RFC 8259, 8.1): other bytes can't be kept.
	text, err := json.Marshal(n.Text)
	if err != nil || json.Unmarshal(text, &n.Text) != nil {
		t.Fatalf("text %q", n.Text)
	}
	return n
}

// act does one thing to a list.
func act(t *rapid.T, l *List) {
	all := l.All()
	if len(all) == 0 || rapid.IntRange(0, 3).Draw(t, "what") == 0 {
		l.Add(someNote(t))
		return
	}
	n := rapid.SampledFrom(all).Draw(t, "note")
	switch rapid.IntRange(0, 4).Draw(t, "act") {
	case 0:
		l.Remove(n.ID)
	case 1:
		l.Replace(n.WithText("again"), "")
	case 2:
		l.Settle()
	default: // a drag
		for range rapid.IntRange(1, 4).Draw(t, "moves") {
			l.Replace(l.All()[l.Find(n.ID)].Moved(somePoint(t)), "move")
		}
	}
}

// Undoing everything gives the first state, doing everything again the last, however often,
// and lists that were handed out stay as they were.
func TestUndoLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		first := rapid.SliceOfN(rapid.Custom(someNote), 0, 4).Draw(t, "first")
		l := NewList(first)
		var handed, copies [][]Note
		for range rapid.IntRange(0, 20).Draw(t, "acts") {
			act(t, l)
			handed, copies = append(handed, l.All()), append(copies, slices.Clone(l.All()))
		}
		last := slices.Clone(l.All())
		for range 2 {
			for l.Undo() {
			}
			if !same(l.All(), first) {
				t.Fatalf("after undoing everything: %v, want %v", l.All(), first)
			}
			for l.Redo() {
			}
			if !same(l.All(), last) {
				t.Fatalf("after doing everything again: %v, want %v", l.All(), last)
			}
		}
		for i := range handed {
			if !same(handed[i], copies[i]) {
				t.Fatal("a list that was handed out has changed")
			}
		}
	})
}

// One step back and one forth changes nothing, and something new ends what could be done
// again.
// However many steps were done, what is kept to go back by them is bounded, the newest are there, and each
// leads to the notes as they were.
func TestUndoEnds(t *testing.T) {
	for _, n := range []int{0, 10, Most, 2 * mostPast} { // another program may have left more than the most
		l := NewList(make([]Note, n))
		steps := 3*mostPast/(n+stepWeight) + 3
		for i := range steps {
			if i%2 == 0 {
				l.step(append(l.All(), Note{}), "")
			} else {
				l.step(l.notes[:n], "")
			}
		}
		held := 0
		for _, notes := range l.past {
			held += len(notes) + stepWeight
		}
		if held > mostPast && len(l.past) > 1 || len(l.past) == 0 {
			t.Errorf("%d notes, %d steps: %d lists weigh %d", n, steps, len(l.past), held)
		}
		for at := steps; l.Undo(); {
			if at--; len(l.All()) != n+at%2 {
				t.Fatalf("%d notes: step %d leads to %d", n, at, len(l.All()))
			}
		}
	}
}

func TestUndoOneStep(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := NewList(nil)
		for range rapid.IntRange(1, 10).Draw(t, "acts") {
			act(t, l)
		}
		now := l.All()
		l.Undo()
		l.Redo()
		if !same(l.All(), now) {
			t.Fatal("undo and redo changed the list")
		}
		l.Undo()
		l.Add(someNote(t))
		if l.Redo() {
			t.Fatal("something was done again that no longer follows")
		}
	})
}

// A drag is one step, two drags are two, and other notes' moves don't join.
func TestDragIsOneStep(t *testing.T) {
	a, b := New(Label{ink.Pt(1, 1), 10}, "a"), New(Label{ink.Pt(2, 2), 10}, "b")
	l := NewList([]Note{a, b})
	drag := func(n Note) {
		for range 3 {
			l.Replace(l.All()[l.Find(n.ID)].Moved(ink.Pt(1, 0)), "move")
		}
	}
	drag(a)
	drag(b)
	l.Settle()
	drag(b)
	steps := 0
	for l.Undo() {
		steps++
	}
	if steps != 3 || l.Redo() != true || l.Redo() != true {
		t.Errorf("%d steps to undo, want 3", steps)
	}
	if got := l.All()[1].Shape.(Label).At; got != ink.Pt(5, 2) {
		t.Errorf("b is at %v after one undo, want 5,2", got)
	}
}

func same(a, b []Note) bool {
	return slices.EqualFunc(a, b, func(x, y Note) bool { return reflect.DeepEqual(x, y) })
}

// A note may have MostText letters, and all of them MostLetters together; one that has more already
// is left alone.
func TestRoom(t *testing.T) {
	of := func(lengths ...int) (list []Note) {
		for _, n := range lengths {
			list = append(list, New(Label{Size: 9}, strings.Repeat("ä", n)))
		}
		return list
	}
	full := append(slices.Repeat([]int{MostText}, MostLetters/MostText-1), MostText/2, MostText) // 50,000 is twelve and a half times 4,000
	for _, tt := range []struct {
		what    string
		lengths []int // the last is the one that is written
		want    int
	}{
		{"one", []int{3}, MostText},
		{"two", []int{MostText, 10}, MostText},
		{"as many letters as there may be", append(slices.Clone(full), 0), 0},
		{"the last of them", full, MostText},
		{"one letter is left", append(slices.Clone(full[1:]), MostText-1, 0), 1},
		{"more than there may be, from before", append(slices.Clone(full), MostText, MostText), 0},
	} {
		list := of(tt.lengths...)
		if got := NewList(list).Room(list[len(list)-1].ID); got != tt.want {
			t.Errorf("%s: room for %d, want %d", tt.what, got, tt.want)
		}
	}
	if got := NewList(of(7)).Room(""); got != MostText {
		t.Errorf("without a note: room for %d", got)
	}
}
