package analysis

import (
	"image"
	"math"
	"math/rand/v2"
	"testing"

	"pgregory.net/rapid"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/internal/fixed"
)

// deepPicture is a picture of 16 bits a channel, opaque, of one colour a pixel.
func deepPicture(width int, codes ...[3]uint16) Pixels {
	p := Pixels{Stride: 4 * width, Width: width, Height: len(codes) / width}
	for _, c := range codes {
		for _, v := range c {
			code, rest := splitDeep(int(v))
			p.Pix, p.Rest = append(p.Pix, code), append(p.Rest, rest)
		}
		p.Pix, p.Rest = append(p.Pix, 255), append(p.Rest, 0)
	}
	return p
}

// deepGreys is a row of greys, each wide pixels wide.
func deepGreys(wide int, greys ...uint16) Pixels {
	var codes [][3]uint16
	for _, v := range greys {
		for range wide {
			codes = append(codes, [3]uint16{v, v, v})
		}
	}
	return deepPicture(len(codes), codes...)
}

// lightnessOf16 is L* of a grey of 16 bits, written out: IEC 61966-2-1:1999 and CIE 15:2004.
func lightnessOf16(v float64) float64 {
	e, y := v/65535, 0.0
	if e <= 0.04045 {
		y = e / 12.92
	} else {
		y = math.Pow((e+0.055)/1.055, 2.4)
	}
	if y <= 216.0/24389 {
		return 24389.0 / 27 * y
	}
	return 116*math.Cbrt(y) - 16
}

// A ramp whose steps are an eighth of one of 8 bits: each spot, patch, reading and change says what
// the formula does. Source: lightnessOf16.
func TestSixteenBitsAreToldApart(t *testing.T) {
	for _, from := range []uint16{0, 300, 2570, 9000, 32768, 65535 - 33*15} {
		last := -1.0
		for i := range uint16(16) {
			v := from + 33*i
			want := lightnessOf16(float64(v))
			p := deepGreys(9, v)
			spot, err := ReadSpot(p, 4, 0, 3)
			if err != nil || math.Abs(spot.Lightness-want) > 1e-6 || spot.Chroma > 1e-9 {
				t.Errorf("the spot on %d has L* %g and chroma %g, want %g: %v", v, spot.Lightness, spot.Chroma, want, err)
			}
			if !(spot.Lightness > last) {
				t.Errorf("the spot on %d is not told from the one before", v)
			}
			last = spot.Lightness
			if math.Abs(spot.LayerGrey-float64(v)/257) > 1e-9 {
				t.Errorf("the layer grey of %d is %g", v, spot.LayerGrey)
			}
			var patch Patch
			patch.Add(p, 2, 0)
			painted, _ := patch.Spot()
			if math.Abs(painted.Lightness-want) > 1e-5 {
				t.Errorf("the patch of %d has L* %g, want %g", v, painted.Lightness, want)
			}
			r := Read(p, Options{})
			for _, got := range []float64{r.Mean, r.P1, r.P50, r.P99, r.Chosen().Groups()[0].Mean} {
				if math.Abs(got-want) > 0.0002 {
					t.Errorf("the reading of %d has L* %g, want %g", v, got, want)
				}
			}
			c, err := ChangeOf(deepGreys(9, from), p, nil, nil, 0)
			if err != nil || math.Abs(c.MeanAfter-c.MeanBefore-want+lightnessOf16(float64(from))) > 0.0004 {
				t.Errorf("from %d to %d it is %g L*: %v", from, v, c.MeanAfter-c.MeanBefore, err)
			}
		}
	}
}

// The percentiles of a ramp are those of its sorted lightness, and its groups' means those of their
// members: of two greys nearer than one of 8 bits each, two masses.
func TestPercentilesOf16Bits(t *testing.T) {
	p := deepGreys(50, 8000, 8040, 40000, 40040)
	r := Read(p, Options{Groups: 2})
	for name, tt := range map[string]struct{ got, want float64 }{
		"the darkest hundredth":   {r.P1, lightnessOf16(8000)},
		"the middle":              {r.P50, lightnessOf16(8040)},
		"the lightest hundredth":  {r.P99, lightnessOf16(40040)},
		"the mean of the dark":    {r.Chosen().Groups()[0].Mean, (lightnessOf16(8000) + lightnessOf16(8040)) / 2},
		"the mean of the light":   {r.Chosen().Groups()[1].Mean, (lightnessOf16(40000) + lightnessOf16(40040)) / 2},
		"the darkest of the spot": {spotAcross(t, p).Low, lightnessOf16(8000)},
	} {
		if math.Abs(tt.got-tt.want) > 0.0002 {
			t.Errorf("%s is %g, want %g", name, tt.got, tt.want)
		}
	}
	if r.Histogram[colour.BinOf(lightnessOf16(8000))] == 0 {
		t.Errorf("the histogram has nothing at %g", lightnessOf16(8000))
	}
}

func spotAcross(t *testing.T, p Pixels) Spot {
	t.Helper()
	s, err := ReadArea(p, image.Rect(0, 0, 100, 1))
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// deepened is a picture with its 8 bits written as 16.
func deepened(p Pixels) Pixels {
	p.Rest = make([]byte, len(p.Pix))
	return p
}

// A picture of 8 bits that is written as 16 reads as it did, whatever is left out and whatever its
// space: to the last pixel in bins, and in means to what bins leave open.
func TestEightBitsWrittenAs16(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rng := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 7))
		p := randomPixels(rng, 90)
		p.Layout = RGBA
		p.Space = rapid.SampledFrom(append(colour.Spaces(), nil)).Draw(t, "space")
		o := Options{Mask: randomOut(rng, p), WithoutGround: rapid.Bool().Draw(t, "without ground")}
		r := NewReader()
		defer r.Close()
		got := r.Read(deepened(p), o)
		want := Read(p, o)
		if got.Histogram != want.Histogram || string(got.Grey) != string(want.Grey) || got.Key != want.Key && math.Abs(colour.Value(got.Mean)-5) < 0.9 {
			t.Fatal("another histogram or plane")
		}
		const half = 0.5 / colour.BinsPerLightness
		for i, d := range []float64{got.Mean - want.Mean, got.P1 - want.P1, got.P50 - want.P50, got.P99 - want.P99} {
			if math.Abs(d) > half+1e-9 {
				t.Fatalf("figure %d is %g off", i, d)
			}
		}
		for k := 2; k <= MaxGroups; k++ {
			a, b := got.Split(k), want.Split(k)
			if string(intsOf(a.Thresholds())) != string(intsOf(b.Thresholds())) {
				t.Fatalf("borders %v, want %v", a.Thresholds(), b.Thresholds())
			}
			for i, g := range a.Groups() {
				if math.Abs(g.Mean-b.Groups()[i].Mean) > half+1e-9 {
					t.Fatalf("group %d has mean %g, want %g", i, g.Mean, b.Groups()[i].Mean)
				}
			}
		}
		area := image.Rect(rng.IntN(p.Width), rng.IntN(p.Height), p.Width, p.Height)
		s, err := ReadArea(deepened(p), area)
		plain, errPlain := ReadArea(p, area)
		if (err == nil) != (errPlain == nil) || s.Colour != plain.Colour || math.Abs(s.Lightness-plain.Lightness) > 1e-9 || math.Abs(s.LayerGrey-plain.LayerGrey) > 1e-6 || s.OnEdge != plain.OnEdge {
			t.Fatalf("%+v, want %+v", s, plain)
		}
		if again := r.ReadChanged(p, o, image.Rectangle{}); again.Histogram != want.Histogram || again.Mean != want.Mean || again.P50 != want.P50 && !math.IsNaN(want.P50) && again.Counted > 0 {
			if !(math.IsNaN(again.Mean) && math.IsNaN(want.Mean)) {
				t.Fatal("read as 8 bits after 16 it is another")
			}
		}
	})
}

func intsOf(all []int) (b []byte) {
	for _, n := range all {
		b = append(b, byte(n))
	}
	return b
}

// The place of a lightness is where its bin is, and right to the distance of two places.
func TestPlacesOfLightness(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.SampledFrom(colour.Spaces()).Draw(t, "space")
		c := [3]uint16{rapid.Uint16().Draw(t, "r"), rapid.Uint16().Draw(t, "g"), rapid.Uint16().Draw(t, "b")}
		bin, place := fixed.CodesOf(s).Deep().PlaceOf(c)
		want := colour.Lightness(s.Luminance(s.LinearOf(0, float64(c[0])/65535), s.LinearOf(1, float64(c[1])/65535), s.LinearOf(2, float64(c[2])/65535)))
		if got := lightnessOfPlaces(place, 1); math.Abs(got-want) > 0.0004 {
			t.Errorf("%v of %s is at %g, want %g", c, s.Name, got, want)
		}
		if math.Abs(float64(place)-fixed.PlacesPerBin*float64(bin)) > fixed.PlacesPerBin/2 {
			t.Errorf("%v of %s: place %d lies outside of bin %d", c, s.Name, place, bin)
		}
	})
}

// Half-transparent pixels of 16 bits over a ground: simple alpha compositing on the encoded values
// (W3C Compositing and Blending Level 1), rounded to 16 bits.
func TestLayOver16Bits(t *testing.T) {
	for _, tt := range []struct {
		colour, alpha int
		ground        byte
	}{{40000, 30000, 255}, {40001, 30001, 128}, {0, 65000, 255}, {65535, 200, 0}, {12345, 40000, 7}} {
		p := deepGreys(1, uint16(tt.colour))
		p.Pix[3], p.Rest[3] = splitDeep(tt.alpha)
		p.LayOver(colour.RGB{R: tt.ground, G: tt.ground, B: tt.ground})
		want := (float64(tt.colour)*float64(tt.alpha) + 257*float64(tt.ground)*float64(65535-tt.alpha)) / 65535
		if got := float64(p.deepAt(0, 0)[0]); math.Abs(got-want) > 2.5 || p.Pix[3] != 255 { // a step for each of what is rounded
			t.Errorf("%d at alpha %d over %d is %g, want %g", tt.colour, tt.alpha, tt.ground, got, want)
		}
	}
	var paper Paper
	p := deepGreys(1, 40000, 40000)
	p.Pix[3], p.Rest[3] = splitDeep(30000)
	before := string(p.Pix) + string(p.Rest)
	over := paper.Opaque(p, White)
	p.LayOver(White)
	again := paper.Again(p)
	if string(over.Pix) != string(p.Pix) || string(over.Rest) != string(p.Rest) || before == string(p.Pix)+string(p.Rest) || again.deepAt(0, 0) != p.deepAt(0, 0) {
		t.Error("on paper it is another")
	}
}

// A part of a picture of 16 bits has them too.
func TestCrop16Bits(t *testing.T) {
	p := deepPicture(2, [3]uint16{1, 2, 3}, [3]uint16{400, 500, 600}, [3]uint16{7000, 8000, 9000}, [3]uint16{10, 20, 30})
	if part := p.Crop(image.Rect(0, 1, 2, 2)); part.Check() != nil || part.deepAt(0, 0) != [3]uint16{7000, 8000, 9000} {
		t.Errorf("%v: %v", part.deepAt(0, 0), part.Check())
	}
	for name, bad := range map[string]Pixels{
		"too short": {Pix: make([]byte, 8), Rest: make([]byte, 7), Stride: 8, Width: 2, Height: 1},
		"BGRX":      {Pix: make([]byte, 8), Rest: make([]byte, 8), Stride: 8, Width: 2, Height: 1, Layout: BGRX},
	} {
		if bad.Check() == nil {
			t.Errorf("%s passes", name)
		}
	}
}
