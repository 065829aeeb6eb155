package analysis

import (
	"encoding/json"
	"image"
	"image/draw"
	"image/png"
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"app.tonedesk/analysis/internal/testkit"
)

// flats paints flat rectangles, one above the other, with so many rows each.
func flats(width int, rows map[RGB]int, order []RGB) Pixels {
	height := 0
	for _, n := range rows {
		height += n
	}
	p := Pixels{Pix: make([]byte, pixelBytes*width*height), Stride: pixelBytes * width, Width: width, Height: height}
	y := 0
	for _, c := range order {
		for range rows[c] {
			for x := range width {
				set(p, x, y, c, 255)
			}
			y++
		}
	}
	return p
}

// A palette that is known, since the picture was painted with it.
func TestPaletteOfFlats(t *testing.T) {
	rows := map[RGB]int{
		{0x3c, 0x23, 0x28}: 2, {0xe2, 0xab, 0x85}: 40, {0xb2, 0x6a, 0x5c}: 20, {0xe7, 0x55, 0x4d}: 3,
		{0x12, 0x34, 0xa0}: 15, {0xff, 0xff, 0xff}: 20,
	}
	order := []RGB{{0xff, 0xff, 0xff}, {0xe2, 0xab, 0x85}, {0xe7, 0x55, 0x4d}, {0xb2, 0x6a, 0x5c}, {0x12, 0x34, 0xa0}, {0x3c, 0x23, 0x28}}
	got := PaletteOf(flats(50, rows, order), nil, nil)
	if len(got.Colours) != len(rows) {
		t.Fatalf("%d colours, want %d", len(got.Colours), len(rows))
	}
	for i, c := range got.Colours {
		if want := float64(rows[c.Colour]) / 100; c.Share != want {
			t.Errorf("%s has share %g, want %g", c.Colour.Hex(), c.Share, want)
		}
		if i > 0 && c.Value < got.Colours[i-1].Value {
			t.Errorf("%s stands behind a lighter one", c.Colour.Hex())
		}
	}
}

// Half of the picture has value 0, half value 10: the eight steps between are empty.
func TestPaletteShowsEmptyValues(t *testing.T) {
	p := flats(10, map[RGB]int{{}: 5, {255, 255, 255}: 5}, []RGB{{}, {255, 255, 255}})
	got := PaletteOf(p, nil, nil)
	if want := [Steps]float64{0: 0.5, 9: 0.5}; got.Spread != want {
		t.Errorf("spread %v", got.Spread)
	}
	if want := []int{1, 2, 3, 4, 5, 6, 7, 8}; !slices.Equal(got.Empty, want) {
		t.Errorf("empty %v, want %v", got.Empty, want)
	}
}

// The spread's steps begin at whole steps of value. Sources: munsell_value_to_y.csv (D1535)
// for where, srgb_grey_ramp_256.csv (SRGB) for the greys.
func TestPaletteSpreadByValue(t *testing.T) {
	edges := make([]float64, 0, Steps) // relative luminance of value 0 to 9
	values := testkit.ReadTable(t, "munsell_value_to_y.csv")
	for _, row := range values.Rows {
		if v := values.Number(row, "V"); v == math.Trunc(v) && v < Steps {
			edges = append(edges, values.Number(row, "Y_astm")/100)
		}
	}
	greys := testkit.ReadTable(t, "srgb_grey_ramp_256.csv")
	for _, row := range greys.Rows {
		v, y := uint8(greys.Number(row, "v")), greys.Number(row, "Y")
		want := -1
		for want+1 < len(edges) && y >= edges[want+1] {
			want++
		}
		c := RGB{v, v, v}
		if got := PaletteOf(flats(3, map[RGB]int{c: 3}, []RGB{c}), nil, nil); got.Spread[want] != 1 {
			t.Errorf("grey %d belongs to value %d and is counted as %v", v, want, got.Spread)
		}
	}
}

// The soft edge between two colours is no colour of the palette.
func TestPaletteLeavesOutSoftEdges(t *testing.T) {
	p := Pixels{Pix: make([]byte, pixelBytes*200*200), Stride: pixelBytes * 200, Width: 200, Height: 200}
	a, b := RGB{0xf0, 0xdc, 0x78}, RGB{0x2a, 0x30, 0x6e}
	for y := range 200 {
		for x := range 200 {
			part := min(max(float64(x)-100+float64(y-100)/3, 0), 4) / 4 // a slanting edge, four pixels soft
			mix := func(p, q uint8) uint8 { return uint8(math.Round(float64(p) + part*(float64(q)-float64(p)))) }
			set(p, x, y, RGB{mix(a.R, b.R), mix(a.G, b.G), mix(a.B, b.B)}, 255)
		}
	}
	got := PaletteOf(p, nil, nil)
	if len(got.Colours) != 2 || got.Colours[0].Colour != b || got.Colours[1].Colour != a {
		for _, c := range got.Colours {
			t.Errorf("%s, share %.4f", c.Colour.Hex(), c.Share)
		}
	}
}

// What is left out or transparent is no part of the palette.
func TestPaletteCountsWhatIsCounted(t *testing.T) {
	p := flats(10, map[RGB]int{{200, 30, 30}: 4, {30, 200, 30}: 4, {255, 255, 255}: 4}, []RGB{{200, 30, 30}, {30, 200, 30}, {255, 255, 255}})
	for x := range 10 {
		set(p, x, 0, RGB{0, 0, 255}, 0) // transparent
	}
	out := &Out{Areas: []image.Rectangle{image.Rect(0, 4, 10, 8)}}
	out.Lightness[255] = true
	got := PaletteOf(p, out, nil)
	if len(got.Colours) != 1 || got.Colours[0].Colour != (RGB{200, 30, 30}) || got.Colours[0].Share != 1 {
		t.Errorf("%+v", got.Colours)
	}
	out.Areas[0] = p.Bounds()
	for name, none := range map[string]*Palette{
		"all left out": PaletteOf(p, out, nil), "no pixels": PaletteOf(Pixels{}, nil, nil), "sizes that don't fit": PaletteOf(Pixels{Width: 3, Height: 3}, nil, nil),
	} {
		data, err := json.Marshal(none)
		if err != nil || string(data) != `{"colours":[],"spread":[0,0,0,0,0,0,0,0,0,0],"empty":[]}` {
			t.Errorf("%s: %s, %v", name, data, err)
		}
	}
}

// Every colour of the palette occurs in the picture, none twice, shares add up to 1, both
// layouts give the same, and so does a second look.
func TestPaletteLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		seed := rapid.Uint64().Draw(t, "seed")
		grain := rapid.IntRange(0, 60).Draw(t, "grain")
		p := chancePicture(seed, grain, RGBA)
		got := PaletteOf(p, nil, nil)
		if len(got.Colours) == 0 || len(got.Colours) > MostPaletteColours {
			t.Fatalf("%d colours", len(got.Colours))
		}
		used := map[RGB]bool{}
		for y := range p.Height {
			for x := range p.Width {
				used[p.pixel(x, y)] = true
			}
		}
		shares, spread := 0.0, 0.0
		for _, c := range got.Colours {
			if !used[c.Colour] {
				t.Fatalf("%s isn't in the picture, or comes twice", c.Colour.Hex())
			}
			delete(used, c.Colour)
			shares += c.Share
		}
		for _, s := range got.Spread {
			spread += s
		}
		if math.Abs(shares-1) > 1e-12 || math.Abs(spread-1) > 1e-12 {
			t.Fatalf("shares add up to %g, the spread to %g", shares, spread)
		}
		checkShares(t, p, got)
		first, _ := json.Marshal(got)
		for name, again := range map[string]*Palette{
			"a second look": PaletteOf(p, nil, nil), "the other layout": PaletteOf(chancePicture(seed, grain, BGRX), nil, nil),
		} {
			if data, _ := json.Marshal(again); string(data) != string(first) {
				t.Fatalf("%s: %s\n%s", name, first, data)
			}
		}
	})
}

// chancePicture paints rectangles of chance colours, with grain of so many codes.
func chancePicture(seed uint64, grain int, layout Layout) Pixels {
	const width, height = 60, 40
	rng := rand.New(rand.NewPCG(seed, 1))
	p := Pixels{Pix: make([]byte, pixelBytes*width*height), Stride: pixelBytes * width, Width: width, Height: height, Layout: layout}
	var plain [width * height]RGB
	for range 1 + rng.IntN(30) {
		c := RGB{uint8(rng.IntN(256)), uint8(rng.IntN(256)), uint8(rng.IntN(256))}
		r := image.Rect(rng.IntN(width), rng.IntN(height), rng.IntN(width), rng.IntN(height))
		for y := r.Min.Y; y < r.Max.Y; y++ {
			for x := r.Min.X; x < r.Max.X; x++ {
				plain[y*width+x] = c
			}
		}
	}
	for i, c := range plain {
		add := func(v uint8) uint8 { return uint8(min(max(int(v)+rng.IntN(grain+1)-grain/2, 0), 255)) }
		set(p, i%width, i/width, RGB{add(c.R), add(c.G), add(c.B)}, 255)
	}
	return p
}

// Colours join the family, and the side, where most of their pixels lie; families come in
// their order, what belongs to none last.
func TestPaletteByFamily(t *testing.T) {
	light, shadow, ground, other := RGB{0xe2, 0xab, 0x85}, RGB{0xb2, 0x6a, 0x5c}, RGB{0xd0, 0xc9, 0xbe}, RGB{0x34, 0x9a, 0xa4}
	p := flats(8, map[RGB]int{light: 2, shadow: 2, ground: 2, other: 2}, []RGB{light, shadow, ground, other})
	families := &Families{Width: 4, Height: 8, Map: make([]uint8, 32), List: make([]Family, 2)}
	for i := range families.Map {
		families.Map[i] = [8]uint8{5, 5, 6, 6, 0, 0, 1, 0}[i/4] // second family's sides, none, first's light
	}
	got := PaletteOf(p, nil, families)
	want := map[RGB]struct {
		family int
		side   FamilySide
	}{light: {1, LightSide}, shadow: {1, ShadowSide}, ground: {-1, ""}, other: {0, LightSide}}
	for _, c := range got.Colours {
		family := -1
		if c.Family != nil {
			family = *c.Family
		}
		if w := want[c.Colour]; family != w.family || c.Side != w.side {
			t.Errorf("%s: family %d, side %q, want %+v", c.Colour.Hex(), family, c.Side, w)
		}
	}
	var order []RGB
	for _, g := range got.ByFamily() {
		for _, i := range g.Colours {
			order = append(order, got.Colours[i].Colour)
		}
	}
	if !slices.Equal(order, []RGB{other, shadow, light, ground}) {
		t.Errorf("by family: %v", order)
	}
}

// A colour joins a family that holds less than half of its pixels but clearly more than
// anything else does; not where it is a close thing.
func TestPaletteJoinsTheLargestPart(t *testing.T) {
	for name, tt := range map[string]struct {
		tally [9]int
		want  int
	}{
		"half":                    {[9]int{0: 10, 1: 10}, 0},
		"less, but clearly":       {[9]int{0: 30, 1: 20, 2: 20, 5: 15, 6: 15}, 0},
		"none has nearly as many": {[9]int{0: 36, 1: 20, 2: 20, 5: 15, 6: 15}, -1},
		"another has":             {[9]int{0: 10, 1: 40, 5: 35}, -1},
		"the second":              {[9]int{0: 30, 2: 10, 6: 45, 8: 5}, 1},
		"nothing":                 {[9]int{}, -1},
	} {
		var tally [256]int
		copy(tally[:], tt.tally[:])
		var c PaletteColour
		c.joinBy(&tally)
		got := -1
		if c.Family != nil {
			got = *c.Family
		}
		if got != tt.want {
			t.Errorf("%s: family %d, want %d", name, got, tt.want)
		}
	}
}

// A family's own light and shadow colours carry it, also where the same colour covers more of
// the picture elsewhere; where it is another family's, that keeps it.
func TestPaletteKnowsAFamilysOwnColours(t *testing.T) {
	light, shadow, other := RGB{0xab, 0xb6, 0xb2}, RGB{0x5a, 0x6a, 0x70}, RGB{0xc0, 0x40, 0x30}
	p := flats(8, map[RGB]int{light: 4, shadow: 2, other: 2}, []RGB{light, shadow, other})
	families := &Families{Width: 1, Height: 8, List: []Family{
		{Light: SpotOf(light), Shadow: SpotOf(shadow)}, {Light: SpotOf(other), Shadow: SpotOf(shadow)},
	}}
	families.Map = []uint8{1, 0, 0, 0, 2, 6, 5, 5}
	got := PaletteOf(p, nil, families)
	want := map[RGB]struct {
		family int
		side   FamilySide
	}{light: {0, LightSide}, shadow: {0, ShadowSide}, other: {1, LightSide}}
	for _, c := range got.Colours {
		if w := want[c.Colour]; c.Family == nil || *c.Family != w.family || c.Side != w.side {
			t.Errorf("%s: family %v, side %q, want %+v", c.Colour.Hex(), c.Family, c.Side, w)
		}
	}
	families.Map = []uint8{1, 0, 5, 5, 2, 2, 5, 5} // the first's light is mostly the second's
	for _, c := range PaletteOf(p, nil, families).Colours {
		if c.Colour == light && (c.Family == nil || *c.Family != 1) {
			t.Errorf("%s: family %v, want the second", light.Hex(), c.Family)
		}
	}
}

// In the demo painting every family has its own light and shadow, where the palette has them.
func TestPaletteOfTheDemo(t *testing.T) {
	file, err := os.Open("../assets/demo.png")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	demo, err := png.Decode(file)
	if err != nil {
		t.Fatal(err)
	}
	img := image.NewNRGBA(demo.Bounds())
	draw.Draw(img, img.Rect, demo, image.Point{}, draw.Src)
	p := Pixels{Pix: img.Pix, Stride: img.Stride, Width: img.Rect.Dx(), Height: img.Rect.Dy()}
	families := FindFamilies(p, nil, DefaultFamilyRules())
	got := PaletteOf(p, nil, families)
	if len(families.List) == 0 {
		t.Fatal("no families")
	}
	for k, f := range families.List {
		for _, s := range []Spot{f.Light, f.Shadow} {
			for _, c := range got.Colours {
				if squareApart(c.Oklab, s.Oklab) < 0.01*0.01 && c.Family == nil {
					t.Errorf("%s of family %d belongs to none", c.Colour.Hex(), k+1)
				}
			}
		}
	}
}

// A smooth way from white to black, of which each colour has its share: by hand, black a
// hundredth, since a row of a hundred is exactly that.
func TestPaletteOfAGradient(t *testing.T) {
	const width, height = 10, 100
	p := Pixels{Pix: make([]byte, pixelBytes*width*height), Stride: pixelBytes * width, Width: width, Height: height}
	for y := range height {
		v := uint8(math.Round(255 * (1 - float64(y)/(height-1))))
		for x := range width {
			set(p, x, y, RGB{v, v, v}, 255)
		}
	}
	got := PaletteOf(p, nil, nil)
	for _, c := range got.Colours {
		if c.Share < 0.01 {
			t.Errorf("%s has share %g", c.Colour.Hex(), c.Share)
		}
	}
	checkShares(t, p, got)
}

// checkShares fails unless every share is that of the pixels to which no other colour of the
// palette is nearer, counted one by one.
func checkShares(t testkit.Fataler, p Pixels, got *Palette) {
	t.Helper()
	places, counts := make([]Oklab, len(got.Colours)), make([]int, len(got.Colours))
	for i, c := range got.Colours {
		places[i] = c.Oklab
	}
	for y := range p.Height {
		for x := range p.Width {
			k, _ := nearestOf(SpotOf(p.pixel(x, y)).Oklab, places)
			counts[k]++
		}
	}
	for i, c := range got.Colours {
		if want := float64(counts[i]) / float64(p.Width*p.Height); math.Abs(c.Share-want) > 1e-12 || c.Share == 0 {
			t.Fatalf("%s has share %g, want %g", c.Colour.Hex(), c.Share, want)
		}
	}
}

// No colour of a bin bulges farther out of what its corners span than binBulge: than the point
// that lies between them as the colour's codes do.
func TestBinsBulgeLittle(t *testing.T) {
	for bin := range binsInAll {
		if high := colourInBin(bin, exactCodes-1); max(high.R, high.G, high.B) < binBent || bin%29 != 0 {
			continue
		}
		corner := colourInBin(bin, 0)
		for number := range exactCodes {
			c := colourInBin(bin, number)
			if got := (binIndex(c) == bin) && codeInBin(c) == number; !got {
				t.Fatalf("bin %d, number %d: %v", bin, number, c)
			}
			part := [3]float64{float64(c.R-corner.R) / 7, float64(c.G-corner.G) / 7, float64(c.B-corner.B) / 7}
			var between Oklab
			for k := range 8 {
				weight, at := 1.0, corner
				for i, channel := range []*uint8{&at.R, &at.G, &at.B} {
					if k>>i&1 == 1 {
						*channel += 7
						weight *= part[i]
					} else {
						weight *= 1 - part[i]
					}
				}
				o := oklabOfCode(at)
				between = Oklab{between.L + weight*o.L, between.A + weight*o.A, between.B + weight*o.B}
			}
			if d := math.Sqrt(squareApart(between, oklabOfCode(c))); d > binBulge {
				t.Fatalf("%s bulges by %g", c.Hex(), d)
			}
		}
	}
}

func BenchmarkPalette(b *testing.B) { // budget: 200 ms, made on demand
	for name, p := range map[string]Pixels{"painting": painting(1920, 1080, BGRX), "noise": noise(1920, 1080, BGRX)} {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				PaletteOf(p, nil, nil)
			}
		})
	}
}
