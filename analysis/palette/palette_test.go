package palette

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

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/analysistest"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/families"
	"app.tonedesk/analysis/internal/testkit"
	_ "app.tonedesk/analysis/lawtest" // the same cases every time
)

// flats paints flat rectangles, one above the other, with so many rows each.
func flats(width int, rows map[colour.RGB]int, order []colour.RGB) analysis.Pixels {
	height := 0
	for _, n := range rows {
		height += n
	}
	p := analysis.Pixels{Pix: make([]byte, analysis.PixelBytes*width*height), Stride: analysis.PixelBytes * width, Width: width, Height: height}
	y := 0
	for _, c := range order {
		for range rows[c] {
			for x := range width {
				analysistest.Set(p, x, y, c, 255)
			}
			y++
		}
	}
	return p
}

// A palette that is known, since the picture was painted with it.
func TestPaletteOfFlats(t *testing.T) {
	rows := map[colour.RGB]int{
		{R: 0x3c, G: 0x23, B: 0x28}: 2, {R: 0xe2, G: 0xab, B: 0x85}: 40, {R: 0xb2, G: 0x6a, B: 0x5c}: 20, {R: 0xe7, G: 0x55, B: 0x4d}: 3,
		{R: 0x12, G: 0x34, B: 0xa0}: 15, {R: 0xff, G: 0xff, B: 0xff}: 20,
	}
	order := []colour.RGB{{R: 0xff, G: 0xff, B: 0xff}, {R: 0xe2, G: 0xab, B: 0x85}, {R: 0xe7, G: 0x55, B: 0x4d}, {R: 0xb2, G: 0x6a, B: 0x5c}, {R: 0x12, G: 0x34, B: 0xa0}, {R: 0x3c, G: 0x23, B: 0x28}}
	got := Of(flats(50, rows, order), nil, nil)
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
	p := flats(10, map[colour.RGB]int{{}: 5, {R: 255, G: 255, B: 255}: 5}, []colour.RGB{{}, {R: 255, G: 255, B: 255}})
	got := Of(p, nil, nil)
	if want := [colour.Steps]float64{0: 0.5, 9: 0.5}; got.Spread != want {
		t.Errorf("spread %v", got.Spread)
	}
	if want := []int{1, 2, 3, 4, 5, 6, 7, 8}; !slices.Equal(got.Empty, want) {
		t.Errorf("empty %v, want %v", got.Empty, want)
	}
}

// The spread's steps begin at whole steps of value. Sources: munsell_value_to_y.csv (D1535)
// for where, srgb_grey_ramp_256.csv (SRGB) for the greys.
func TestPaletteSpreadByValue(t *testing.T) {
	edges := make([]float64, 0, colour.Steps) // relative luminance of value 0 to 9
	values := testkit.ReadTable(t, "munsell_value_to_y.csv")
	for _, row := range values.Rows {
		if v := values.Number(row, "V"); v == math.Trunc(v) && v < colour.Steps {
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
		c := colour.RGB{R: v, G: v, B: v}
		if got := Of(flats(3, map[colour.RGB]int{c: 3}, []colour.RGB{c}), nil, nil); got.Spread[want] != 1 {
			t.Errorf("grey %d belongs to value %d and is counted as %v", v, want, got.Spread)
		}
	}
}

// The soft edge between two colours is no colour of the palette.
func TestPaletteLeavesOutSoftEdges(t *testing.T) {
	p := analysis.Pixels{Pix: make([]byte, analysis.PixelBytes*200*200), Stride: analysis.PixelBytes * 200, Width: 200, Height: 200}
	a, b := colour.RGB{R: 0xf0, G: 0xdc, B: 0x78}, colour.RGB{R: 0x2a, G: 0x30, B: 0x6e}
	for y := range 200 {
		for x := range 200 {
			part := min(max(float64(x)-100+float64(y-100)/3, 0), 4) / 4 // a slanting edge, four pixels soft
			mix := func(p, q uint8) uint8 { return uint8(math.Round(float64(p) + part*(float64(q)-float64(p)))) }
			analysistest.Set(p, x, y, colour.RGB{R: mix(a.R, b.R), G: mix(a.G, b.G), B: mix(a.B, b.B)}, 255)
		}
	}
	got := Of(p, nil, nil)
	if len(got.Colours) != 2 || got.Colours[0].Colour != b || got.Colours[1].Colour != a {
		for _, c := range got.Colours {
			t.Errorf("%s, share %.4f", c.Colour.Hex(), c.Share)
		}
	}
}

// What is left out or transparent is no part of the palette.
func TestPaletteCountsWhatIsCounted(t *testing.T) {
	p := flats(10, map[colour.RGB]int{{R: 200, G: 30, B: 30}: 4, {R: 30, G: 200, B: 30}: 4, {R: 255, G: 255, B: 255}: 4}, []colour.RGB{{R: 200, G: 30, B: 30}, {R: 30, G: 200, B: 30}, {R: 255, G: 255, B: 255}})
	for x := range 10 {
		analysistest.Set(p, x, 0, colour.RGB{R: 0, G: 0, B: 255}, 0) // transparent
	}
	out := &analysis.Mask{Areas: []image.Rectangle{image.Rect(0, 4, 10, 8)}}
	out.Lightness[255] = true
	got := Of(p, out, nil)
	if len(got.Colours) != 1 || got.Colours[0].Colour != (colour.RGB{R: 200, G: 30, B: 30}) || got.Colours[0].Share != 1 {
		t.Errorf("%+v", got.Colours)
	}
	out.Areas[0] = p.Bounds()
	for name, none := range map[string]*Palette{
		"all left out": Of(p, out, nil), "no pixels": Of(analysis.Pixels{}, nil, nil), "sizes that don't fit": Of(analysis.Pixels{Width: 3, Height: 3}, nil, nil),
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
		p := chancePicture(seed, grain, analysis.RGBA)
		got := Of(p, nil, nil)
		if len(got.Colours) == 0 || len(got.Colours) > Most {
			t.Fatalf("%d colours", len(got.Colours))
		}
		used := map[colour.RGB]bool{}
		for y := range p.Height {
			for x := range p.Width {
				used[p.Pixel(x, y)] = true
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
			"a second look": Of(p, nil, nil), "the other layout": Of(chancePicture(seed, grain, analysis.BGRX), nil, nil),
		} {
			if data, _ := json.Marshal(again); string(data) != string(first) {
				t.Fatalf("%s: %s\n%s", name, first, data)
			}
		}
	})
}

// chancePicture paints rectangles of chance colours, with grain of so many codes.
func chancePicture(seed uint64, grain int, layout analysis.Layout) analysis.Pixels {
	const width, height = 60, 40
	rng := rand.New(rand.NewPCG(seed, 1))
	p := analysis.Pixels{Pix: make([]byte, analysis.PixelBytes*width*height), Stride: analysis.PixelBytes * width, Width: width, Height: height, Layout: layout}
	var plain [width * height]colour.RGB
	for range 1 + rng.IntN(30) {
		c := colour.RGB{R: uint8(rng.IntN(256)), G: uint8(rng.IntN(256)), B: uint8(rng.IntN(256))}
		r := image.Rect(rng.IntN(width), rng.IntN(height), rng.IntN(width), rng.IntN(height))
		for y := r.Min.Y; y < r.Max.Y; y++ {
			for x := r.Min.X; x < r.Max.X; x++ {
				plain[y*width+x] = c
			}
		}
	}
	for i, c := range plain {
		add := func(v uint8) uint8 { return uint8(min(max(int(v)+rng.IntN(grain+1)-grain/2, 0), 255)) }
		analysistest.Set(p, i%width, i/width, colour.RGB{R: add(c.R), G: add(c.G), B: add(c.B)}, 255)
	}
	return p
}

// Colours join the family, and the side, where most of their pixels lie; families come in
// their order, what belongs to none last.
func TestPaletteByFamily(t *testing.T) {
	light, shadow, ground, other := colour.RGB{R: 0xe2, G: 0xab, B: 0x85}, colour.RGB{R: 0xb2, G: 0x6a, B: 0x5c}, colour.RGB{R: 0xd0, G: 0xc9, B: 0xbe}, colour.RGB{R: 0x34, G: 0x9a, B: 0xa4}
	p := flats(8, map[colour.RGB]int{light: 2, shadow: 2, ground: 2, other: 2}, []colour.RGB{light, shadow, ground, other})
	families := &families.Found{Width: 4, Height: 8, Map: make([]uint8, 32), List: make([]families.Family, 2)}
	for i := range families.Map {
		families.Map[i] = [8]uint8{5, 5, 6, 6, 0, 0, 1, 0}[i/4] // second family's sides, none, first's light
	}
	got := Of(p, nil, families)
	want := map[colour.RGB]struct {
		family int
		side   Side
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
	var order []colour.RGB
	for _, g := range got.ByFamily() {
		for _, i := range g.Colours {
			order = append(order, got.Colours[i].Colour)
		}
	}
	if !slices.Equal(order, []colour.RGB{other, shadow, light, ground}) {
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
		var c Colour
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
	light, shadow, other := colour.RGB{R: 0xab, G: 0xb6, B: 0xb2}, colour.RGB{R: 0x5a, G: 0x6a, B: 0x70}, colour.RGB{R: 0xc0, G: 0x40, B: 0x30}
	p := flats(8, map[colour.RGB]int{light: 4, shadow: 2, other: 2}, []colour.RGB{light, shadow, other})
	families := &families.Found{Width: 1, Height: 8, List: []families.Family{
		{Light: analysis.SpotOf(light), Shadow: analysis.SpotOf(shadow)}, {Light: analysis.SpotOf(other), Shadow: analysis.SpotOf(shadow)},
	}}
	families.Map = []uint8{1, 0, 0, 0, 2, 6, 5, 5}
	got := Of(p, nil, families)
	want := map[colour.RGB]struct {
		family int
		side   Side
	}{light: {0, LightSide}, shadow: {0, ShadowSide}, other: {1, LightSide}}
	for _, c := range got.Colours {
		if w := want[c.Colour]; c.Family == nil || *c.Family != w.family || c.Side != w.side {
			t.Errorf("%s: family %v, side %q, want %+v", c.Colour.Hex(), c.Family, c.Side, w)
		}
	}
	families.Map = []uint8{1, 0, 5, 5, 2, 2, 5, 5} // the first's light is mostly the second's
	for _, c := range Of(p, nil, families).Colours {
		if c.Colour == light && (c.Family == nil || *c.Family != 1) {
			t.Errorf("%s: family %v, want the second", light.Hex(), c.Family)
		}
	}
}

// In the demo painting every family has its own light and shadow, where the palette has them.
func TestPaletteOfTheDemo(t *testing.T) {
	file, err := os.Open("../../assets/demo.png")
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
	p := analysis.Pixels{Pix: img.Pix, Stride: img.Stride, Width: img.Rect.Dx(), Height: img.Rect.Dy()}
	families := families.Find(p, nil, families.DefaultRules())
	got := Of(p, nil, families)
	if len(families.List) == 0 {
		t.Fatal("no families")
	}
	for k, f := range families.List {
		for _, s := range []analysis.Spot{f.Light, f.Shadow} {
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
	p := analysis.Pixels{Pix: make([]byte, analysis.PixelBytes*width*height), Stride: analysis.PixelBytes * width, Width: width, Height: height}
	for y := range height {
		v := uint8(math.Round(255 * (1 - float64(y)/(height-1))))
		for x := range width {
			analysistest.Set(p, x, y, colour.RGB{R: v, G: v, B: v}, 255)
		}
	}
	got := Of(p, nil, nil)
	for _, c := range got.Colours {
		if c.Share < 0.01 {
			t.Errorf("%s has share %g", c.Colour.Hex(), c.Share)
		}
	}
	checkShares(t, p, got)
}

// checkShares fails unless every share is that of the pixels to which no other colour of the
// palette is nearer, counted one by one.
func checkShares(t testkit.Fataler, p analysis.Pixels, got *Palette) {
	t.Helper()
	places, counts := make([]colour.Oklab, len(got.Colours)), make([]int, len(got.Colours))
	for i, c := range got.Colours {
		places[i] = c.Oklab
	}
	for y := range p.Height {
		for x := range p.Width {
			k, _ := nearestOf(analysis.SpotOf(p.Pixel(x, y)).Oklab, places)
			counts[k]++
		}
	}
	for i, c := range got.Colours {
		if want := float64(counts[i]) / float64(p.Width*p.Height); math.Abs(c.Share-want) > 1e-12 || c.Share == 0 {
			t.Fatalf("%s has share %g, want %g", c.Colour.Hex(), c.Share, want)
		}
	}
}

// Every number of a bin is that of its colour, there and back.
func TestBinsNumberTheirColours(t *testing.T) {
	for bin := 0; bin < binsInAll; bin += 29 {
		for number := range exactCodes {
			if c := colourInBin(bin, number); binIndex(c) != bin || codeInBin(c) != number {
				t.Fatalf("bin %d, number %d: %v", bin, number, c)
			}
		}
	}
}

func BenchmarkPalette(b *testing.B) { // budget: 200 ms, made on demand
	for name, p := range map[string]analysis.Pixels{"painting": analysistest.Painting(1920, 1080, analysis.BGRX), "noise": analysistest.Noise(1920, 1080, analysis.BGRX)} {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				Of(p, nil, nil)
			}
		})
	}
}
