package swatches

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"hash/crc32"
	"image"
	"image/png"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	_ "app.tonedesk/analysis/lawtest" // the same cases every time
	"app.tonedesk/analysis/palette"
	"app.tonedesk/analysis/propose"
)

func shades(t testing.TB, hex string) *propose.Shades {
	t.Helper()
	c, err := colour.Parse(hex)
	if err != nil {
		t.Fatal(err)
	}
	return propose.Shade(analysis.SpotOf(c), propose.DefaultOptions())
}

// Names are unlike each other, also as names of custom properties; what has no room is left
// out.
func TestNames(t *testing.T) {
	for _, name := range []string{"#e2ab85", "#000", "#fff", "#00f", "#202020"} {
		names := map[string]bool{}
		for _, row := range OfShades(shades(t, name)) {
			if len(row.Swatches) == 0 {
				t.Errorf("%s: the row %q is empty", name, row.Title)
			}
			for _, s := range row.Swatches {
				if names[property(s.Name)] {
					t.Errorf("%s: %q comes twice", name, s.Name)
				}
				names[property(s.Name)] = true
			}
		}
		if want := name != "#000"; names["--shadow-1"] != want {
			t.Errorf("%s: has a shadow %v", name, !want)
		}
	}
}

func TestNamesOfPalette(t *testing.T) {
	one, side := 0, palette.LightSide
	p := &palette.Palette{Colours: []palette.Colour{
		{Spot: analysis.SpotOf(colour.RGB{R: 10})},
		{Spot: analysis.SpotOf(colour.RGB{R: 20}), Family: &one, Side: side},
		{Spot: analysis.SpotOf(colour.RGB{R: 30}), Family: &one, Side: side},
		{Spot: analysis.SpotOf(colour.RGB{R: 40})},
	}}
	var text bytes.Buffer
	for _, row := range OfPalette(p) {
		fmt.Fprint(&text, row.Title, ":")
		for _, s := range row.Swatches {
			fmt.Fprint(&text, " ", s.Name, ",")
		}
		fmt.Fprint(&text, "; ")
	}
	if got, want := text.String(), "Local colour 1: local 1 light, local 1 light 2,; Other colours: colour 1, colour 2,; "; got != want {
		t.Errorf("%s", got)
	}
}

var oklch = regexp.MustCompile(`^oklch\(([0-9.]+)% ([0-9.]+) ([0-9.]+|none)\)$`)

// What is written as oklch() comes back as the same 8-bit colour. Source: CSS4.
func TestOklchComesBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := colour.RGB{R: rapid.Byte().Draw(t, "R"), G: rapid.Byte().Draw(t, "G"), B: rapid.Byte().Draw(t, "B")}
		if rapid.IntRange(0, 9).Draw(t, "neutral") == 0 {
			c.G, c.B = c.R, c.R
		}
		text := CSSOklch(c)
		parts := oklch.FindStringSubmatch(text)
		if parts == nil || (parts[3] == "none") != c.Neutral() {
			t.Fatalf("%s is written %s", c.Hex(), text)
		}
		var v [3]float64
		for i := range v {
			v[i], _ = strconv.ParseFloat(parts[i+1], 64) // none is 0
		}
		r, g, b := colour.Oklch{L: v[0] / 100, C: v[1], H: v[2]}.Oklab().Light()
		if back := (colour.RGB{R: colour.Encode(r), G: colour.Encode(g), B: colour.Encode(b)}); back != c {
			t.Fatalf("%s comes back from %s as %s", c.Hex(), text, back.Hex())
		}
	})
}

// The Oklch of red, as published: CSS4's sample code gives 62.796 %, 0.25768, 29.234 for
// #ff0000 (srgb_to_lab_oklab.csv: 0.62795536, 0.25768330, 29.2339).
func TestCSS(t *testing.T) {
	var out bytes.Buffer
	rows := []Row{{"Local */ colour", []Swatch{{"shadow 1", analysis.SpotOf(colour.RGB{R: 255})}, {"grey", analysis.SpotOf(colour.RGB{R: 128, G: 128, B: 128})}}}}
	if err := WriteCSS(&out, rows); err != nil {
		t.Fatal(err)
	}
	want := ":root {\n  /* Local * / colour */\n" +
		"  --shadow-1: #ff0000;\n  --shadow-1-oklch: oklch(62.796% 0.25768 29.23);\n" +
		"  --grey: #808080;\n  --grey-oklch: oklch(59.987% 0 none);\n}\n"
	if out.String() != want {
		t.Errorf("%s", out.String())
	}
}

func TestLists(t *testing.T) {
	rows := OfShades(shades(t, "#e2ab85"))
	var hex, text bytes.Buffer
	if err := WriteCodes(&hex, rows); err != nil {
		t.Fatal(err)
	}
	if err := WriteText(&text, rows); err != nil {
		t.Fatal(err)
	}
	codes := strings.Fields(hex.String())
	if codes[0] != "#e2ab85" || len(codes) != 1+3+2+3+3+3+24+24 {
		t.Errorf("%d codes, the first %s", len(codes), codes[0])
	}
	for _, code := range codes {
		if c, err := colour.Parse(code); err != nil || c.Hex() != code {
			t.Errorf("%q: %v", code, err)
		}
		if !strings.Contains(text.String(), code) {
			t.Errorf("%s is not in the text", code)
		}
	}
}

// On the sheet every swatch is one flat colour above one flat grey of its lightness, with a
// line around both, the rest
// is neutral, and there are no other colours than these and two greys: nothing is smoothed.
func TestSheetIsFlat(t *testing.T) {
	rows := OfShades(shades(t, "#e2ab85"))
	img := Sheet(rows)
	known := map[[3]uint8]bool{}
	note := func(v colour.RGB) { known[[3]uint8{v.R, v.G, v.B}] = true }
	for _, lightness := range []float64{100, 0} {
		v := colour.GreyOf(lightness)
		note(colour.RGB{R: v, G: v, B: v})
	}
	y := 8
	for _, row := range rows {
		y += 22
		for i, s := range row.Swatches {
			at := image.Pt(9+i%8*138, y+1+i/8*148)
			v := colour.GreyOf(s.Spot.Lightness)
			grey := colour.RGB{R: v, G: v, B: v}
			checkFlat(t, img, image.Rectangle{at, at.Add(image.Pt(128, 64))}, s.Spot.Colour)
			checkFlat(t, img, image.Rectangle{at.Add(image.Pt(0, 64)), at.Add(image.Pt(128, 96))}, grey)
			note(s.Spot.Colour)
			note(grey)
			checkFramed(t, img, image.Rectangle{at, at.Add(image.Pt(128, 96))})
		}
		y += (len(row.Swatches) + 7) / 8 * 148
	}
	if img.Bounds().Dy() != y {
		t.Errorf("the sheet is %v, its rows end at %d", img.Bounds(), y)
	}
	for i := 0; i < len(img.Pix); i += 4 {
		if !known[[3]uint8(img.Pix[i:])] || img.Pix[i+3] != 255 {
			t.Fatalf("a pixel is %v", img.Pix[i:i+4])
		}
	}
}

// checkFramed fails unless a black line runs right around r, and white around that: then what
// lies in r ends for the eye, whatever its grey.
func checkFramed(t *testing.T, img *image.NRGBA, r image.Rectangle) {
	t.Helper()
	for out, want := range map[int]uint8{1: 0, 2: 255} {
		around := r.Inset(-out)
		for x := around.Min.X; x < around.Max.X; x++ {
			for _, y := range []int{around.Min.Y, around.Max.Y - 1} {
				if c := img.NRGBAAt(x, y); c.R != want || c.G != want || c.B != want {
					t.Fatalf("at %d,%d, %d around a swatch: %v", x, y, out, c)
				}
			}
		}
		for y := around.Min.Y; y < around.Max.Y; y++ {
			for _, x := range []int{around.Min.X, around.Max.X - 1} {
				if c := img.NRGBAAt(x, y); c.R != want || c.G != want || c.B != want {
					t.Fatalf("at %d,%d, %d around a swatch: %v", x, y, out, c)
				}
			}
		}
	}
}

func checkFlat(t *testing.T, img *image.NRGBA, r image.Rectangle, want colour.RGB) {
	t.Helper()
	for y := r.Min.Y; y < r.Max.Y; y++ {
		for x := r.Min.X; x < r.Max.X; x++ {
			if c := img.NRGBAAt(x, y); c.R != want.R || c.G != want.G || c.B != want.B {
				t.Fatalf("at %d,%d: %v, want %s", x, y, c, want.Hex())
			}
		}
	}
}

// The PNG reads back as the sheet, and its second chunk is sRGB, with a byte of rendering
// intent from 0 to 3 and a right checksum. Source: PNG, 11.3.3.5.
func TestPNGSaysSRGB(t *testing.T) {
	rows := OfShades(shades(t, "#3060c0"))
	var out bytes.Buffer
	if err := WritePNG(&out, rows); err != nil {
		t.Fatal(err)
	}
	var names []string
	for rest := out.Bytes()[8:]; len(rest) > 0; {
		n := binary.BigEndian.Uint32(rest)
		name, data := string(rest[4:8]), rest[8:8+n]
		if binary.BigEndian.Uint32(rest[8+n:]) != crc32.ChecksumIEEE(rest[4:8+n]) {
			t.Errorf("%s has a wrong checksum", name)
		}
		if name == "sRGB" && (n != 1 || data[0] > 3) {
			t.Errorf("sRGB holds %v", data)
		}
		names = append(names, name)
		rest = rest[12+n:]
	}
	if names[0] != "IHDR" || names[1] != "sRGB" {
		t.Errorf("chunks %v", names)
	}
	img, err := png.Decode(&out)
	if err != nil {
		t.Fatal(err)
	}
	sheet := Sheet(rows)
	for y := range sheet.Bounds().Dy() {
		for x := range sheet.Bounds().Dx() {
			r, g, b, a := img.At(x, y).RGBA()
			c := sheet.NRGBAAt(x, y)
			if uint8(r>>8) != c.R || uint8(g>>8) != c.G || uint8(b>>8) != c.B || a != 0xffff {
				t.Fatalf("at %d,%d: %v, want %v", x, y, img.At(x, y), c)
			}
		}
	}
}

func TestNoSwatches(t *testing.T) {
	for name, rows := range map[string][]Row{"no rows": nil, "an empty row": {{Title: "Colours"}}} {
		var css, hex, text, picture bytes.Buffer
		for _, err := range []error{WriteCSS(&css, rows), WriteCodes(&hex, rows), WriteText(&text, rows), WritePNG(&picture, rows)} {
			if err != nil {
				t.Errorf("%s: %v", name, err)
			}
		}
		if hex.Len() != 0 {
			t.Errorf("%s: %q", name, hex.String())
		}
	}
}

// Whatever swatches are called, they are written in every way, and no title ends a comment.
func TestAnyNames(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rows := []Row{{rapid.String().Draw(t, "title"), []Swatch{{rapid.String().Draw(t, "name"), analysis.SpotOf(colour.RGB{R: 10})}}}}
		if rapid.Bool().Draw(t, "ends") {
			rows[0].Title += "**//"
		}
		var picture, css, text, hex bytes.Buffer
		for _, err := range []error{WritePNG(&picture, rows), WriteCSS(&css, rows), WriteText(&text, rows), WriteCodes(&hex, rows)} {
			if err != nil {
				t.Fatal(err)
			}
		}
		if c, err := png.DecodeConfig(&picture); err != nil || c.Width > 2*gap+perLine*cellWidth {
			t.Fatalf("%d pixels wide, %v", c.Width, err)
		}
		if n := strings.Count(css.String(), "*/"); n != 1 {
			t.Fatalf("%d comments end in %s", n, css.String())
		}
	})
}
