package main

import (
	"bytes"
	"image"
	"image/color"
	"image/draw"
	"image/png"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"app.tonedesk/cmd/desk/desktest"
)

// writePicture writes a picture of three flat colours, half, a quarter and a quarter of it,
// and returns its path.
func writePicture(t *testing.T) string {
	t.Helper()
	img := image.NewNRGBA(image.Rect(0, 0, 40, 40))
	fill := func(r image.Rectangle, c color.NRGBA) {
		draw.Draw(img, r, image.NewUniform(c), image.Point{}, draw.Src)
	}
	fill(image.Rect(0, 0, 40, 20), color.NRGBA{0xe2, 0xab, 0x85, 255})
	fill(image.Rect(0, 20, 20, 40), color.NRGBA{0x30, 0x60, 0xc0, 255})
	fill(image.Rect(20, 20, 40, 40), color.NRGBA{255, 255, 255, 255})
	var data bytes.Buffer
	if err := png.Encode(&data, img); err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "flats.png")
	if err := os.WriteFile(path, data.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

func TestPaletteJSON(t *testing.T) {
	e := desktest.Run(t, "", "palette", "--json", writePicture(t))
	e.PlainErrors(t, 0)
	if got := strings.Join(keys(t, e.Out), " "); got != "version file width height colours spread empty" || e.Code != 0 {
		t.Fatalf("code %d, names are %s", e.Code, got)
	}
	var said []string
	for _, raw := range lists(t, e.Out)["colours"] {
		if got := strings.Join(keys(t, string(raw)), " "); got != spotNames+" share family side" {
			t.Errorf("names are %s", got)
		}
		c := object(t, string(raw))
		said = append(said, c["colour"].(string))
		if want := map[any]float64{"#e2ab85": 0.5, "#3060c0": 0.25, "#ffffff": 0.25}[c["colour"]]; c["share"] != want {
			t.Errorf("%s has share %v, want %g", c["colour"], c["share"], want)
		}
	}
	if got := strings.Join(said, " "); got != "#3060c0 #e2ab85 #ffffff" {
		t.Errorf("from dark to light: %s", got)
	}
	if spread := lists(t, e.Out)["spread"]; len(spread) != 10 || string(spread[9]) != "0.25" {
		t.Errorf("spread %s", spread)
	}
}

func TestPaletteReport(t *testing.T) {
	e := desktest.Run(t, "", "palette", writePicture(t))
	e.PlainErrors(t, 0)
	for _, want := range []string{"#e2ab85", "50.0 % of the picture", "Empty values: 0 to 4, 5 to 7, 8 to 9."} {
		if !strings.Contains(e.Out, want) {
			t.Errorf("code %d, output lacks %q:\n%s", e.Code, want, e.Out)
		}
	}
}

// Files are written for their owner alone, never over the picture, over another file only
// with --force; the palette is reported in any case.
func TestPaletteWritesFiles(t *testing.T) {
	picture := writePicture(t)
	before, err := os.ReadFile(picture)
	if err != nil {
		t.Fatal(err)
	}
	folder := t.TempDir()
	swatches, css := filepath.Join(folder, "swatches.png"), filepath.Join(folder, "palette.css")
	run := func(code, errors int, args ...string) desktest.Ended {
		t.Helper()
		e := desktest.Run(t, "", append([]string{"palette", picture}, args...)...)
		e.PlainErrors(t, errors)
		if e.Code != code || !strings.Contains(e.Out, "#e2ab85") {
			t.Errorf("%v: code %d, want %d; output\n%s", args, e.Code, code, e.Out)
		}
		return e
	}
	run(0, 0, "--png", swatches, "--css", css)
	for _, path := range []string{swatches, css} {
		if info, err := os.Stat(path); err != nil || info.Mode().Perm() != 0o600 && !desktest.Foreign() {
			t.Errorf("%s: %v, %v", path, info, err)
		}
	}
	checkSwatches(t, swatches)
	if text, err := os.ReadFile(css); err != nil || !strings.Contains(string(text), ": #3060c0;") || !strings.Contains(string(text), "oklch(") {
		t.Errorf("%v:\n%s", err, text)
	}
	if err := os.WriteFile(css, []byte("mine"), 0o600); err != nil {
		t.Fatal(err)
	}
	if e := run(1, 1, "--css", css); !strings.Contains(e.Err, "--force") {
		t.Errorf("said %s", e.Err)
	}
	if text, _ := os.ReadFile(css); string(text) != "mine" {
		t.Errorf("written over: %s", text)
	}
	run(0, 0, "--css", css, "--force")
	if text, _ := os.ReadFile(css); !strings.Contains(string(text), ": #3060c0;") {
		t.Errorf("not written over: %s", text)
	}
	run(1, 1, "--png", picture, "--force")
	if after, _ := os.ReadFile(picture); !bytes.Equal(before, after) {
		t.Error("the picture itself was written over")
	}
	run(1, 1, "--png", folder, "--force")
	if e := run(1, 1, "--png", filepath.Join(folder, "no", "such", "folder.png")); !strings.Contains(e.Err, "there is no such folder") {
		t.Errorf("said %s", e.Err)
	}
	if left, _ := os.ReadDir(folder); len(left) != 2 {
		t.Errorf("left behind: %v", left)
	}
}

// Without colours no file is written.
func TestPaletteOfNothingIsNotWritten(t *testing.T) {
	clear := picture(t, "clear.png", 8, 8, func(x, y int) color.NRGBA { return color.NRGBA{} })
	for _, option := range []string{"--png", "--css"} {
		path := filepath.Join(t.TempDir(), "swatches")
		e := desktest.Run(t, "", "palette", clear, option, path)
		e.PlainErrors(t, 1)
		if e.Code != 1 || !strings.Contains(e.Err, "every pixel of it is transparent") {
			t.Errorf("%s: code %d, said %s", option, e.Code, e.Err)
		}
		if _, err := os.Stat(path); err == nil {
			t.Errorf("%s wrote a file", option)
		}
	}
}

func checkSwatches(t *testing.T, path string) {
	t.Helper()
	file, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	img, err := png.Decode(file)
	if err != nil {
		t.Fatal(err)
	}
	used := map[color.NRGBA]bool{}
	for y := range img.Bounds().Dy() {
		for x := range img.Bounds().Dx() {
			used[color.NRGBAModel.Convert(img.At(x, y)).(color.NRGBA)] = true
		}
	}
	for _, c := range []color.NRGBA{{0xe2, 0xab, 0x85, 255}, {0x30, 0x60, 0xc0, 255}, {255, 255, 255, 255}} {
		if !used[c] {
			t.Errorf("%v isn't on the sheet", c)
		}
	}
}

func TestPaletteArguments(t *testing.T) {
	picture := writePicture(t)
	for _, tt := range []struct {
		name         string
		args         []string
		code, errors int
	}{
		{"no file", nil, 2, 1},
		{"standard input", []string{"-"}, 2, 1},
		{"no such file", []string{filepath.Join(t.TempDir(), "none.png")}, 1, 1},
		{"one of two missing", []string{picture, "none.png"}, 1, 1},
		{"one file for two pictures", []string{picture, picture, "--png", "x.png"}, 2, 1},
		{"to standard output", []string{picture, "--css", "-"}, 2, 1},
		{"both to one file", []string{picture, "--css", "x", "--png", "x"}, 2, 1},
		{"force without a file", []string{picture, "--force"}, 2, 1},
		{"bad ground", []string{picture, "--ground", "sand"}, 2, 1},
		{"help", []string{"--help"}, 0, 0},
	} {
		t.Run(tt.name, func(t *testing.T) {
			e := desktest.Run(t, "", append([]string{"palette"}, tt.args...)...)
			e.PlainErrors(t, tt.errors)
			if e.Code != tt.code {
				t.Errorf("exit code %d, want %d", e.Code, tt.code)
			}
		})
	}
}
