package marking

import (
	"bytes"
	"errors"
	"image"
	"testing"

	"app.tonedesk/gui/stills/ink"
	"app.tonedesk/gui/stills/notes"
)

// A note that is carried is drawn anew where it was and where it is, no further, and looks
// as if all were drawn anew; it is saved when it is let go of, and not before.
func TestCarryingDrawsWhatMoved(t *testing.T) {
	b := newBench(t)
	for _, tool := range Tools()[1:] {
		if _, ok := tool.begin(b.Board, ink.Pt(60, 100)).(notes.Drawn); ok {
			b.drag(t, tool.Name, ink.Pt(60, 100), ink.Pt(120, 180))
			b.Write("numbered")
		}
	}
	b.SetTool(0)
	far := b.drawn.PixOffset(398, 298)
	for i, n := range b.Notes() {
		before := b.onDisk(t)
		b.Select(n.ID)
		b.pen = pen{held: &n, from: ink.Point{X: 90, Y: 140}}
		b.drawn.Pix[far] = 77
		for _, to := range []float64{95, 110, 130, 118} {
			b.Move(to, 150, false)
			if b.drawn.Pix[far] != 77 {
				t.Fatalf("%T: all is drawn anew", n.Shape)
			}
		}
		b.drawn.Pix[far] = 0
		drawn := bytes.Clone(b.drawn.Pix)
		b.draw()
		if !bytes.Equal(drawn, b.drawn.Pix) {
			t.Errorf("%T looks otherwise when all is drawn anew", n.Shape)
		}
		if now := b.onDisk(t); !writtenAlike(now[i], before[i]) {
			t.Errorf("%T is saved while it is carried", n.Shape)
		}
		b.Up()
		if now := b.onDisk(t); !writtenAlike(now[i], b.Notes()[i]) || writtenAlike(now[i], before[i]) {
			t.Errorf("%T is not saved when it is let go of", n.Shape)
		}
	}
}

// A press takes hold of a note's line, not of what lies in it; where there is none a drag moves
// the picture. Carrying is one step of undo.
func TestTakingHold(t *testing.T) {
	b := newBench(t)
	b.drag(t, "Box", ink.Pt(100, 100), ink.Pt(200, 180))
	was := b.Notes()[0].Shape
	b.drag(t, "Select", ink.Pt(150, 140), ink.Pt(140, 145))
	if _, ok := b.Selected(); ok || b.Notes()[0].Shape != was || b.panned == (image.Point{}) {
		t.Errorf("a drag inside of the box selects it, or moves the picture by %v only", b.panned)
	}
	b.drag(t, "Select", ink.Pt(150, 91), ink.Pt(180, 121))
	if b.Notes()[0].Shape != was {
		t.Error("a press nine pixels beside the line takes hold of it")
	}
	b.drag(t, "Select", ink.Pt(150, 96), ink.Pt(180, 126))
	if got := b.Notes()[0].Shape; got != was.Moved(ink.Pt(30, 30)) {
		t.Errorf("carried by (30,30), %v became %v", was, got)
	}
	if b.Undo(); b.Notes()[0].Shape != was {
		t.Errorf("undone, it is %v, was %v", b.Notes()[0].Shape, was)
	}
}

// A mere click draws nothing that has a size, and nothing is drawn beyond the still.
func TestDrawingHasALeastSize(t *testing.T) {
	b := newBench(t)
	b.drag(t, "Ring", ink.Pt(50, 50), ink.Pt(52, 50))
	if n := len(b.Notes()); n != 0 {
		t.Errorf("%d rings of two pixels", n)
	}
	b.drag(t, "Arrow", ink.Pt(390, 290), ink.Pt(500, -100))
	if got := b.Notes()[0].Shape.(notes.Arrow).To; got != ink.Pt(400, 0) {
		t.Errorf("drawn beyond the corner, the tip lies at %v", got)
	}
}

// Even sides are those of a square, and an even way goes by eighths of a circle.
func TestEven(t *testing.T) {
	from := ink.Pt(10, 10)
	straight := func(to ink.Point) ink.Point {
		return notes.Arrow{From: from}.DrawnTo(to, true).(notes.Arrow).To
	}
	if got := (notes.Box{From: from}).DrawnTo(ink.Pt(40, -10), true).(notes.Box).To; got != ink.Pt(40, -20) {
		t.Errorf("the corner lies at %v", got)
	}
	if got := straight(ink.Pt(50, 13)); got.Y != 10 {
		t.Errorf("nearly level, the way ends at %v", got)
	}
	if got := straight(ink.Pt(40, 45)).Minus(from); got.X-got.Y > 1e-9 || got.Y-got.X > 1e-9 {
		t.Errorf("nearly aslant, the way goes %v", got)
	}
}

// What is left while it is carried stays where it is by then, and is saved; what is being
// drawn is none, and not measured.
func TestLeaving(t *testing.T) {
	b := newBench(t)
	b.drag(t, "Box", ink.Pt(100, 100), ink.Pt(200, 180))
	b.SetTool(0)
	b.Down(150, 100, false)
	b.Move(180, 130, false)
	id, want := b.Still().ID, b.Notes()[0]
	b.Close()
	b.saver.Flush()
	again, err := b.store.Open(id)
	if err != nil || len(again.Notes.Notes) != 1 || !writtenAlike(again.Notes.Notes[0], want) || b.drawn != nil {
		t.Fatalf("on the disk: %v, %v; want %v", again.Notes.Notes, err, want)
	}
	b.Open(mark(t, b.store, id))
	b.SetTool(len(Tools()) - 1) // paints shadow
	b.Down(50, 50, false)
	b.Move(90, 50, false)
	if b.Measure().Shadow == nil {
		t.Error("what is being painted is not measured")
	}
	b.Leave()
	if m := b.Measure(); m.Shadow != nil || len(b.Notes()) != 1 {
		t.Errorf("left, %d notes are there, and measured is %+v", len(b.Notes()), m)
	}
}

// The layer is drawn anew when the still lies otherwise, mirrored with its picture.
func TestLayerFollows(t *testing.T) {
	b := newBench(t)
	b.drag(t, "Box", ink.Pt(20, 100), ink.Pt(80, 180))
	b.Unselect()
	alpha := func(x, y int) uint8 { return b.drawn.RGBAAt(x, y).A }
	if alpha(20, 140) == 0 || alpha(379, 140) != 0 {
		t.Fatal("the box is not drawn where it lies")
	}
	b.look.Flipped = true
	b.Renew()
	if alpha(20, 140) != 0 || alpha(379, 140) == 0 {
		t.Error("mirrored, the box is drawn where it lay")
	}
	b.SetTool(1) // a stroke
	b.Down(100, 50, false)
	b.Move(150, 90, false)
	follows := bytes.Clone(b.drawn.Pix)
	if b.draw(); !bytes.Equal(follows, b.drawn.Pix) {
		t.Error("mirrored, what follows the pen is drawn elsewhere than the stroke")
	}
	b.Leave()
	b.look.Flipped, b.look.View.Origin, b.look.View.Inside = false, ink.Pt(10, 0), image.Rect(0, 0, 200, 150)
	b.Renew()
	if b.drawn.Rect.Size() != image.Pt(200, 150) || alpha(10, 140) == 0 || alpha(20, 140) != 0 {
		t.Errorf("moved by 10, the layer of %v has the box elsewhere", b.drawn.Rect)
	}
	b.drawn.Pix[0] = 77
	if b.Renew(); b.drawn.Pix[0] != 77 {
		t.Error("it is drawn anew though nothing changed")
	}
}

// A still that has as many notes as there may be takes no more, and says so.
func TestFullStill(t *testing.T) {
	b := newBench(t)
	n := notes.New(notes.Ring{From: ink.Pt(1, 1), To: ink.Pt(9, 9), Width: 2}, "")
	list := make([]notes.Note, notes.Most-1)
	for i := range list {
		list[i] = notes.New(n.Shape, "")
	}
	b.list = notes.NewList(list)
	for range 2 {
		b.drag(t, "Arrow", ink.Pt(60, 100), ink.Pt(120, 180))
	}
	if len(b.Notes()) != notes.Most || !errors.Is(b.barred, notes.ErrFull) {
		t.Errorf("it has %d notes, said %v", len(b.Notes()), b.barred)
	}
}
