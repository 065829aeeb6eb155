package overlay

import (
	"bytes"
	"image"
	"image/color"
	"image/draw"
	"math"
	"testing"

	"pgregory.net/rapid"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/families"
	_ "app.tonedesk/analysis/lawtest" // the same cases every time
	"app.tonedesk/analysis/views"
	"app.tonedesk/gui/guitest"
)

// grey is a picture of one grey.
func grey(size image.Point, v uint8) *image.RGBA {
	img := image.NewRGBA(image.Rectangle{Max: size})
	draw.Draw(img, img.Rect, image.NewUniform(color.Gray{Y: v}), image.Point{}, draw.Src)
	return img
}

// ramp is a picture no two of whose columns and rows are the same.
func ramp(size image.Point) *image.RGBA {
	img := image.NewRGBA(image.Rectangle{Max: size})
	for y := range size.Y {
		for x := range size.X {
			img.SetRGBA(x, y, color.RGBA{uint8(x), uint8(y), 100, 255})
		}
	}
	return img
}

func pixelsOf(img *image.RGBA) analysis.Pixels {
	return analysis.Pixels{Pix: img.Pix, Stride: img.Stride, Width: img.Rect.Dx(), Height: img.Rect.Dy(), Layout: analysis.RGBA}
}

// before is a picture as it is, in a place.
func before(img *image.RGBA, place image.Rectangle) Before {
	view, _ := views.ByKey("colour")
	return Before{Picture: pixelsOf(img), Place: place, View: view}
}

func changeOf(t rapid.TB, was, is *image.RGBA) *analysis.Change {
	t.Helper()
	c, err := analysis.ChangeOf(pixelsOf(was), pixelsOf(is), nil, nil, 0)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// found is one family: a light side left in a picture, a shadow side right of it.
func found(width, height int, light, shadow image.Rectangle) *families.Found {
	f := &families.Found{Width: width, Height: height, Map: make([]uint8, width*height)}
	for i := range f.Map {
		switch p := image.Pt(i%width, i/width); {
		case p.In(light):
			f.Map[i] = familyLight
		case p.In(shadow):
			f.Map[i] = familyShadow
		}
	}
	return f
}

// drawnIn returns the least rectangle outside of which an image is clear, and whether it is
// filled inside.
func drawnIn(img *image.RGBA) (box image.Rectangle, filled bool) {
	n := 0
	for y := img.Rect.Min.Y; y < img.Rect.Max.Y; y++ {
		for x := img.Rect.Min.X; x < img.Rect.Max.X; x++ {
			if img.RGBAAt(x, y) != (color.RGBA{}) {
				box = box.Union(image.Rect(x, y, x+1, y+1))
				n++
			}
		}
	}
	return box, n == box.Dx()*box.Dy()
}

// A picture twice as large as its pixels lies where its place is, each pixel as two by two,
// and nothing lies around it; the same goes for the map.
func TestDrawnInItsPlace(t *testing.T) {
	lay := Lay{Part: image.Rect(100, 50, 140, 80), Size: image.Pt(80, 60), Unit: 1}
	for name, tt := range map[string]struct{ place, want image.Rectangle }{
		"inside":         {image.Rect(110, 55, 130, 75), image.Rect(20, 10, 60, 50)},
		"cut at the top": {image.Rect(95, 40, 120, 60), image.Rect(0, 0, 40, 20)},
		"elsewhere":      {image.Rect(0, 0, 20, 20), image.Rectangle{}},
	} {
		picture := ramp(tt.place.Size())
		img := before(picture, tt.place).Draw(lay)
		if box, filled := drawnIn(img); box != tt.want || !filled {
			t.Errorf("%s: drawn in %v, filled %v, want %v", name, box, filled, tt.want)
		}
		for y := tt.want.Min.Y; y < tt.want.Max.Y; y++ {
			for x := tt.want.Min.X; x < tt.want.Max.X; x++ {
				at := image.Pt(x/2, y/2).Add(lay.Part.Min).Sub(tt.place.Min)
				if got, want := img.RGBAAt(x, y), picture.RGBAAt(at.X, at.Y); got != want {
					t.Fatalf("%s: pixel %d, %d is %v, want %v", name, x, y, got, want)
				}
			}
		}
		change := changeOf(t, grey(tt.place.Size(), 90), grey(tt.place.Size(), 60))
		if box, filled := drawnIn(Map(change, 5, tt.place, lay)); box != tt.want || !filled {
			t.Errorf("%s: the map is drawn in %v, filled %v, want %v", name, box, filled, tt.want)
		}
	}
}

// scenes draws a place and a lay of which it may lie outside.
func scenes(t *rapid.T) (image.Rectangle, Lay) {
	number := func(name string, from, to int) int { return rapid.IntRange(from, to).Draw(t, name) }
	rect := func(name string) image.Rectangle {
		at := image.Pt(number(name+" x", 0, 30), number(name+" y", 0, 30))
		return image.Rectangle{Min: at, Max: at.Add(image.Pt(number(name+" wide", 2, 40), number(name+" high", 2, 40)))}
	}
	place := rect("place")
	return place, Lay{Part: rect("part"), Size: image.Pt(number("width", 1, 90), number("height", 1, 90)), Unit: 1}
}

// What is drawn flipped, and flipped back, is what is drawn.
func TestFlippedTwice(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		place, lay := scenes(t)
		flipped := lay
		flipped.Flipped = true
		picture := ramp(place.Size())
		change := changeOf(t, picture, grey(place.Size(), 90))
		side := found(place.Dx(), place.Dy(), image.Rect(1, 1, place.Dx()/2, place.Dy()), image.Rectangle{})
		inside := func(lay Lay) Lay { lay.Part = lay.Part.Add(place.Min.Sub(lay.Part.Min)).Intersect(place); return lay }
		for name, draw := range map[string]func(Lay) *image.RGBA{
			"before":  before(picture, place).Draw,
			"map":     func(lay Lay) *image.RGBA { return Map(change, 5, place, lay) },
			"outline": func(lay Lay) *image.RGBA { return Outline(side, 0, place, inside(lay)) },
		} {
			want, got := draw(lay), draw(flipped)
			if views.FlipLeftRight(got.Pix, lay.Size.X, lay.Size.Y); !bytes.Equal(got.Pix, want.Pix) {
				t.Fatalf("%s: flipped back it is another", name)
			}
		}
	})
}

// Two places that meet are drawn beside each other, without a gap, and neither over the other.
func TestPlacesMeet(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		place, lay := scenes(t)
		left, right := place, place
		left.Max.X = place.Min.X + rapid.IntRange(1, place.Dx()-1).Draw(t, "cut")
		right.Min.X = left.Max.X
		count := func(place image.Rectangle) (n int) {
			for i, a := range before(grey(place.Size(), 90), place).Draw(lay).Pix {
				if i%4 == 3 && a != 0 {
					n++
				}
			}
			return n
		}
		if a, b, all := count(left), count(right), count(place); a+b != all {
			t.Fatalf("%d and %d pixels, together %d", a, b, all)
		}
	})
}

// Left of the line lies the picture, right of it nothing, wherever the line is; the grip is on the
// line, of its size, and neutral.
func TestDivided(t *testing.T) {
	picture := grey(image.Pt(40, 10), 90)
	for _, x := range []int{-5, 0, 1, 20, 39, 40, 50} {
		img := Divided(picture, Grip{At: image.Pt(x, 400), Wide: 28, High: 32}, 1) // the grip lies outside
		at := min(max(x, 0), 40)
		for px := range 40 {
			want := color.RGBA{}
			switch {
			case px == at-1 || px == at:
				want = light
			case px == at-2 || px == at+1:
				want = dark
			case px < at:
				want = color.RGBA{90, 90, 90, 255}
			}
			if got := img.RGBAAt(px, 5); got != want {
				t.Errorf("divided at %d, column %d is %v, want %v", x, px, got, want)
			}
		}
	}
	for _, unit := range []float64{1, 1.5, 2} {
		img := Divided(image.NewRGBA(image.Rect(0, 0, 200, 200)), Grip{At: image.Pt(100, 100), Wide: 28, High: 32}, unit)
		guitest.AssertNeutral(t, img)
		row := image.NewRGBA(image.Rect(0, 0, 200, 1)) // through the grip's middle
		copy(row.Pix, img.Pix[100*img.Stride:101*img.Stride])
		if box, _ := drawnIn(row); math.Abs(float64(box.Dx())-28*unit) > 2 {
			t.Errorf("at %g pixels a unit the grip is %d wide", unit, box.Dx())
		}
	}
}

// A name that finds no room gives way to the next, and the last to smaller letters: none is cut.
func TestFitName(t *testing.T) {
	const long, short = "today 22:01", "before"
	widths := func(words string, unit float64) float64 {
		img := image.NewRGBA(image.Rect(0, 0, 2000, 100))
		Name(img, words, false, unit)
		box, _ := drawnIn(img)
		return float64(box.Max.X)
	}
	for _, unit := range []float64{1, 1.5, 2, 4} {
		for room := 40.0; room < 400; room += 7 {
			name, fitted := FitName(room, unit, long, short)
			switch whole := widths(long, unit); {
			case name != "" && widths(name, fitted) > room+1:
				t.Errorf("unit %g, room %g: %q at %g ends at %g", unit, room, name, fitted, widths(name, fitted))
			case fitted > unit, name != "" && name != long && name != short:
				t.Errorf("unit %g, room %g: %q at %g", unit, room, name, fitted)
			case room > whole+step*unit && (name != long || fitted != unit):
				t.Errorf("unit %g, room %g for %g: %q at %g", unit, room, whole, name, fitted)
			case name == "" && widths(short, leastNames*unit) < room-step:
				t.Errorf("unit %g, room %g: no name", unit, room)
			}
		}
	}
}

// A name stands in its half of the image, near the top, and is neutral.
func TestName(t *testing.T) {
	for _, right := range []bool{false, true} {
		for name, unit := range map[string]float64{"before": 1, "now": 1.5, "flats": 2, "a name that is far too long for a half": 1.25} {
			img := image.NewRGBA(image.Rect(0, 0, 400, 200))
			name, fitted := FitName(NameRoom(img, false), unit, name)
			Name(img, name, right, fitted)
			guitest.AssertNeutral(t, img)
			half := image.Rect(0, 0, 200, 100)
			if right {
				half = half.Add(image.Pt(200, 0))
			}
			if box, _ := drawnIn(img); box.Empty() || !box.In(half) {
				t.Errorf("right %v, %g pixels a unit: the name stands in %v", right, unit, box)
			}
		}
	}
}
