package families

import (
	"image"
	"math"
	"testing"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
)

// Colours of a room and of the workspace around it: invented.
var (
	wall     = colour.RGB{R: 205, G: 190, B: 160}
	floor    = colour.RGB{R: 150, G: 132, B: 104}
	surround = colour.RGB{R: 84, G: 84, B: 84}
)

// room is a ball before a wall and a floor: two layers of a background, as light and shadow of
// one colour would be.
func room(x, y float64) colour.RGB {
	b := skinBall()
	if c, ok := b.at(x, y); ok {
		return c
	}
	if y < 200 {
		return wall
	}
	return floor
}

// onlyTheBall fails unless the ball is all that is found.
func onlyTheBall(t *testing.T, name string, p analysis.Pixels, out *analysis.Mask) {
	t.Helper()
	found := Find(p, out, DefaultRules())
	if len(found.List) != 1 || labFar(found.List[0].Light.Colour, skinLight) > 3 || labFar(found.List[0].Shadow.Colour, skinShadow) > 3 {
		t.Errorf("%s: %d families", name, len(found.List))
		for _, f := range found.List {
			t.Errorf("light %v, shadow %v", f.Light.Colour.Hex(), f.Shadow.Colour.Hex())
		}
	}
}

func labFar(a, b colour.RGB) float64 {
	lab := func(c colour.RGB) colour.Lab {
		return colour.LabOf(colour.Linear(c.R), colour.Linear(c.G), colour.Linear(c.B))
	}
	p, q := lab(a), lab(b)
	return math.Sqrt((p.L-q.L)*(p.L-q.L) + (p.A-q.A)*(p.A-q.A) + (p.B-q.B)*(p.B-q.B))
}

// What is left out around the canvas is the picture's border: a background that ends there is
// one, whether by whole rows, by areas of any place, or around a turned canvas.
func TestLeftOutIsTheBorder(t *testing.T) {
	alone := drawn(640, 480, room)
	onlyTheBall(t, "the room alone", alone, nil)

	framed := drawn(900, 700, func(x, y float64) colour.RGB {
		if x, y = x-130, y-110; x < 0 || y < 0 || x >= 640 || y >= 480 {
			return surround
		}
		return room(x, y)
	})
	canvas := image.Rect(130, 110, 770, 590)
	onlyTheBall(t, "whole rows and columns", framed, &analysis.Mask{Areas: analysis.Around(framed.Bounds(), canvas)})
	grown := analysis.Grow(framed, nil, []analysis.Seed{{At: image.Pt(1, 1), Colour: surround, Within: 3}})
	onlyTheBall(t, "the workspace's colour", framed, &analysis.Mask{Grown: grown})

	// panels that float over the corners of a canvas that fills the view: no row or column of
	// the frame is left out as a whole, and the layers meet them beside the frame
	panels := []image.Rectangle{image.Rect(0, 0, 90, 470), image.Rect(550, 10, 640, 480), image.Rect(80, 0, 560, 40), image.Rect(60, 430, 560, 480)}
	onlyTheBall(t, "areas of any place", alone, &analysis.Mask{Areas: panels})

	for _, degrees := range []float64{7, 30, 45} {
		sin, cos := math.Sincos(degrees * math.Pi / 180)
		turned := drawn(900, 900, func(x, y float64) colour.RGB {
			x, y = x-450, y-450
			if x, y = 320+cos*x+sin*y, 240+cos*y-sin*x; x < 0 || y < 0 || x >= 640 || y >= 480 {
				return surround
			}
			return room(x, y)
		})
		grown := analysis.Grow(turned, nil, []analysis.Seed{{At: image.Pt(1, 1), Colour: surround, Within: 3}})
		onlyTheBall(t, "a turned canvas", turned, &analysis.Mask{Grown: grown})
	}
}

// A workspace that is seen around the canvas is the picture's border too, counted or not: the same
// is found as where it is left out. Shares are of what counts for whoever asks.
func TestWorkspaceIsTheBorder(t *testing.T) {
	framed := drawn(900, 700, func(x, y float64) colour.RGB {
		if x, y = x-130, y-110; x < 0 || y < 0 || x >= 640 || y >= 480 {
			return surround
		}
		return room(x, y)
	})
	around := &analysis.Mask{Areas: analysis.Around(framed.Bounds(), image.Rect(130, 110, 770, 590))}
	counted := analysis.Mask{Areas: around.Areas[:2]} // what lies above and below alone is left out
	whole := *Find(framed, around, DefaultRules()).List[0].Share * 640 * 480
	for _, tt := range []struct {
		name  string
		out   *analysis.Mask
		pixel float64
	}{{"all counts", nil, 900 * 700}, {"a part of it", &counted, 900 * 480}, {"none of it", around, 640 * 480}} {
		onlyTheBall(t, tt.name, framed, tt.out)
		if got := *Find(framed, tt.out, DefaultRules()).List[0].Share * tt.pixel; math.Abs(got-whole) > 0.01*whole {
			t.Errorf("%s: %.0f pixels, want %.0f", tt.name, got, whole)
		}
	}
}

// Paper that is left out by its colour is no border: the figures on it are no backgrounds.
func TestPaperLeftOutIsNoBorder(t *testing.T) {
	p := balls(640, 480, paper, skinBall())
	grown := analysis.Grow(p, nil, []analysis.Seed{{At: image.Pt(1, 1), Colour: paper, Within: 3}})
	onlyTheBall(t, "paper by its colour", p, &analysis.Mask{Grown: grown})
}

// The border's length is that of the frame where nothing is left out, and of what is counted
// where areas are.
func TestBorderLength(t *testing.T) {
	f := NewFinder()
	defer f.Close()
	p := drawn(60, 40, func(x, y float64) colour.RGB { return paper })
	for _, tt := range []struct {
		name string
		out  *analysis.Mask
		want int
	}{
		{"nothing", nil, 2 * (60 + 40)},
		{"a corner", &analysis.Mask{Areas: []image.Rectangle{image.Rect(50, 30, 70, 50)}}, 2 * (60 + 40)}, // a step is as long as a corner
		{"a bay", &analysis.Mask{Areas: []image.Rectangle{image.Rect(20, 0, 30, 15)}}, 2*(60+40) + 2*15},
		{"a hole", &analysis.Mask{Areas: []image.Rectangle{image.Rect(20, 10, 30, 15)}}, 2*(60+40) + 2*(10+5)},
		{"a side", &analysis.Mask{Areas: []image.Rectangle{image.Rect(0, 0, 20, 40)}}, 2 * (40 + 40)},
	} {
		if f.Take(p, tt.out); f.source.border != tt.want {
			t.Errorf("%s: %d cells, want %d", tt.name, f.source.border, tt.want)
		}
	}
}

// What lies around a canvas makes its cells no coarser, up to as much as the canvas has itself.
func TestCellsOfACanvas(t *testing.T) {
	canvas := image.Rect(66, 46, 1166, 824)
	for _, whole := range []image.Rectangle{image.Rect(0, 0, 1232, 870), image.Rect(0, 0, 1500, 1100), canvas.Sub(canvas.Min)} {
		at := canvas
		if whole.Size() == canvas.Size() {
			at = whole
		}
		mask := &analysis.Mask{Areas: append(analysis.Around(whole, at), image.Rect(300, 300, 340, 340))}
		if got := canvasOf(whole.Dx(), whole.Dy(), mask); got != at {
			t.Errorf("in %v: canvas %v, want %v", whole, got, at)
		}
		grid := gridOf(whole.Size(), at)
		cells := grid.X.Parts() * grid.Y.Parts() * float64(at.Dx()*at.Dy()) / float64(whole.Dx()*whole.Dy())
		if math.Abs(cells-familyCells) > 0.01*familyCells {
			t.Errorf("in %v: %.0f cells of the canvas", whole, cells)
		}
	}
	grid := gridOf(image.Pt(3840, 2160), canvas)
	if cells := grid.X.Parts() * grid.Y.Parts(); math.Abs(cells-mostCells) > 0.01*mostCells {
		t.Errorf("%.0f cells around a small canvas", cells)
	}
}
