package analysis

import (
	"math"
	"testing"
)

// oneColour paints a picture of one colour.
func oneColour(width, height int, c RGB) Pixels {
	p := Pixels{Pix: make([]byte, pixelBytes*width*height), Stride: pixelBytes * width, Width: width, Height: height}
	p.each(func(x, y int) RGB { return c })
	return p
}

// each paints every pixel.
func (p Pixels) each(at func(x, y int) RGB) {
	for y := range p.Height {
		for x := range p.Width {
			p.set(x, y, at(x, y), 255)
		}
	}
}

// twoToned is a disc of two colours on a ground, lit from the left.
func twoToned(width, height int, ground, light, shadow RGB) Pixels {
	p := oneColour(width, height, ground)
	r := float64(min(width, height)) * 0.3
	p.each(func(x, y int) RGB {
		dx, dy := float64(x)-float64(width)/2, float64(y)-float64(height)/2
		switch {
		case math.Hypot(dx, dy) > r:
			return ground
		case dx < r/5:
			return light
		}
		return shadow
	})
	return p
}

// A disc painted with two codes is found with these codes.
func TestFindFamiliesOfADisc(t *testing.T) {
	light, shadow := RGB{226, 171, 133}, RGB{178, 106, 92}
	want := FamilyOf(SpotOf(light), SpotOf(shadow), DefaultFamilyRules())
	for _, size := range [][2]int{{200, 200}, {640, 480}, {1920, 1080}, {300, 1200}} {
		found := FindFamilies(twoToned(size[0], size[1], RGB{208, 201, 190}, light, shadow), nil, DefaultFamilyRules())
		if len(found.List) != 1 {
			t.Fatalf("%v: %d families", size, len(found.List))
		}
		f := found.List[0]
		if f.Light.Colour != light || f.Shadow.Colour != shadow || math.Abs(f.Tones-want.Tones) > 1e-3 || f.Accent != nil || f.Line != nil {
			t.Errorf("%v: %+v", size, f)
		}
	}
}

// What can't be known, or isn't there, is not made up.
func TestFindFamiliesOfNothing(t *testing.T) {
	for _, p := range []Pixels{
		{}, {Width: 3, Height: 3}, oneColour(1, 1, RGB{9, 9, 9}), oneColour(1, 500, RGB{9, 9, 9}), oneColour(500, 1, RGB{200, 9, 9}),
		oneColour(64, 64, RGB{80, 90, 200}), twoToned(300, 200, RGB{255, 255, 255}, RGB{200, 60, 60}, RGB{200, 60, 60}),
	} {
		if found := FindFamilies(p, nil, DefaultFamilyRules()); len(found.List) != 0 || len(found.Map) != found.Width*found.Height {
			t.Errorf("%d x %d: %+v", p.Width, p.Height, found.List)
		}
	}
}
