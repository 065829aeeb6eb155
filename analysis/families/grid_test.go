package families

import (
	"image"
	"slices"
	"testing"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
)

// inWorkspace lays a picture on grey of a size, with its corner at a place.
func inWorkspace(p analysis.Pixels, size, at image.Point) analysis.Pixels {
	out := analysis.Pixels{Width: size.X, Height: size.Y, Stride: 4 * size.X, Pix: make([]byte, 4*size.X*size.Y), Layout: p.Layout}
	for i := range size.X * size.Y {
		copy(out.Pix[4*i:], []byte{83, 83, 83, 255})
	}
	for y := range p.Height {
		copy(out.Pix[(y+at.Y)*out.Stride+4*at.X:], p.Row(y))
	}
	return out
}

// Wherever a canvas lies in a workspace, its cells are those of the canvas alone, and so is what is found
// on it.
func TestACanvasHasItsOwnCells(t *testing.T) {
	lined := skinBall()
	lined.line, lined.ink = 6, colour.RGB{R: 40, G: 20, B: 30}
	p := balls(640, 480, paper, lined)
	alone, f := NewFinder(), NewFinder()
	defer alone.Close()
	defer f.Close()
	alone.Take(p, nil)
	want := alone.Find(DefaultRules())
	if len(sureOf(want)) != 1 {
		t.Fatalf("%d families, want 1", len(sureOf(want)))
	}
	for _, at := range []image.Point{{60, 40}, {61, 42}, {97, 13}} {
		framed := inWorkspace(p, image.Pt(760, 560), at)
		f.Take(framed, &analysis.Mask{Areas: analysis.Around(framed.Bounds(), p.Bounds().Add(at))})
		first := image.Pt(f.source.grid.X.CentreAt(at.X), f.source.grid.Y.CentreAt(at.Y))
		for y := range alone.source.down {
			row := (first.Y+y)*f.source.across + first.X
			got, own := f.source.linear[3*row:][:3*alone.source.across], alone.source.linear[3*y*alone.source.across:][:3*alone.source.across]
			if !slices.Equal(got, own) || !slices.Equal(f.source.dark[row:][:alone.source.across], alone.source.dark[y*alone.source.across:][:alone.source.across]) {
				t.Fatalf("at %v: row %d of cells is not that of the canvas alone", at, y)
			}
		}
		found := f.Find(DefaultRules())
		if len(sureOf(found)) != 1 {
			t.Errorf("at %v: %d families, want 1", at, len(sureOf(found)))
			continue
		}
		got, own := sureOf(found)[0], sureOf(want)[0]
		if got.Light.Colour != own.Light.Colour || got.Shadow.Colour != own.Shadow.Colour {
			t.Errorf("at %v: %v and %v, want %v and %v", at, got.Light.Colour, got.Shadow.Colour, own.Light.Colour, own.Shadow.Colour)
		}
		if place := image.Pt(*got.Light.X, *got.Light.Y).Sub(at); place != image.Pt(*own.Light.X, *own.Light.Y) {
			t.Errorf("at %v: its light lies at %v of the canvas, alone at %v, %v", at, place, *own.Light.X, *own.Light.Y)
		}
		// The map covers the picture evenly: the light's own place is in the light.
		x, y := *got.Light.X*found.Width/framed.Width, *got.Light.Y*found.Height/framed.Height
		if found.Map[y*found.Width+x] != mapRole(0, lightSide) {
			t.Errorf("at %v: its light's place is %d on the map", at, found.Map[y*found.Width+x])
		}
	}
}
