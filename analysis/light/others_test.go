package light

import (
	"image"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/families"
)

// thing is a disc that is painted, halved into light and shadow; its colours are linear light.
type thing struct {
	disc
	light, shadow [3]float64
}

// easel is a plain ground of linear light with things on it.
func easel(w, h int, ground [3]float64, things ...thing) analysis.Pixels {
	pix := make([]byte, 4*w*h)
	for i := range w * h {
		c := ground
		for _, d := range things {
			sin, cos := math.Sincos(d.from * math.Pi / 180)
			if x, y := float64(i%w)+0.5-d.x, float64(i/w)+0.5-d.y; math.Hypot(x, y) <= d.r {
				if c = d.shadow; x*cos-y*sin > 0 {
					c = d.light
				}
			}
		}
		rgb := reading(c).Colour
		copy(pix[4*i:], []byte{rgb.R, rgb.G, rgb.B, 255})
	}
	return analysis.Pixels{Pix: pix, Stride: 4 * w, Width: w, Height: h}
}

// twoFound are two discs as local colours that were found, lit from above, of what lies on an easel.
func twoFound(w, h int) (*families.Found, []thing) {
	a, b := disc{60, 60, 35, 90}, disc{180, 60, 35, 90}
	return drawn(w, h, a, b), []thing{
		{a, lightsTried[0], bluish.under(lightsTried[0])}, {b, lightsTried[1], bluish.under(lightsTried[1])},
	}
}

var paperLight = [3]float64{0.5, 0.45, 0.3}

// A form that wasn't found is known by the picture's light, and where its own comes from; one whose
// shadow is of another light isn't, nor is a spot of cast shadow on the ground, nor what is left out,
// nor what the finder has already.
func TestOtherForms(t *testing.T) {
	const w, h = 240, 180
	found, things := twoFound(w, h)
	blue := lightsTried[2]
	third := func(light, shadow [3]float64) []thing {
		return append(slices.Clone(things), thing{disc{120, 130, 30, 270}, light, shadow})
	}
	of := func(things []thing, mask *analysis.Mask) *Light {
		return OfPicture(found, Take(easel(w, h, paperLight, things...), mask), nil, DefaultOptions())
	}
	l := of(third(blue, bluish.under(blue)), nil)
	if len(l.Others) != 1 || len(l.Forms) != 2 {
		t.Fatalf("%+v, %+v", l.Forms, l.Others)
	}
	o := l.Others[0]
	if degreesApart(o.Degrees, 270) > 2 || math.Abs(o.X-0.5) > 0.01 || math.Abs(o.Y-130.0/h) > 0.01 || o.Verdict != Elsewhere {
		t.Errorf("%+v", o.Lighting)
	}
	if want := reading(blue).Colour; o.Light.Colour != want {
		t.Errorf("its light is %s, want %s", o.Light.Colour.Hex(), want.Hex())
	}
	for name, l := range map[string]*Light{
		"a shadow of another light":  of(third(blue, Ratio{0.4, 0.2, 0.1}.under(blue)), nil),
		"a shadow of another depth":  of(third(blue, bluish.times(2).under(blue)), nil),
		"a cast shadow":              of(third(paperLight, bluish.under(paperLight)), nil),
		"only what the finder has":   of(things, nil),
		"left out":                   of(third(blue, bluish.under(blue)), &analysis.Mask{Areas: []image.Rectangle{image.Rect(0, 0, w, h)}}),
		"without the picture itself": OfPicture(found, nil, nil, DefaultOptions()),
	} {
		if len(l.Others) != 0 {
			t.Errorf("%s: %+v", name, l.Others)
		}
	}
}

// Where it isn't known whether one light falls on a picture, there are no others; what the painter
// refused is none either.
func TestNoOtherForms(t *testing.T) {
	const w, h = 240, 180
	found, things := twoFound(w, h)
	cells := Take(easel(w, h, paperLight, things...), nil)
	one := func(i int) bool { return i == 0 }
	if l := OfPicture(found, cells, one, DefaultOptions()); l.OneLight != nil || len(l.Others) != 0 {
		t.Errorf("of one alone: %+v", l.Others)
	}
	if l := OfPicture(found, nil, nil, DefaultOptions()); !*l.OneLight {
		t.Error("two don't agree")
	}
}

// Wherever a form lies and its light comes from: it is found where it is, in a mirrored picture
// mirrored, and the same every time.
func TestOtherFormsLaws(t *testing.T) {
	const w, h = 240, 180
	found, things := twoFound(w, h)
	rapid.Check(t, func(t *rapid.T) {
		blue := lightsTried[2]
		d := disc{rapid.Float64Range(30, 210).Draw(t, "x"), rapid.Float64Range(125, 150).Draw(t, "y"), rapid.Float64Range(12, 25).Draw(t, "r"), rapid.Float64Range(0, 360).Draw(t, "from")}
		p := easel(w, h, paperLight, append(slices.Clone(things), thing{d, blue, bluish.under(blue)})...)
		l, again := OfPicture(found, Take(p, nil), nil, DefaultOptions()), OfPicture(found, Take(p, nil), nil, DefaultOptions())
		if len(l.Others) != 1 || len(again.Others) != 1 || l.Others[0].Lighting != again.Others[0].Lighting {
			t.Fatalf("%+v, then %+v", l.Others, again.Others)
		}
		o := l.Others[0]
		if degreesApart(o.Degrees, d.from) > 6 || math.Abs(o.X-d.x/w) > 0.02 || math.Abs(o.Y-d.y/h) > 0.02 {
			t.Fatalf("%+v of %+v", o.Lighting, d)
		}
		flipped := p
		flipped.Pix = make([]byte, len(p.Pix))
		for i := range w * h {
			copy(flipped.Pix[4*(i/w*w+w-1-i%w):][:4], p.Pix[4*i:][:4])
		}
		m := OfPicture(mirrored(found), Take(flipped, nil), nil, DefaultOptions())
		if len(m.Others) != 1 || degreesApart(m.Others[0].Degrees, 180-o.Degrees) > 1e-6 || math.Abs(m.Others[0].X-(1-o.X)) > 1e-9 {
			t.Fatalf("mirrored: %+v of %+v", m.Others, o)
		}
	})
}

// What the finder gave to a local colour though it is of another colour is none of its form, and is a
// form of its own.
func TestStraysAreOtherForms(t *testing.T) {
	const w, h = 240, 180
	found, things := twoFound(w, h)
	blue, below := lightsTried[2], disc{60, 130, 30, 270}
	things = append(things, thing{below, blue, bluish.under(blue)})
	alone := OfPicture(found, Take(easel(w, h, paperLight, things...), nil), nil, DefaultOptions()).Forms
	for i := range found.Map {
		if math.Hypot(float64(i%w)+0.5-below.x, float64(i/w)+0.5-below.y) <= below.r {
			found.Map[i] = 1 // the light side of the first, which lies right above it
		}
	}
	l := OfPicture(found, Take(easel(w, h, paperLight, things...), nil), nil, DefaultOptions())
	if len(l.Others) != 1 || l.Others[0].Verdict != Elsewhere || degreesApart(l.Others[0].Degrees, 270) > 2 {
		t.Errorf("%+v", l.Others)
	}
	for i, f := range l.Forms {
		if degreesApart(f.Degrees, alone[i].Degrees) > 2 || math.Abs(f.Share-alone[i].Share) > 0.1*f.Share { // the rim's cells are mixed
			t.Errorf("form %d is %+v, alone %+v", i, f, alone[i])
		}
	}
}

// A local colour that the finder made of the shadows of two forms disagrees with the light: its sides
// are told as those of the two, and its own form is unsure.
func TestMadeOfTwoForms(t *testing.T) {
	const w, h = 240, 180
	found, things := twoFound(w, h)
	left, right := thing{disc{90, 130, 30, 90}, lightsTried[3], bluish.under(lightsTried[3])}, thing{disc{152, 130, 30, 90}, lightsTried[2], bluish.under(lightsTried[2])}
	things = append(things, left, right)
	for i := range found.Map {
		for side, d := range []thing{left, right} {
			if x, y := float64(i%w)+0.5-d.x, float64(i/w)+0.5-d.y; math.Hypot(x, y) <= d.r && y > 0 {
				found.Map[i] = uint8(4*2 + 1 + side)
			}
		}
	}
	found.List = append(found.List, painted(left.shadow, right.shadow))
	l := OfPicture(found, Take(easel(w, h, paperLight, things...), nil), nil, DefaultOptions())
	if len(l.LocalColours) != 3 || l.LocalColours[2].Agrees() {
		t.Fatalf("%+v", l.LocalColours)
	}
	if len(l.Others) != 2 || l.Others[0].Verdict != FormAgrees || l.Others[1].Verdict != FormAgrees {
		t.Errorf("%+v", l.Others)
	}
	for _, f := range l.Forms {
		if (f.Verdict == Unsure) != (f.Family == 2) {
			t.Errorf("%+v", f)
		}
	}
	if len(l.Forms) != 3 {
		t.Errorf("%d forms", len(l.Forms))
	}
}
