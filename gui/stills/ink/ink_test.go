package ink

import (
	"image"
	"image/color"
	"image/draw"
	"math"
	"testing"

	"pgregory.net/rapid"

	_ "app.tonedesk/analysis/lawtest" // the same cases every time
)

// ground returns a picture of one grey.
func ground(w, h int, grey uint8) *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	draw.Draw(img, img.Rect, image.NewUniform(color.Gray{Y: grey}), image.Point{}, draw.Src)
	return img
}

// somePoint draws a place in or around a small picture.
func somePoint(t *rapid.T) Point {
	return Pt(float64(rapid.IntRange(-400, 2000).Draw(t, "x"))/8, float64(rapid.IntRange(-400, 2000).Draw(t, "y"))/8)
}

func someMark(t *rapid.T) Mark {
	m := Mark{Grey: LightGrey, RimGrey: DarkGrey, Rim: float64(rapid.IntRange(0, 12).Draw(t, "rim")) / 4}
	for range rapid.IntRange(0, 3).Draw(t, "lines") {
		m.Lines = append(m.Lines, Line{
			Points: rapid.SliceOfN(rapid.Custom(somePoint), 1, 6).Draw(t, "points"),
			Closed: rapid.Bool().Draw(t, "closed"), Width: float64(rapid.IntRange(1, 160).Draw(t, "width")) / 4,
		})
	}
	switch rapid.IntRange(0, 2).Draw(t, "kind") {
	case 0:
		m.Hollow, m.Hatch = 1.5, Falling
	case 1:
		m.Text = Text{Bold, "gä8", somePoint(t), 30}
		if rapid.Bool().Draw(t, "large") { // too large to be stamped
			m.Text.Size = 70
		}
		m.Halo = 2
	}
	return m
}

// What is drawn in two parts is, to the last bit, what is drawn at once: the window may
// draw only what changed.
func TestPartsMakeTheWhole(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		marks := rapid.SliceOfN(rapid.Custom(someMark), 1, 3).Draw(t, "marks")
		whole, parts := ground(200, 180, 90), ground(200, 180, 90)
		new(Drawer).Draw(whole, whole.Rect, marks)
		at := rapid.IntRange(0, 200).Draw(t, "at")
		d := new(Drawer)
		d.Draw(parts, image.Rect(at, -5, 300, 300), marks)
		d.Draw(parts, image.Rect(-7, 0, at, 180), marks)
		for i := range whole.Pix {
			if whole.Pix[i] != parts.Pix[i] {
				t.Fatalf("byte %d is %d in the whole and %d in parts at %d", i, whole.Pix[i], parts.Pix[i], at)
			}
		}
	})
}

// A mark touches no pixel outside its bounds.
func TestMarkStaysInBounds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := someMark(t)
		img := ground(200, 180, 90)
		new(Drawer).Draw(img, img.Rect, []Mark{m})
		bounds := m.Bounds()
		for y := range 180 {
			for x := range 200 {
				if img.RGBAAt(x, y).R != 90 && !image.Pt(x, y).In(bounds) {
					t.Fatalf("pixel %d,%d outside %v is drawn", x, y, bounds)
				}
			}
		}
	})
}

// A line covers what lies within half its width: a pixel whose centre is a pixel deeper
// inside is full, one a pixel further outside is free, but for 3 % of rounding (fixed point). That holds at bends, ends and where
// the line runs over itself.
func TestLineCoversItsWidth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := Line{
			Points: rapid.SliceOfN(rapid.Custom(somePoint), 1, 8).Draw(t, "points"),
			Closed: rapid.Bool().Draw(t, "closed"), Width: float64(rapid.IntRange(8, 200).Draw(t, "width")) / 4,
		}
		img := ground(200, 180, 0)
		new(Drawer).Draw(img, img.Rect, []Mark{{Lines: []Line{l}, Grey: 255}})
		for y := range 180 {
			for x := range 200 {
				away := l.away(Pt(float64(x)+0.5, float64(y)+0.5))
				got := img.RGBAAt(x, y).R
				if away < l.Width/2-1 && got < 247 || away > l.Width/2+1 && got > 8 {
					t.Fatalf("pixel %d,%d, %.2f from a line of width %g, is covered %d", x, y, away, l.Width, got)
				}
			}
		}
	})
}

// away returns how far p is from the middle of the line.
func (l *Line) away(p Point) float64 {
	least := math.Inf(1)
	for i := range l.segments() {
		from, to := l.segment(i)
		least = min(least, p.Distance(from, to))
	}
	return least
}

// The area of a disc, by its coverage, is that of a circle: π r² (Archimedes).
func TestDiscHasTheAreaOfACircle(t *testing.T) {
	for _, r := range []float64{1, 3, 10, 31.5, 70} {
		img := ground(160, 160, 0)
		new(Drawer).Draw(img, img.Rect, []Mark{{Lines: []Line{{Points: []Point{{80.3, 79.6}}, Width: 2 * r}}, Grey: 255}})
		sum := 0.0
		for i := 0; i < len(img.Pix); i += 4 {
			sum += float64(img.Pix[i]) / 255
		}
		if want := math.Pi * r * r; math.Abs(sum-want) > 0.01*want+0.1 {
			t.Errorf("a disc of radius %g covers %.1f pixels, want %.1f", r, sum, want)
		}
	}
}

// contrast is WCAG 2.2's contrast ratio of two greys.
func contrast(a, b uint8) float64 {
	y := func(code uint8) float64 {
		if v := float64(code) / 255; v > 0.04045 {
			return math.Pow((v+0.055)/1.055, 2.4)
		}
		return float64(code) / 255 / 12.92
	}
	hi, lo := max(y(a), y(b)), min(y(a), y(b))
	return (hi + 0.05) / (lo + 0.05)
}

// On every grey there is, a line, a letter and the edge of an area have pixels in contrast
// of at least 3 to 1 to the ground (WCAG 2.2, 1.4.11, graphical objects), all of them
// neutral.
func TestMarksAreLegibleOnAnyGround(t *testing.T) {
	line := []Line{{Points: []Point{{10, 20}, {50, 20}}, Width: 2}}
	wide := []Line{{Points: []Point{{10, 20}, {50, 20}}, Width: 16}}
	marks := map[string]Mark{
		"line":   {Lines: line, Grey: LightGrey, RimGrey: DarkGrey, Rim: 1},
		"letter": {Text: Text{Bold, "H", Pt(20, 30), 16}, Grey: LightGrey, RimGrey: DarkGrey, Rim: 1.2},
		"area":   {Lines: wide, Grey: LightGrey, RimGrey: DarkGrey, Rim: 1, Hollow: 1.5, Hatch: Rising},
	}
	for name, m := range marks {
		for grey := range 256 {
			img := ground(60, 40, uint8(grey))
			new(Drawer).Draw(img, img.Rect, []Mark{m})
			strong := 0
			for i := 0; i < len(img.Pix); i += 4 {
				q := img.Pix[i : i+4]
				if q[0] != q[1] || q[1] != q[2] || q[3] != 255 {
					t.Fatalf("%s on grey %d paints %v", name, grey, q)
				}
				if contrast(q[0], uint8(grey)) >= 3 {
					strong++
				}
			}
			if strong < 20 {
				t.Errorf("%s on grey %d has %d pixels in contrast", name, grey, strong)
			}
		}
	}
}

// On a clear picture, as a layer, colours are multiplied with alpha: never above it.
func TestDrawOnClear(t *testing.T) {
	img := image.NewRGBA(image.Rect(0, 0, 60, 40))
	m := Mark{Lines: []Line{{Points: []Point{{10, 20}, {50, 26}}, Width: 5}}, Grey: LightGrey, RimGrey: DarkGrey, Rim: 2}
	new(Drawer).Draw(img, img.Rect, []Mark{m})
	seen := map[uint8]bool{}
	for i := 0; i < len(img.Pix); i += 4 {
		if img.Pix[i] > img.Pix[i+3] {
			t.Fatalf("pixel %v is lighter than its alpha", img.Pix[i:i+4])
		}
		seen[img.Pix[i+3]] = true
	}
	if !seen[0] || !seen[255] || len(seen) < 4 {
		t.Errorf("alphas %v: want clear, full and between", seen)
	}
}

// Text lies where it says: its outlines are as wide as Width, give or take the space beside
// letters, and above the foot.
func TestLettersLieWhereTheySay(t *testing.T) {
	for _, text := range []string{"Hamburg", "62.4", "Ü", "Тон", "a\nwide line"} {
		b := noBox
		b.addText(&Text{Regular, text, Pt(100, 200), 20}, everywhere, 0)
		wide := Width(Regular, text, 20)
		if b.least.X < 98 || b.most.X > 102+wide || b.most.X < 96+wide {
			t.Errorf("%q lies from %g to %g, want 100 to %g", text, b.least.X, b.most.X, 100+wide)
		}
		if b.least.Y < 178 || b.least.Y > 190 {
			t.Errorf("%q begins at %g, want within one line above 200", text, b.least.Y)
		}
	}
	if Width(Regular, "", 20) != 0 || !(&Mark{Text: Text{Regular, " \t\x00", Pt(0, 0), 20}}).Bounds().Empty() {
		t.Error("nothing to see has a shape")
	}
	// Figures share one width, so that columns of numbers stand.
	for _, r := range "012345678" {
		if Width(Bold, string(r), 20) != Width(Bold, "9", 20) {
			t.Errorf("%c is not as wide as 9", r)
		}
	}
}

func TestHit(t *testing.T) {
	m := Mark{Lines: []Line{{Points: []Point{{0, 0}, {10, 0}}, Width: 4}}}
	for _, tt := range []struct {
		p     Point
		reach float64
		want  bool
	}{{Pt(5, 2), 0, true}, {Pt(5, 3), 0, false}, {Pt(5, 3), 1, true}, {Pt(-2, 0), 0, true}, {Pt(-3, 0), 0, false}} {
		if got := m.Hit(tt.p, tt.reach); got != tt.want {
			t.Errorf("hit at %v within %g: %v", tt.p, tt.reach, got)
		}
	}
}

// stroke returns a drawn line with a point every few pixels, all over a picture.
func stroke(points int) Line {
	l := Line{Width: 4}
	for i := range points {
		a := float64(i) / 30
		l.Points = append(l.Points, Pt(960+900*math.Cos(a)*math.Cos(a/17), 540+500*math.Sin(1.3*a)))
	}
	return l
}

// The next point of a long stroke on a picture of 1920x1080: the picture is copied and the
// stroke drawn where the new segment lies. Budget: 10 ms, of the 50 ms in which a stroke
// has to follow the pointer.
func BenchmarkNextPoint(b *testing.B) {
	still, shown := ground(1920, 1080, 90), ground(1920, 1080, 90)
	m := Mark{Lines: []Line{stroke(3000)}, Grey: LightGrey, RimGrey: DarkGrey, Rim: 1}
	d := new(Drawer)
	b.ReportAllocs()
	for b.Loop() {
		last := Mark{Lines: []Line{{Points: m.Lines[0].Points[2990:], Width: 4}}, Rim: 1}
		dirty := last.Bounds()
		draw.Draw(shown, dirty, still, dirty.Min, draw.Src)
		d.Draw(shown, dirty, []Mark{m})
	}
}

// All of it anew, as after a zoom. Budget: 50 ms.
func BenchmarkLongStroke(b *testing.B) {
	shown := ground(1920, 1080, 90)
	m := Mark{Lines: []Line{stroke(3000)}, Grey: LightGrey, RimGrey: DarkGrey, Rim: 1}
	d := new(Drawer)
	b.ReportAllocs()
	for b.Loop() {
		d.Draw(shown, shown.Rect, []Mark{m})
	}
}
