package main

import (
	"bytes"
	"encoding/binary"
	"encoding/json"
	"fmt"
	"hash/crc32"
	"image"
	"image/color"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/cmd/desk/desktest"
	"app.tonedesk/gui/files"
)

// picture writes a PNG of w by h pixels, painted by at, and returns its path.
func picture(t *testing.T, name string, w, h int, at func(x, y int) color.NRGBA) string {
	t.Helper()
	m := image.NewNRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			m.SetNRGBA(x, y, at(x, y))
		}
	}
	var b bytes.Buffer
	if err := png.Encode(&b, m); err != nil {
		t.Fatal(err)
	}
	return file(t, name, b.Bytes())
}

// file writes a file of the test's own and returns its path.
func file(t *testing.T, name string, data []byte) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), name)
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

// halves is a quarter of black beside three quarters of white.
func halves(x, _ int) color.NRGBA {
	if x < 2 {
		return color.NRGBA{A: 255}
	}
	return color.NRGBA{255, 255, 255, 255}
}

// report is the JSON of desk read, as a reader of it would write it down.
type report struct {
	File          string
	Width, Height int
	Lightness     struct{ Mean, P1, P50, P99 *float64 }
	Histogram     []int
	Groups        []struct {
		Name                  string
		From, To, Share, Mean float64
	}
	Separability, Murk *float64
	GroundShare        *float64 `json:"ground_share"`
	Gaps               []float64
	Key                *string
	Spots              []struct {
		Colour     string
		Lightness  float64
		X, Y, Size int
	}
	Limits struct {
		DarkShare  *float64 `json:"dark_share"`
		LightShare *float64 `json:"light_share"`
	}
	Families     json.RawMessage
	CountedShare float64      `json:"counted_share"`
	LeftOut      []files.Rect `json:"left_out"`
}

func reportFrom(t *testing.T, line string) (r report) {
	t.Helper()
	if err := json.Unmarshal([]byte(line), &r); err != nil {
		t.Fatalf("%v: %s", err, line)
	}
	return r
}

// A figure of 40 by 40 pixels, half dark and half middle, on paper of 100 by 80.
func TestReadWithoutTheGround(t *testing.T) {
	path := picture(t, "figure.png", 100, 80, func(x, y int) color.NRGBA {
		switch in := x >= 30 && x < 70 && y >= 20 && y < 60; {
		case in && x < 50:
			return color.NRGBA{30, 30, 30, 255}
		case in:
			return color.NRGBA{130, 130, 130, 255}
		}
		return color.NRGBA{250, 250, 250, 255}
	})
	e := desktest.Run(t, "", "read", "--json", "--no-families", "--without-ground", path)
	e.PlainErrors(t, 0)
	r := reportFrom(t, e.Out)
	if r.GroundShare == nil || *r.GroundShare != 0.8 || len(r.Groups) != 2 || r.Groups[0].Share != 0.5 || r.Histogram[251] != 6400 {
		t.Errorf("ground and groups %s", e.Out)
	}
	e = desktest.Run(t, "", "read", "--no-families", "--without-ground", path)
	if !strings.Contains(e.Out, "groups of  Without the ground, which is 80 % of what counts.") {
		t.Errorf("says\n%s", e.Out)
	}
	e = desktest.Run(t, "", "read", "--json", "--no-families", path)
	if r := reportFrom(t, e.Out); r.GroundShare != nil || r.Groups[len(r.Groups)-1].Share < 0.79 {
		t.Errorf("whole picture: %s", e.Out)
	}
}

func TestReadJSON(t *testing.T) {
	path := picture(t, "two.png", 8, 4, halves)
	e := desktest.Run(t, "", "read", "--json", "--spots", "0,0;7,3", "--size", "1", "--groups", "2", path)
	e.PlainErrors(t, 0)
	const names = "version file width height space lightness histogram groups separability gaps murk key ground_share spots limits families forms light lost_edges edges focus counted_share left_out"
	if got := strings.Join(keys(t, e.Out), " "); got != names || e.Code != 0 {
		t.Fatalf("code %d, names %s, want %s", e.Code, got, names)
	}
	r := reportFrom(t, e.Out)
	// By hand, from the definitions: 8 of 32 pixels have L* 0, 24 have L* 100.
	if r.File != path || r.Width != 8 || r.Height != 4 || len(r.Histogram) != 256 || r.Histogram[0] != 8 || r.Histogram[255] != 24 {
		t.Errorf("size %d by %d, histogram %v", r.Width, r.Height, r.Histogram)
	}
	if *r.Lightness.Mean != 75 || *r.Lightness.P1 != 0 || *r.Lightness.P50 != 100 || *r.Lightness.P99 != 100 {
		t.Errorf("lightness %s", e.Out)
	}
	if len(r.Groups) != 2 || r.Groups[0].Name != "dark" || r.Groups[0].Share != 0.25 || r.Groups[1].Name != "light" || r.Groups[1].Mean != 100 {
		t.Errorf("groups %+v", r.Groups)
	}
	// The tie of Otsu's criterion runs over the thresholds 0 to 254; its middle is 127.
	if want := 127.5 / colour.BinsPerLightness; math.Abs(r.Groups[0].To-want) > 1e-9 {
		t.Errorf("edge at %g, want %g", r.Groups[0].To, want)
	}
	if len(r.Gaps) != 1 || math.Abs(r.Gaps[0]-10) > 1e-6 || *r.Separability != 1 || *r.Murk != 0 || *r.Key != "high" {
		t.Errorf("figures %s", e.Out)
	}
	if len(r.Spots) != 2 || r.Spots[0].Colour != "#000000" || r.Spots[1].X != 7 || r.Spots[1].Y != 3 || r.Spots[1].Size != 1 || r.Spots[1].Lightness != 100 {
		t.Errorf("spots %+v", r.Spots)
	}
	if *r.Limits.DarkShare != 0.25 || *r.Limits.LightShare != 0.75 {
		t.Errorf("limits %s", e.Out)
	}
	if string(r.Families) != "[]" {
		t.Errorf("families %s, want none", r.Families)
	}
	if r.CountedShare != 1 || r.LeftOut == nil || len(r.LeftOut) != 0 {
		t.Errorf("%g is counted, left out %v", r.CountedShare, r.LeftOut)
	}
}

// The workspace around a canvas is left out where that is certain, and counted on request; a
// figure on a plain ground of its own is all counted.
func TestReadLeavesTheWorkspaceOut(t *testing.T) {
	canvas := func(x, y int) color.NRGBA {
		switch {
		case x < 40 || x >= 240 || y < 20 || y >= 170:
			return color.NRGBA{90, 90, 90, 255}
		case x < 140:
			return color.NRGBA{200, 140, 100, 255}
		}
		return color.NRGBA{255, 255, 255, 255}
	}
	path := picture(t, "screen.png", 300, 200, canvas)
	e := desktest.Run(t, "", "read", "--json", path)
	e.PlainErrors(t, 0)
	r := reportFrom(t, e.Out)
	if want := 200.0 * 150 / 300 / 200; r.CountedShare != want || r.Histogram[255] != 100*150 || r.Groups[0].Share != 0.5 {
		t.Errorf("%g of it is counted, want %g: %s", r.CountedShare, want, e.Out)
	}
	if want := []files.Rect{{Width: 300, Height: 20}, {Y: 170, Width: 300, Height: 30}, {Y: 20, Width: 40, Height: 150}, {X: 240, Y: 20, Width: 60, Height: 150}}; !slices.Equal(r.LeftOut, want) {
		t.Errorf("left out is %v, want %v", r.LeftOut, want)
	}
	if e = desktest.Run(t, "", "read", path); !strings.Contains(e.Out, "workspace around the canvas") || !strings.Contains(e.Out, ": 50 % counted\n") {
		t.Errorf("the report says\n%s", e.Out)
	}
	if r = reportFrom(t, desktest.Run(t, "", "read", "--json", "--workspace", "keep", path).Out); r.CountedShare != 1 || len(r.LeftOut) != 0 {
		t.Errorf("on request %g is counted, without %v", r.CountedShare, r.LeftOut)
	}
	figure := picture(t, "figure.png", 300, 200, func(x, y int) color.NRGBA {
		if (x-150)*(x-150)+(y-100)*(y-100) < 80*80 {
			return color.NRGBA{200, 140, uint8(x), 255}
		}
		return color.NRGBA{90, 90, 90, 255}
	})
	if r = reportFrom(t, desktest.Run(t, "", "read", "--json", "--workspace=auto", figure).Out); r.CountedShare != 1 || len(r.LeftOut) != 0 {
		t.Errorf("of a figure %g is counted, without %v", r.CountedShare, r.LeftOut)
	}
	clear := picture(t, "clear.png", 8, 4, func(x, y int) color.NRGBA { return color.NRGBA{uint8(200 * y), 0, 0, uint8(255 * (x % 2))} })
	if e = desktest.Run(t, "", "read", clear); !strings.Contains(e.Out, "transparent pixels: 50 % counted\n") {
		t.Errorf("the report says\n%s", e.Out)
	}
	if e = desktest.Run(t, "", "read", "--workspace", "away", path); e.Code != 2 {
		t.Errorf("a word that isn't on offer ends with %d", e.Code)
	}
}

func TestReadOfNothingIsNullNotNonsense(t *testing.T) {
	path := picture(t, "clear.png", 3, 3, func(x, y int) color.NRGBA { return color.NRGBA{200, 100, 50, 0} })
	e := desktest.Run(t, "", "read", "--json", path)
	e.PlainErrors(t, 0)
	r := reportFrom(t, e.Out)
	if r.Lightness.Mean != nil || r.Lightness.P50 != nil || r.Separability != nil || r.Murk != nil || r.Key != nil ||
		r.Limits.DarkShare != nil || r.Limits.LightShare != nil {
		t.Errorf("figures of nothing: %s", e.Out)
	}
	if r.Groups == nil || r.Gaps == nil || r.Spots == nil || len(r.Groups)+len(r.Gaps)+len(r.Spots) != 0 {
		t.Errorf("lists of nothing should be empty arrays: %s", e.Out)
	}
	if e = desktest.Run(t, "", "read", path); !strings.Contains(e.Out, "every pixel is transparent") {
		t.Errorf("the report says\n%s", e.Out)
	}
}

// W3C Compositing and Blending Level 1: half-transparent black (alpha 128 of 255) over
// white is 255 - 128 = 127, over black 0.
func TestReadLaysHalfTransparentPixelsOverTheGround(t *testing.T) {
	path := picture(t, "half.png", 4, 4, func(x, y int) color.NRGBA { return color.NRGBA{A: 128} })
	for _, tt := range []struct{ ground, want string }{{"", "#7f7f7f"}, {"#000", "#000000"}, {"rgb(255 255 255)", "#7f7f7f"}} {
		args := []string{"read", "--json", "--spots", "1,1", path}
		if tt.ground != "" {
			args = append(args, "--ground", tt.ground)
		}
		if r := reportFrom(t, desktest.Run(t, "", args...).Out); r.Spots[0].Colour != tt.want {
			t.Errorf("over %q: %s, want %s", tt.ground, r.Spots[0].Colour, tt.want)
		}
	}
}

// A square of 3 by 3 is averaged in linear light: one white among nine pixels is 1/9, and
// IEC 61966-2-1 encodes 1/9 as 1.055 * (1/9)^(1/2.4) - 0.055, which is 94 of 255.
func TestReadSpotSize(t *testing.T) {
	path := picture(t, "dot.png", 11, 11, func(x, y int) color.NRGBA {
		if x == 5 && y == 5 {
			return color.NRGBA{255, 255, 255, 255}
		}
		return color.NRGBA{A: 255}
	})
	encoded := math.Round(255 * (1.055*math.Pow(1.0/9, 1/2.4) - 0.055))
	for _, tt := range []struct{ size, want string }{
		{"1", "#ffffff"},
		{"", fmt.Sprintf("#%02[1]x%02[1]x%02[1]x", int(encoded))},
	} {
		args := []string{"read", "--json", "--spots=5,5", path}
		if tt.size != "" {
			args = append(args, "--size", tt.size)
		}
		if r := reportFrom(t, desktest.Run(t, "", args...).Out); r.Spots[0].Colour != tt.want {
			t.Errorf("size %q: %s, want %s", tt.size, r.Spots[0].Colour, tt.want)
		}
	}
}

// claim returns the first bytes of a PNG that claims a size (PNG, ISO/IEC 15948: the
// IHDR chunk).
func claim(width, height uint32) []byte {
	head := binary.BigEndian.AppendUint32(binary.BigEndian.AppendUint32([]byte("IHDR"), width), height)
	head = append(head, 8, 6, 0, 0, 0)
	data := append([]byte("\x89PNG\r\n\x1a\n\x00\x00\x00\x0d"), head...)
	return binary.BigEndian.AppendUint32(data, crc32.ChecksumIEEE(head))
}

func TestReadOfBadFilesGoesOnWithTheOthers(t *testing.T) {
	whole, err := os.ReadFile("../../assets/demo.png")
	if err != nil {
		t.Fatal(err)
	}
	good := picture(t, "good.png", 8, 4, halves)
	odd := "there is no such file"
	if desktest.Foreign() {
		odd = "no file can have such a name"
	}
	tests := []struct{ name, path, why string }{
		{"missing", filepath.Join(t.TempDir(), "none.png"), "there is no such file"},
		{"cut short", file(t, "short.png", whole[:len(whole)/2]), "ends before the picture does"},
		{"claims to be huge", file(t, "huge.png", claim(20_000, 20_000)), "100 megapixels"},
		{"text", file(t, "text.png", []byte("Dear diary,\n")), "not a picture"},
		{"empty", file(t, "empty.png", nil), "the file is empty"},
		{"folder", t.TempDir(), "a folder"},
		{"damaged", file(t, "bad.png", append(bytes.Clone(whole[:60]), bytes.Repeat([]byte{0x55}, 5000)...)), "damaged"},
		{"odd name", filepath.Join(t.TempDir(), "a\nb\x1b[2J.png"), odd},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			e := desktest.Run(t, "", "read", "--json", tt.path, good)
			e.PlainErrors(t, 1)
			if e.Code != 1 || !strings.Contains(e.Err, tt.why) {
				t.Errorf("code %d, said %s, want %q", e.Code, e.Err, tt.why)
			}
			if r := reportFrom(t, e.Out); r.File != good || strings.Count(e.Out, "\n") != 1 {
				t.Errorf("the good file's report is %s", e.Out)
			}
		})
	}
}

func TestReadSpotOutsideIsAnErrorOfThatFile(t *testing.T) {
	small, large := picture(t, "small.png", 4, 4, halves), picture(t, "large.png", 40, 40, halves)
	e := desktest.Run(t, "", "read", "--json", "--spots", "0,0;10,10", small, large)
	e.PlainErrors(t, 1)
	if e.Code != 1 || !strings.Contains(e.Err, "10,10") || !strings.Contains(e.Err, "4 by 4") {
		t.Errorf("code %d, said %s", e.Code, e.Err)
	}
	if r := reportFrom(t, e.Out); r.File != large || len(r.Spots) != 2 {
		t.Errorf("the other file's report is %s", e.Out)
	}
}

func TestReadArguments(t *testing.T) {
	good := picture(t, "good.png", 8, 4, halves)
	tests := [][]string{
		{}, {"--json"}, {"-", good}, {"--size", "4", good}, {"--size", "03", good}, {"--groups", "5", good}, {"--groups", "0", good},
		{"--spots", "", good}, {"--spots", "1;2", good}, {"--spots", "-1,2", good}, {"--ground", "white", good},
		{"--tolerance", "2", good}, {good, "--spots"}, {"--target", "-", good}, {"--target", "", good}, {good, "--target"},
	}
	for _, args := range tests {
		e := desktest.Run(t, "", append([]string{"read"}, args...)...)
		e.PlainErrors(t, 1)
		if e.Code != 2 || e.Out != "" {
			t.Errorf("%q: code %d, output %q", args, e.Code, e.Out)
		}
	}
}

func TestReadReport(t *testing.T) {
	one, two := picture(t, "one.png", 8, 4, halves), picture(t, "two.png", 8, 4, halves)
	e := desktest.Run(t, "", "read", "--groups", "2", "--spots", "0,0", "--size", "1", one, two)
	e.PlainErrors(t, 0)
	for _, want := range []string{
		one + ", 8 by 4 pixels", "mean 75.0", "dark", "25.0 %", "10.0 tones above", "key        high", "limits     25.0 % darker than 8, 75.0 % lighter than 97", "0,0", "#000000", "\n\n" + two,
	} {
		if !strings.Contains(e.Out, want) {
			t.Errorf("the report lacks %q:\n%s", want, e.Out)
		}
	}
}
