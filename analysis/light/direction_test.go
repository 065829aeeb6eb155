package light

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"app.tonedesk/analysis/families"
)

// disc is a disc that is halved into light and shadow.
type disc struct {
	x, y, r float64 // cells
	from    float64 // degrees: 0 from the right, 90 from above
}

// drawn marks discs in a map, each a local colour of its own. They are sure.
func drawn(w, h int, discs ...disc) *families.Found {
	f := &families.Found{Width: w, Height: h, Map: make([]uint8, w*h)}
	for k, d := range discs {
		sin, cos := math.Sincos(d.from * math.Pi / 180)
		for i := range f.Map {
			x, y := float64(i%w)+0.5-d.x, float64(i/w)+0.5-d.y
			switch {
			case math.Hypot(x, y) > d.r:
			case x*cos-y*sin > 0:
				f.Map[i] = uint8(4*k + 1)
			default:
				f.Map[i] = uint8(4*k + 2)
			}
		}
		f.List = append(f.List, painted(lightsTried[k%len(lightsTried)], bluish.under(lightsTried[k%len(lightsTried)])))
	}
	return f
}

func of(f *families.Found) *Light { return Of(f, nil, DefaultOptions()) }

// A halved disc shows its light, and is parted as it has to be: its halves' middles lie 8/(3 pi)
// of its radius apart, the variance along that is a quarter of the radius squared, so 16*4/(9 pi^2)
// = 0.7205 of it lies between them (computed).
func TestDirectionOfADisc(t *testing.T) {
	for from := 0.0; from < 360; from += 22.5 {
		l := of(drawn(200, 150, disc{90, 70, 40, from}))
		if len(l.Forms) != 1 || l.Direction == nil || degreesApart(l.Direction.Degrees, from) > 1 {
			t.Fatalf("from %g: %+v, %+v", from, l.Direction, l.Forms)
		}
		f := l.Forms[0]
		if math.Abs(f.Parted-64/(9*math.Pi*math.Pi)) > 0.02 || math.Abs(f.X-0.45) > 0.01 || math.Abs(f.Y-70.0/150) > 0.01 || f.Verdict != FormAgrees {
			t.Errorf("from %g: %+v", from, f)
		}
		if math.Abs(l.Direction.Resultant-1) > 1e-9 || l.Direction.Uncertainty != formError || l.Direction.Forms != 1 {
			t.Errorf("%+v", l.Direction)
		}
	}
}

// Two that weigh the same, 40 degrees apart: the mean is halfway, its resultant cos 20 degrees
// (CIRCULAR; computed).
func TestMeanDirection(t *testing.T) {
	l := of(drawn(300, 150, disc{70, 70, 40, 350}, disc{200, 70, 40, 30}))
	d := l.Direction
	if d == nil || degreesApart(d.Degrees, 10) > 1 || math.Abs(d.Resultant-math.Cos(20*math.Pi/180)) > 0.01 || d.Forms != 2 {
		t.Fatalf("%+v", d)
	}
	deviation := math.Sqrt(-2*math.Log(math.Cos(20*math.Pi/180))) * 180 / math.Pi
	if want := deviation / math.Sqrt2; math.Abs(d.Uncertainty-want) > 0.5 {
		t.Errorf("uncertainty %g, want %g", d.Uncertainty, want)
	}
}

// What is lit from elsewhere is named and doesn't pull; of two that contradict each other neither
// counts.
func TestLitFromElsewhere(t *testing.T) {
	l := of(drawn(400, 300, disc{70, 70, 40, 100}, disc{200, 70, 40, 110}, disc{320, 70, 40, 120}, disc{120, 200, 60, 300}))
	if l.Direction == nil || degreesApart(l.Direction.Degrees, 110) > 1 || l.Direction.Forms != 3 {
		t.Fatalf("%+v", l.Direction)
	}
	for i, f := range l.Forms {
		if (f.Verdict == Elsewhere) != (i == 3) {
			t.Errorf("%+v", f)
		}
	}
	halves := drawn(400, 300, disc{70, 70, 40, 0}, disc{200, 70, 40, 0}, disc{70, 200, 40, 180}, disc{200, 200, 40, 180})
	if l = of(halves); l.Direction != nil {
		t.Errorf("of two halves: %+v", l.Direction)
	}
	if l = of(drawn(300, 150, disc{70, 70, 40, 0}, disc{200, 70, 40, 180})); l.Direction != nil || l.Forms[0].Verdict != Unsure {
		t.Errorf("%+v, %+v", l.Direction, l.Forms)
	}
}

// A shadow inside of a light, a ground that the frame cuts and a rim say nothing.
func TestUnsureForms(t *testing.T) {
	ring := func(i int, w int) uint8 {
		d := math.Hypot(float64(i%w)-100, float64(i/w)-75)
		switch {
		case d < 25:
			return 2
		case d < 50:
			return 1
		}
		return 0
	}
	for name, at := range map[string]func(i, w int) uint8{
		"a shadow inside of a light":  ring,
		"a ground with a cast shadow": func(i, w int) uint8 { return 1 + ring(i, w)&2/2 },
		"a rim": func(i, w int) uint8 {
			d := math.Hypot(float64(i%w)-100, float64(i/w)-75)
			switch {
			case d > 60:
				return 0
			case math.Hypot(float64(i%w)-103, float64(i/w)-75) < 60:
				return 1
			}
			return 2
		},
	} {
		f := drawn(200, 150)
		f.List = inOneLight(bluish)[:1]
		for i := range f.Map {
			f.Map[i] = at(i, 200)
		}
		if l := of(f); l.Direction != nil || len(l.Forms) > 0 && l.Forms[0].Verdict != Unsure {
			t.Errorf("%s: %+v, %+v", name, l.Direction, l.Forms)
		}
	}
	if l := of(drawn(200, 150)); l.Direction != nil || len(l.Forms) != 0 {
		t.Errorf("of nothing %+v", l)
	}
}

// Two forms of one local colour are two, a half-tone between the sides doesn't part them.
func TestFormsOfOneColour(t *testing.T) {
	f := drawn(300, 150, disc{70, 70, 40, 0}, disc{200, 70, 40, 0})
	for i, m := range f.Map {
		if x := i % 300; m > 4 {
			f.Map[i] -= 4 // the second is of the first's colour
		} else if x >= 69 && x <= 71 {
			f.Map[i] = 0
		}
	}
	f.List = f.List[:1]
	if l := of(f); len(l.Forms) != 2 || l.Direction == nil || l.Direction.Forms != 2 {
		t.Errorf("%+v", l.Forms)
	}
}

// mirrored is the map with left and right changed; turned with its columns as rows, from the
// right: a quarter turn to the left.
func mirrored(f *families.Found) *families.Found {
	g := &families.Found{Width: f.Width, Height: f.Height, Map: make([]uint8, len(f.Map)), List: f.List}
	for i, m := range f.Map {
		g.Map[i/f.Width*f.Width+f.Width-1-i%f.Width] = m
	}
	return g
}

func turned(f *families.Found) *families.Found {
	g := &families.Found{Width: f.Height, Height: f.Width, Map: make([]uint8, len(f.Map)), List: f.List}
	for i, m := range f.Map {
		g.Map[(f.Width-1-i%f.Width)*g.Width+i/f.Width] = m
	}
	return g
}

// A mirrored picture has the mirrored direction, a turned one the turned.
func TestLawsOfDirection(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var discs []disc
		n := rapid.IntRange(1, 4).Draw(t, "discs")
		from := rapid.Float64Range(0, 360).Draw(t, "light")
		for i := range n {
			off := rapid.Float64Range(-25, 25).Draw(t, "off")
			discs = append(discs, disc{float64(30 + 50*i), rapid.Float64Range(30, 60).Draw(t, "y"), rapid.Float64Range(12, 22).Draw(t, "r"), from + off})
		}
		f := drawn(220, 90, discs...)
		l, m, q := of(f), of(mirrored(f)), of(turned(f))
		if l.Direction == nil || m.Direction == nil || q.Direction == nil {
			t.Fatalf("%+v, %+v, %+v", l.Forms, m.Direction, q.Direction)
		}
		d := l.Direction
		for name, tt := range map[string]struct {
			got  *Direction
			want float64
		}{"mirrored": {m.Direction, 180 - d.Degrees}, "turned": {q.Direction, d.Degrees + 90}} {
			if degreesApart(tt.got.Degrees, tt.want) > 1e-6 || math.Abs(tt.got.Resultant-d.Resultant) > 1e-9 || tt.got.Forms != d.Forms {
				t.Fatalf("%s: %+v, want %g of %+v", name, tt.got, tt.want, d)
			}
		}
		if !sameRatio(*m.Ratio, *l.Ratio, 0.0001) {
			t.Fatal("another ratio")
		}
	})
}
