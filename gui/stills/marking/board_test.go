package marking

import (
	"bytes"
	"errors"
	"image"
	"path/filepath"
	"testing"

	"app.tonedesk/analysis"
	"app.tonedesk/gui/stills"
	"app.tonedesk/gui/stills/ink"
	"app.tonedesk/gui/stills/notes"
)

// bench is a board with a still open, that lies in the drawn picture pixel by pixel, and what
// the board told.
type bench struct {
	*Board
	store  *stills.Store
	look   Look
	drawn  *image.RGBA
	told   map[string]int
	barred error
	panned image.Point
}

// newBench keeps a still, light on the left and dark on the right, and opens it.
func newBench(t *testing.T) *bench {
	t.Helper()
	b := &bench{store: stills.New(stills.Folders{Data: filepath.Join(t.TempDir(), "stills")}), told: map[string]int{}}
	b.look.View = notes.View{Scale: 1, Pixel: 1, Inside: image.Rect(0, 0, 400, 300)}
	count := func(what string) func() { return func() { b.told[what]++ } }
	b.Board = NewBoard(NewSaver(b.store, SaverEvents{Soon: func(func()) {}}), Acts{
		Look: func() Look { return b.look }, SpotSize: func() int { return 3 },
		Drawn:    func(layer *image.RGBA) { b.drawn = layer },
		Selected: count("selected"), Measured: count("measured"), Changed: count("changed"), Words: count("words"),
		Barred: func(why error) { b.barred = why },
		Pan:    func(by image.Point) { b.panned = b.panned.Add(by) },
	})
	t.Cleanup(func() {
		b.Close()
		b.saver.Flush()
	})
	b.Open(mark(t, b.store, keep(t, b.store)))
	return b
}

func keep(t *testing.T, s *stills.Store) (id string) {
	t.Helper()
	p := analysis.Pixels{Pix: make([]byte, 4*400*300), Stride: 4 * 400, Width: 400, Height: 300}
	for i := range p.Pix {
		p.Pix[i] = 220
		switch {
		case i%4 == 3:
			p.Pix[i] = 255
		case i/4%400 >= 200:
			p.Pix[i] = 90
		}
	}
	id, err := s.Keep(p, stills.Meta{}, nil)
	if err != nil {
		t.Fatal(err)
	}
	return id
}

func mark(t *testing.T, s *stills.Store, id string) *stills.Still {
	t.Helper()
	still, err := s.Mark(id)
	if err != nil {
		t.Fatal(err)
	}
	return still
}

// drag draws with the tool of a name.
func (b *bench) drag(t *testing.T, tool string, from, to ink.Point) {
	t.Helper()
	for i, tl := range Tools() {
		if tl.Name == tool {
			b.SetTool(i)
			b.Down(from.X, from.Y, false)
			for _, share := range []float64{0.25, 0.5, 0.75, 1} {
				at := from.Plus(to.Minus(from).Times(share))
				b.Move(at.X, at.Y, false)
			}
			b.Up()
			return
		}
	}
	t.Fatalf("there is no tool %q", tool)
}

// onDisk returns the notes of the still as they lie on the disk.
func (b *bench) onDisk(t *testing.T) []notes.Note {
	t.Helper()
	b.saver.Flush()
	still, err := b.store.Open(b.Still().ID)
	if err != nil {
		t.Fatal(err)
	}
	return still.Notes.Notes
}

// writtenAlike reports whether two notes are written down alike.
func writtenAlike(a, b notes.Note) bool {
	x, errX := a.MarshalJSON()
	y, errY := b.MarshalJSON()
	return errX == nil && errY == nil && bytes.Equal(x, y)
}

// Every kind of note is drawn, undone, done again, and there after opening anew.
func TestEveryTool(t *testing.T) {
	b := newBench(t)
	for i, tool := range Tools()[1:] {
		at := ink.Pt(float64(40+35*i), 60)
		b.drag(t, tool.Name, at, at.Plus(ink.Pt(20, 90)))
		if tool.text {
			b.Write("warmer here")
		}
	}
	before := b.Notes()
	if len(before) != len(Tools())-1 || b.told["words"] != 1 {
		t.Fatalf("%d notes by %d tools, words asked for %d times", len(before), len(Tools())-1, b.told["words"])
	}
	if m := b.Measure(); m.Light == nil || m.Shadow == nil {
		t.Fatal("painted light and shadow are not measured")
	}
	for b.Undo() {
	}
	if m := b.Measure(); len(b.Notes()) != 0 || m.Light != nil || m.Shadow != nil {
		t.Errorf("after undoing everything %d notes are left, measured is %+v", len(b.Notes()), m)
	}
	for _, p := range b.drawn.Pix {
		if p != 0 {
			t.Fatal("something of what was undone is still drawn")
		}
	}
	for b.Redo() {
	}
	again := b.onDisk(t)
	if len(again) != len(before) {
		t.Fatalf("%d notes on the disk, want %d", len(again), len(before))
	}
	for i, n := range again {
		if !writtenAlike(n, before[i]) {
			t.Errorf("note %d came back as %+v, was %+v", i, n, before[i])
		}
	}
}

// The selected note is nudged and deleted, both steps of undo; without one there is nothing
// to do.
func TestNudgeAndDelete(t *testing.T) {
	b := newBench(t)
	if b.Nudge(image.Pt(1, 0)) || b.Delete() || b.Unselect() || b.Undo() {
		t.Error("something is done to no note")
	}
	b.drag(t, "Box", ink.Pt(100, 100), ink.Pt(200, 180))
	was := b.Notes()[0].Shape.(notes.Box)
	if !b.Nudge(image.Pt(10, -1)) || b.Notes()[0].Shape.(notes.Box).From != was.From.Plus(ink.Pt(10, -1)) {
		t.Errorf("nudged by (10,-1), it went from %v to %v", was, b.Notes()[0].Shape)
	}
	if !b.Delete() || len(b.Notes()) != 0 {
		t.Error("it is not deleted")
	}
	if b.Undo(); !b.Undo() || b.Notes()[0].Shape != was {
		t.Errorf("undone twice, there are %+v", b.Notes())
	}
}

// A label that was given no words goes when it is left, by the next one as by a click beside.
func TestLabelWithoutWordsGoes(t *testing.T) {
	b := newBench(t)
	b.drag(t, "Label", ink.Pt(50, 50), ink.Pt(50, 50))
	b.Down(90, 90, false)
	b.Up()
	if n := len(b.Notes()); n != 1 {
		t.Errorf("%d labels after another was begun, want that alone", n)
	}
	if !b.Unselect() || len(b.Notes()) != 0 || len(b.onDisk(t)) != 0 {
		t.Errorf("%d labels without words stay", len(b.Notes()))
	}
}

// A still that another window marks is only shown: tools, clicks and keys do nothing to it, and
// why is said.
func TestBarredStill(t *testing.T) {
	b := newBench(t)
	b.drag(t, "Box", ink.Pt(100, 100), ink.Pt(200, 180))
	b.onDisk(t)
	other := newBench(t)
	other.SetTool(2)
	other.Close()
	other.Open(mark(t, b.store, b.Still().ID))
	if !errors.Is(other.barred, stills.ErrHeld) || other.Tool() != 0 {
		t.Errorf("barred by %v, with tool %d", other.barred, other.Tool())
	}
	other.barred = nil
	other.drag(t, "Ring", ink.Pt(100, 100), ink.Pt(200, 180)) // which takes hold at the box's corner instead
	if _, ok := other.Selected(); ok || other.barred == nil || len(other.Notes()) != 1 || other.list.Undo() {
		t.Errorf("said is %v, and there are %+v", other.barred, other.Notes())
	}
}
