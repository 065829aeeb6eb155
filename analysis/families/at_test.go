package families

import (
	"errors"
	"image"
	"testing"

	"pgregory.net/rapid"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
)

// searched is a finder that has searched a picture.
func searched(t interface{ Cleanup(func()) }, p analysis.Pixels) *Finder {
	f := NewFinder()
	t.Cleanup(f.Close)
	f.Take(p, nil)
	f.Find(DefaultRules())
	return f
}

// codeAt is the colour that is painted at a pixel.
func codeAt(t *testing.T, p analysis.Pixels, at image.Point) colour.RGB {
	t.Helper()
	spot, err := analysis.ReadSpot(p, at.X, at.Y, 1)
	if err != nil {
		t.Fatal(err)
	}
	return spot.Colour
}

// One click on either side of a form gives both sides; one on its line the sides beside it.
func TestAtProposesBothSides(t *testing.T) {
	lined := skinBall()
	lined.line, lined.ink = 6, colour.RGB{R: 40, G: 20, B: 30}
	small := ball{cx: 90, cy: 100, r: 50, edge: 100, light: colour.RGB{R: 150, G: 180, B: 220}, shadow: colour.RGB{R: 86, G: 92, B: 160}}
	p := balls(640, 480, paper, lined, small)
	f := searched(t, p)
	for name, tt := range map[string]struct {
		x, y  int
		light colour.RGB
	}{
		"light": {250, 240, skinLight}, "shadow": {420, 240, skinLight}, "its line": {190, 240, skinLight}, "beside the edge": {346, 240, skinLight},
		"another form": {130, 100, small.light},
	} {
		s, err := f.At(tt.x, tt.y)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		shadow := skinShadow
		if tt.light == small.light {
			shadow = small.shadow
		}
		if got := [2]colour.RGB{codeAt(t, p, s.Light), codeAt(t, p, s.Shadow)}; got != [2]colour.RGB{tt.light, shadow} {
			t.Errorf("%s: %v at %v", name, got, s)
		}
		if at := image.Pt(tt.x, tt.y); name != "its line" && s.Light != at && s.Shadow != at {
			t.Errorf("%s: the place itself is neither of %v", name, s)
		}
	}
}

// A form that runs smoothly from light to dark is halved.
func TestAtHalvesASmoothForm(t *testing.T) {
	p := drawn(320, 240, func(x, y float64) colour.RGB {
		if x < 40 || x > 280 || y < 40 || y > 200 {
			return colour.RGB{R: 120, G: 120, B: 140}
		}
		fall := (x - 40) / 240 // from 230, 150, 90 down to 90, 40, 30
		return colour.RGB{R: uint8(230 - 140*fall), G: uint8(150 - 110*fall), B: uint8(90 - 60*fall)}
	})
	f := searched(t, p)
	for _, x := range []int{60, 260} {
		s, err := f.At(x, 120)
		if err != nil || s.Light.X >= s.Shadow.X || s.Light.X != x && s.Shadow.X != x {
			t.Errorf("at %d: %+v, %v", x, s, err)
		}
	}
}

// Where nothing is another side, none is made up: on one flat form on a ground of another hue,
// and before a picture was searched.
func TestAtSaysThatThereIsNoOtherSide(t *testing.T) {
	flat := skinBall()
	flat.shadow = flat.light
	f := searched(t, balls(640, 480, colour.RGB{R: 60, G: 90, B: 150}, flat))
	if s, err := f.At(300, 240); !errors.Is(err, ErrNoSides) {
		t.Errorf("%+v, %v", s, err)
	}
	for _, at := range []image.Point{{-1, 5}, {640, 5}, {5, 480}} {
		if _, err := f.At(at.X, at.Y); !errors.Is(err, ErrUnsearched) {
			t.Errorf("%v: %v", at, err)
		}
	}
	none := NewFinder()
	defer none.Close()
	none.Take(balls(64, 48, paper), nil)
	if _, err := none.At(5, 5); !errors.Is(err, ErrUnsearched) {
		t.Errorf("unsearched: %v", err)
	}
	if _, err := none.LightnessAt(5, 5); !errors.Is(err, ErrUnsearched) {
		t.Errorf("unsearched: %v", err)
	}
}

// Wherever a click falls, what is proposed lies in the picture, the light is the lighter one,
// and asking changes nothing of what is found.
func TestAtKeepsItsWord(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		number := func(name string, from, to int) float64 { return float64(rapid.IntRange(from, to).Draw(t, name)) }
		b := ball{cx: number("cx", 20, 100), cy: number("cy", 20, 70), r: number("r", 5, 40), light: skinLight, shadow: skinShadow, line: number("line", 0, 6)}
		b.edge = b.cx + number("edge", -20, 20)
		p := balls(120, 90, paper, b)
		f := searched(t, p)
		for range 4 {
			at := image.Pt(rapid.IntRange(0, 119).Draw(t, "x"), rapid.IntRange(0, 89).Draw(t, "y"))
			s, err := f.At(at.X, at.Y)
			if err != nil {
				continue
			}
			light, errLight := f.LightnessAt(s.Light.X, s.Light.Y)
			shadow, errShadow := f.LightnessAt(s.Shadow.X, s.Shadow.Y)
			if errLight != nil || errShadow != nil || light <= shadow {
				t.Fatalf("at %v: %+v, lightness %g and %g, %v, %v", at, s, light, shadow, errLight, errShadow)
			}
			if again, err := f.At(at.X, at.Y); err != nil || again != s {
				t.Fatalf("asked again at %v: %+v, %v, before %+v", at, again, err, s)
			}
		}
		if a, b := f.Find(DefaultRules()), Find(p, nil, DefaultRules()); string(a.Map) != string(b.Map) {
			t.Fatal("asking changed what is found")
		}
	})
}

// BenchmarkAt asks on a large form that runs smoothly from light to dark and is halved for it;
// budget: 20 ms, less than a frame of the mirror at its slowest.
func BenchmarkAt(b *testing.B) {
	p := drawn(1920, 1080, func(x, y float64) colour.RGB {
		if x < 300 || x > 1600 || y < 100 || y > 1000 {
			return colour.RGB{R: 120, G: 120, B: 140}
		}
		fall := (x - 300) / 1300
		return colour.RGB{R: uint8(230 - 140*fall), G: uint8(150 - 110*fall), B: uint8(90 - 60*fall)}
	})
	f := searched(b, p)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := f.At(800, 540); err != nil {
			b.Fatal(err)
		}
	}
}
