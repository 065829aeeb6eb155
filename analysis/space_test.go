package analysis

import (
	"image"
	"math"
	"testing"

	"pgregory.net/rapid"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/internal/fixed"
	"app.tonedesk/analysis/internal/testkit"
)

// A picture of one colour reads in every space as the lightness of that colour: a Reading to half
// a bin, a spot to the last bit. Source: display_spaces_to_lab.csv, with its codes rounded to 8 bits
// by us and its L* computed again for them by the published definition, in colour's tests.
func TestReadInEverySpace(t *testing.T) {
	tab := testkit.ReadTable(t, "display_spaces_to_lab.csv")
	spaces := map[string]*colour.Space{"srgb": nil, "display-p3": colour.DisplayP3, "a98-rgb": colour.AdobeRGB, "rec2020": colour.Rec2020}
	for _, row := range tab.Rows {
		s, ok := spaces[row[0]]
		whole := func(column string) bool { v := 255 * tab.Number(row, column); return v == math.Round(v) }
		if !ok || !whole("r") || !whole("g") || !whole("b") {
			continue
		}
		code := func(column string) byte { return byte(255 * tab.Number(row, column)) }
		p := evenPicture(40, 30, code("r"), code("g"), code("b"))
		p.Space = s
		reading := Read(p, Options{})
		tab.Check(row, "L65", reading.Mean, 0.5/colour.BinsPerLightness+1e-9)
		spot, err := ReadSpot(p, 20, 10, 5)
		if err != nil {
			t.Fatal(err)
		}
		tab.Check(row, "L65", spot.Lightness, 1e-5)
		tab.Check(row, "a65", spot.Lab.A, 1e-5)
		tab.Check(row, "b65", spot.Lab.B, 1e-5)
		var patch Patch
		patch.Add(p, 1, 1)
		painted, _ := patch.Spot()
		tab.Check(row, "L65", painted.Lightness, 1e-4)
	}
}

// evenPicture is a picture of one colour.
func evenPicture(width, height int, r, g, b byte) Pixels {
	p := Pixels{Pix: make([]byte, 4*width*height), Stride: 4 * width, Width: width, Height: height}
	for i := 0; i < len(p.Pix); i += 4 {
		p.Pix[i], p.Pix[i+1], p.Pix[i+2], p.Pix[i+3] = r, g, b, 255
	}
	return p
}

// In every space the bin of a code is that of its lightness by the formula, or the next where
// that lies on the bin's edge.
func TestBinsInEverySpace(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.SampledFrom(colour.Spaces()).Draw(t, "space")
		c := colour.RGB{R: rapid.Byte().Draw(t, "r"), G: rapid.Byte().Draw(t, "g"), B: rapid.Byte().Draw(t, "b")}
		bin := fixed.CodesOf(s).Bins.Of(c.R, c.G, c.B)
		if exact := s.LabOfCode(c).L * colour.BinsPerLightness; math.Abs(float64(bin)-exact) > 0.5+1e-5 {
			t.Errorf("%v of %s is in bin %d, its lightness in %.4f", c, s.Name, bin, exact)
		}
	})
}

// A frame whose space alone is another is read anew.
func TestReadChangedInAnotherSpace(t *testing.T) {
	p, r := painting(200, 100, BGRX), NewReader()
	defer r.Close()
	for _, s := range []*colour.Space{nil, colour.AdobeRGB, colour.Rec2020, nil} {
		p.Space = s
		if got, want := r.ReadChanged(p, Options{}, image.Rectangle{}), Read(p, Options{}); got.Histogram != want.Histogram {
			t.Errorf("read in %s after another it has another histogram", s.Title())
		}
	}
}

// What hangs together is told in the picture's space: two greens that sRGB can't tell apart.
func TestGrowBeyondSRGB(t *testing.T) {
	p := evenPicture(20, 10, 0, 250, 0)
	for y := range 10 {
		for x := 10; x < 20; x++ {
			copy(p.Pix[y*p.Stride+4*x:], []byte{40, 250, 0, 255})
		}
	}
	p.Space = colour.Rec2020
	from, to := p.Space.LabOfCode(p.Pixel(0, 0)), p.Space.LabOfCode(p.Pixel(15, 0))
	apart := math.Sqrt(math.Pow(from.L-to.L, 2) + math.Pow(from.A-to.A, 2) + math.Pow(from.B-to.B, 2))
	for _, tt := range []struct {
		within float64
		want   int
	}{{apart - 0.1, 10}, {apart + 0.1, 20}} {
		g := Grow(p, nil, []Seed{{At: image.Pt(2, 2), Colour: p.Pixel(2, 2), Within: tt.within}})
		if run := g.row(2); len(run) != 1 || int(run[0].to) != tt.want {
			t.Errorf("within %.1f it grows to %v, want up to column %d", tt.within, run, tt.want)
		}
	}
}

// Two pictures of the same colours, in two spaces, differ in no lightness.
func TestChangeAcrossSpaces(t *testing.T) {
	before, after := evenPicture(16, 16, 128, 128, 128), evenPicture(16, 16, 128, 128, 128)
	after.Space = colour.Gamma22
	c, err := ChangeOf(before, after, nil, nil, 2)
	if err != nil {
		t.Fatal(err)
	}
	// L* of 128: sRGB 53.585, exponent 2.2 53.976 (SRGB, CIE15, computed apart): one bin apart.
	if bin := fixed.Bins.Of(128, 128, 128); c.difference[0] != binHundredths()[bin+1]-binHundredths()[bin] {
		t.Errorf("the difference is %d hundredths of a tone", c.difference[0])
	}
}

// BenchmarkReadInSpaces reads a painting in one space and in others, in turns.
func BenchmarkReadInSpaces(b *testing.B) {
	for _, s := range []*colour.Space{nil, colour.DisplayP3, colour.AdobeRGB} {
		b.Run(s.Title(), func(b *testing.B) {
			p := noise(1920, 1080, BGRX)
			p.Space = s
			benchmarkRead(b, p)
		})
	}
}
