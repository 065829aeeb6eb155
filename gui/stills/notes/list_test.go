package notes

import (
	"encoding/json"
	"reflect"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"app.tonedesk/analysis"
	"app.tonedesk/gui/stills/ink"
	_ "app.tonedesk/lawtest" // the same cases every time
)

// somePoint draws a place on a still, in hundredths of its pixels.
func somePoint(t *rapid.T) Point {
	return ink.Pt(float64(rapid.IntRange(-20000, 200000).Draw(t, "x"))/100, float64(rapid.IntRange(-20000, 200000).Draw(t, "y"))/100)
}

// someNote draws a note of any kind.
func someNote(t *rapid.T) Note {
	width := float64(rapid.IntRange(1, 500).Draw(t, "width")) / 10
	points := rapid.SliceOfN(rapid.Custom(somePoint), 1, 6).Draw(t, "points")
	from, to := points[0], points[len(points)-1]
	shapes := []Shape{
		Stroke{points, width}, Arrow{from, to, width}, Ring{from, to, width}, Box{from, to, width},
		Label{from, width}, Spot{from, analysis.SpotOf(analysis.RGB{R: 200, G: 120, B: 40})},
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
		l.Add(rapid.SliceOfN(rapid.Custom(someNote), 1, 3).Draw(t, "added")...)
		return
	}
	n := rapid.SampledFrom(all).Draw(t, "note")
	switch rapid.IntRange(0, 4).Draw(t, "act") {
	case 0:
		l.Remove(n.ID, rapid.SampledFrom(all).Draw(t, "other").ID)
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
	if undo, redo := l.Steps(); undo != 3 || redo != 0 {
		t.Errorf("%d steps to undo, %d to do again; want 3 and 0", undo, redo)
	}
	l.Undo()
	if got := l.All()[1].Shape.(Label).At; got != ink.Pt(5, 2) {
		t.Errorf("b is at %v after one undo, want 5,2", got)
	}
}

func same(a, b []Note) bool {
	return slices.EqualFunc(a, b, func(x, y Note) bool { return reflect.DeepEqual(x, y) })
}

// Whatever two programs do to the same notes, nothing that either added or last wrote is
// lost, and what one removed and the other left alone is gone.
func TestMergeLosesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		base := rapid.SliceOfN(rapid.Custom(someNote), 0, 5).Draw(t, "base")
		mine, his := NewList(base), NewList(base)
		for range rapid.IntRange(0, 6).Draw(t, "acts") {
			act(t, mine)
			act(t, his)
		}
		merged := Merge(base, mine.All(), his.All())
		for _, side := range [][]Note{mine.All(), his.All()} {
			for _, n := range side {
				if was := find(base, n.ID); was >= 0 && Equal(n, base[was]) {
					continue
				}
				if !slices.ContainsFunc(merged, func(m Note) bool { m.ID = n.ID; return Equal(m, n) }) {
					t.Fatalf("%v is lost", n)
				}
			}
		}
		for _, was := range base {
			gone := find(mine.All(), was.ID) < 0 || find(his.All(), was.ID) < 0
			if at := find(merged, was.ID); gone && at >= 0 && Equal(merged[at], was) {
				t.Fatalf("%v was removed and is there again", was)
			}
		}
		ids := map[string]bool{}
		for _, n := range merged {
			if ids[n.ID] {
				t.Fatalf("two notes have the ID %s", n.ID)
			}
			ids[n.ID] = true
		}
	})
}

// What others did comes in beside the history. Where they only added, every state of the
// history has it on top.
func TestJoinBesideTheHistory(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		first := rapid.SliceOfN(rapid.Custom(someNote), 0, 4).Draw(t, "first")
		l, added := NewList(first), []Note{}
		base, extra := first, []Note{} // what was saved last, what others added since
		for range rapid.IntRange(0, 20).Draw(t, "acts") {
			switch rapid.IntRange(0, 7).Draw(t, "what") {
			case 0:
				extra = append(extra, someNote(t))
			case 1:
				l.Join(base, slices.Concat(base, extra), "")
				added, extra = append(added, extra...), nil
				base = l.All()
			case 2:
				l.Undo()
			case 3:
				l.Redo()
			case 4:
				base = l.All()
			default:
				own := slices.DeleteFunc(slices.Clone(l.All()), func(n Note) bool { return find(added, n.ID) >= 0 })
				if len(own) == 0 || rapid.Bool().Draw(t, "add") {
					l.Add(someNote(t))
				} else {
					l.Replace(rapid.SampledFrom(own).Draw(t, "own").Moved(ink.Pt(1, 2)), "move")
				}
			}
		}
		for l.Redo() {
		}
		last := slices.Clone(l.All())
		for l.Undo() {
		}
		if got, want := l.All(), slices.Concat(first, added); !same(got, want) {
			t.Fatalf("undone: %v, want %v", got, want)
		}
		for l.Redo() {
		}
		if !same(l.All(), last) {
			t.Fatalf("done again: %v, want %v", l.All(), last)
		}
	})
}

// Whatever others did, and whatever is undone and done again after: nothing that either has is
// lost, what others removed does not come back, no two notes share an ID, and what is saved
// next keeps what others have.
func TestJoinLosesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := NewList(rapid.SliceOfN(rapid.Custom(someNote), 0, 4).Draw(t, "first"))
		for range rapid.IntRange(0, 6).Draw(t, "before") {
			actOrWalk(t, l)
		}
		base, his := l.All(), NewList(l.All())
		for range rapid.IntRange(0, 6).Draw(t, "meanwhile") {
			act(t, his)
			actOrWalk(t, l)
		}
		there, before := his.All(), l.All()
		l.Join(base, there, "")
		saved := Merge(there, l.All(), there)
		for name, side := range map[string][]Note{"theirs": there, "ours": before} {
			for _, n := range side {
				if was := find(base, n.ID); was >= 0 && Equal(n, base[was]) {
					continue
				}
				for where, list := range map[string][]Note{"the list": l.All(), "what is saved": saved} {
					if !slices.ContainsFunc(list, func(m Note) bool { m.ID = n.ID; return Equal(m, n) }) {
						t.Fatalf("%s, %v, is lost from %s", name, n, where)
					}
				}
			}
		}
		gone := func(when string) {
			for _, was := range base {
				mine := find(before, was.ID)
				if at := l.Find(was.ID); at >= 0 && find(there, was.ID) < 0 && mine >= 0 && Equal(before[mine], was) {
					t.Fatalf("%s, %v was removed by others and is there", when, was)
				}
			}
			ids := map[string]bool{}
			for _, n := range l.All() {
				if ids[n.ID] {
					t.Fatalf("%s, two notes have the ID %s", when, n.ID)
				}
				ids[n.ID] = true
			}
		}
		gone("joined")
		for l.Redo() {
		}
		last := slices.Clone(l.All())
		for l.Undo() {
			gone("undone")
		}
		for l.Redo() {
			gone("done again")
		}
		if !sameSet(l.All(), last) {
			t.Fatalf("done again: %v, want %v", l.All(), last)
		}
	})
}

func actOrWalk(t *rapid.T, l *List) {
	switch rapid.IntRange(0, 4).Draw(t, "walk") {
	case 0:
		l.Undo()
	case 1:
		l.Redo()
	default:
		act(t, l)
	}
}

func sameSet(a, b []Note) bool {
	return len(a) == len(b) && !slices.ContainsFunc(a, func(n Note) bool {
		at := find(b, n.ID)
		return at < 0 || !reflect.DeepEqual(n, b[at])
	})
}

// A note that is selected stays though others removed it; a drag that others' notes come into
// is one step.
func TestJoinLeavesTheHandAlone(t *testing.T) {
	a, b := New(Label{ink.Pt(1, 1), 10}, "a"), New(Label{ink.Pt(2, 2), 10}, "b")
	l := NewList([]Note{a, b})
	l.Replace(a.Moved(ink.Pt(1, 0)), "move")
	if l.Join([]Note{a, b}, []Note{a}, b.ID) {
		t.Error("a selected note was taken away")
	}
	his := New(Label{ink.Pt(3, 3), 10}, "his")
	if !l.Join([]Note{a, b}, []Note{a, b, his}, "") || l.Find(his.ID) != 2 {
		t.Fatal("a note of others did not come in")
	}
	l.Replace(a.Moved(ink.Pt(2, 0)), "move")
	if undo, _ := l.Steps(); undo != 1 {
		t.Errorf("one drag is %d steps", undo)
	}
}
