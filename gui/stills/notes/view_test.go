package notes

import (
	"bytes"
	"image"
	"image/draw"
	"math"
	"testing"

	"pgregory.net/rapid"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/gui/stills/ink"
)

func someView(t *rapid.T) View {
	return View{
		Origin: ink.Pt(float64(rapid.IntRange(-100, 100).Draw(t, "x")), float64(rapid.IntRange(-100, 100).Draw(t, "y"))),
		Scale:  math.Exp2(float64(rapid.IntRange(-12, 12).Draw(t, "scale")) / 4),
		Pixel:  1,
	}
}

// ground is a picture of middle grey.
func ground(w, h int) *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	draw.Draw(img, img.Rect, image.NewUniform(image.White), image.Point{}, draw.Src)
	for i := range img.Pix {
		img.Pix[i] = 120 | uint8(i%4/3*255)
	}
	return img
}

// A note draws inside its bounds, at any place and scale; so drawing its bounds anew, before
// and after it was moved, is enough.
func TestNoteStaysInBounds(t *testing.T) {
	d := new(ink.Drawer)
	rapid.Check(t, func(t *rapid.T) {
		n, v := someNote(t), someView(t)
		if rapid.Bool().Draw(t, "selected") {
			v.Selected = n.ID
		}
		img := ground(300, 200)
		d.Draw(img, img.Rect, v.Marks([]Note{n}))
		bounds := v.Bounds(n)
		for y := range 200 {
			for x := range 300 {
				if img.RGBAAt(x, y).R != 120 && !image.Pt(x, y).In(bounds) {
					t.Fatalf("pixel %d,%d outside %v", x, y, bounds)
				}
			}
		}
	})
}

// Every kind is there, is taken hold of where it is drawn, moves there, and lies above
// areas.
func TestTop(t *testing.T) {
	list := []Note{
		New(Ring{ink.Pt(10, 10), ink.Pt(110, 70), 2}, ""),
		New(Stroke{[]ink.Point{ink.Pt(200, 10), ink.Pt(300, 100)}, 3}, ""),
		New(Arrow{ink.Pt(200, 200), ink.Pt(300, 200), 3}, ""),
		New(Box{ink.Pt(20, 200), ink.Pt(80, 260), 3}, ""),
		New(Label{ink.Pt(20, 350), 20}, "lost edge"),
		New(Spot{At: ink.Pt(250, 350), Reading: analysis.SpotOf(colour.RGB{R: 9, G: 9, B: 9})}, ""),
		New(Area{Shadow, []ink.Point{ink.Pt(20, 20), ink.Pt(90, 60)}, 60}, ""),
	}
	if len(kinds) != len(list) {
		t.Errorf("%d kinds, %d are tried", len(kinds), len(list))
	}
	on := []ink.Point{
		ink.Pt(10, 40), ink.Pt(250, 55), ink.Pt(250, 201), ink.Pt(50, 200), ink.Pt(30, 345), ink.Pt(251, 350), ink.Pt(60, 45),
	}
	v := View{Scale: 1, Pixel: 1}
	for i, p := range on {
		if got := v.Top(list, p, 2); got != i {
			t.Errorf("at %v lies note %d, want %d", p, got, i)
		}
		way := ink.Pt(500, 30)
		if got := v.Top([]Note{list[i].Moved(way)}, p.Plus(way), 2); got != 0 {
			t.Errorf("note %d is not found where it was moved to", i)
		}
		if got := v.Top([]Note{list[i].Moved(way)}, p, 2); got != -1 {
			t.Errorf("note %d is still where it was", i)
		}
		double := View{Scale: 2, Pixel: 1, Origin: ink.Pt(5, 5)}
		if got := double.Top(list, double.To(p), 2); got != i {
			t.Errorf("enlarged, at %v lies note %d, want %d", p, got, i)
		}
	}
	if got := v.Top(list, ink.Pt(150, 300), 4); got != -1 {
		t.Errorf("where there is nothing lies note %d", got)
	}
}

// Numbers run over what says something: texts and readings.
func TestNumbers(t *testing.T) {
	list := []Note{
		New(Ring{}, ""), New(Ring{}, "here"), New(Spot{}, ""), New(Area{}, ""), {raw: []byte("{}"), Text: "x"}, New(Label{}, "there"),
	}
	want := []int{0, 1, 2, 0, 0, 3}
	for i, got := range Numbers(list) {
		if got != want[i] {
			t.Errorf("note %d has number %d, want %d", i, got, want[i])
		}
	}
}

// Of a spot at any place its number and its reading lie in the picture with their rims, and
// neither over the other.
func TestKeptInside(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := image.Rect(0, 0, rapid.IntRange(110, 300).Draw(t, "wide"), rapid.IntRange(60, 300).Draw(t, "high"))
		v := View{Scale: 1, Pixel: 1, Inside: in}
		at := ink.Pt(rapid.Float64Range(0, float64(in.Max.X)).Draw(t, "x"), rapid.Float64Range(0, float64(in.Max.Y)).Draw(t, "y"))
		marks := v.Marks([]Note{New(Spot{At: at, Reading: analysis.SpotOf(colour.RGB{R: 255, G: 255, B: 255})}, "")})
		reading, disc, number := marks[1].Bounds(), marks[2].Bounds(), marks[3].Bounds() // over the ring
		if !reading.Union(disc).In(in) || !number.In(disc) || reading.Inset(2).Overlaps(disc.Inset(2)) {
			t.Fatalf("in %v the reading of a spot at %v lies in %v, its number in %v", in, at, reading, disc)
		}
	})
}

// busy is a still's worth of notes, more than anybody draws.
func busy() []Note {
	var list []Note
	for i := range 100 {
		s := Stroke{Width: 4}
		for k := range 200 {
			a := float64(k) / 20
			s.Points = append(s.Points, ink.Pt(float64(i*18)+80*math.Cos(a), 540+400*math.Sin(a+float64(i))))
		}
		list = append(list, New(s, "a word on this"))
	}
	return list
}

// The next point of a stroke over a hundred others, on a picture of 1920x1080: what is below
// is copied and all notes drawn where the stroke grew. Budget: 10 ms.
func BenchmarkNextPointOverManyNotes(b *testing.B) {
	list, shown, still := busy(), ground(1920, 1080), ground(1920, 1080)
	v, d := View{Scale: 1, Pixel: 1}, new(ink.Drawer)
	s := Stroke{[]ink.Point{ink.Pt(900, 500)}, 4}
	b.ReportAllocs()
	for b.Loop() {
		last := s.Points[len(s.Points)-1]
		next := last.Plus(ink.Pt(3, 1))
		if next.X > 1900 {
			next = ink.Pt(20, 400)
		}
		s.Points = append(s.Points[max(0, len(s.Points)-300):], next)
		dirty := v.Bounds(New(Stroke{[]ink.Point{last, next}, s.Width}, ""))
		draw.Draw(shown, dirty, still, dirty.Min, draw.Src)
		d.Draw(shown, dirty, v.Marks(append(list[:len(list):len(list)], Note{Shape: s})))
	}
}

// All of a hundred strokes, as after a zoom. Budget: 100 ms.
func BenchmarkManyNotes(b *testing.B) {
	list, shown := busy(), ground(1920, 1080)
	v, d := View{Scale: 1, Pixel: 1}, new(ink.Drawer)
	for b.Loop() {
		d.Draw(shown, shown.Rect, v.Marks(list))
	}
}

// Drawn one after the other notes look as if all of their marks were drawn.
func TestDrawOneAfterTheOther(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		list, v := rapid.SliceOfN(rapid.Custom(someNote), 0, 6).Draw(t, "notes"), someView(t)
		if len(list) > 0 {
			v.Selected = list[0].ID
		}
		all, each := ground(300, 200), ground(300, 200)
		new(ink.Drawer).Draw(all, all.Rect, v.Marks(list))
		v.Draw(new(ink.Drawer), each, each.Rect, list)
		if !bytes.Equal(all.Pix, each.Pix) {
			t.Fatal("they look different")
		}
	})
}
