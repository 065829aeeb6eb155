package ora

import (
	"archive/zip"
	"bytes"
	"image"
	"image/color"
	"image/draw"
	"image/png"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"app.tonedesk/capture/picturefile"
)

func even(w, h int, c color.Color) *image.NRGBA {
	img := image.NewNRGBA(image.Rect(0, 0, w, h))
	draw.Draw(img, img.Rect, image.NewUniform(c), image.Point{}, draw.Src)
	return img
}

func written(t *testing.T) []byte {
	t.Helper()
	red := color.NRGBA{200, 30, 40, 255}
	var b bytes.Buffer
	err := Write(&b, Picture{
		Layers: []Layer{{"Notes & words", even(30, 20, color.NRGBA{}), false}, {"Greys", even(30, 20, color.Gray{90}), true}, {"Picture", even(30, 20, red), false}},
		Merged: even(30, 20, red), Small: even(15, 10, red),
	}, func(w io.Writer, img image.Image) error { return png.Encode(w, img) })
	if err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// The file keeps the standard's rules (OpenRaster, Baseline, File Layout): the type first,
// stored, at its fixed place and without anything beside; stack.xml, data/, the merged image
// as large as the picture, a thumbnail of at most 256 pixels; PNG files that are not
// interlaced.
func TestKeepsTheRules(t *testing.T) {
	data := written(t)
	if got := string(data[30:54]); got != "mimetypeimage/openraster" || string(data[:4]) != "PK\x03\x04" || data[8] != 0 || data[28] != 0 {
		t.Errorf("the file begins % x", data[:60])
	}
	z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		t.Fatal(err)
	}
	sizes := map[string]image.Point{
		"mergedimage.png": {30, 20}, "Thumbnails/thumbnail.png": {15, 10},
		"data/layer0.png": {30, 20}, "data/layer1.png": {30, 20}, "data/layer2.png": {30, 20},
	}
	found := 0
	for i, f := range z.File {
		r, err := f.Open()
		if err != nil {
			t.Fatal(err)
		}
		text, err := io.ReadAll(r)
		if err != nil {
			t.Fatalf("%s: %v", f.Name, err)
		}
		if (f.Name == "mimetype") != (i == 0) || f.Name == "mimetype" && string(text) != Type {
			t.Errorf("part %d is %s", i, f.Name)
		}
		if y, m, d := f.Modified.Date(); y != 1980 || m != 1 || d != 1 {
			t.Errorf("%s is of %v, want the first day that an archive can tell", f.Name, f.Modified)
		}
		want, ok := sizes[f.Name]
		if !ok {
			continue
		}
		found++
		if c, err := png.DecodeConfig(bytes.NewReader(text)); err != nil || image.Pt(c.Width, c.Height) != want || text[28] != 0 {
			t.Errorf("%s: %v, %v", f.Name, c, err)
		}
	}
	if found != len(sizes) {
		t.Errorf("%d of %d pictures are there", found, len(sizes))
	}
}

// The description names the layers, topmost first, with the attributes of the Layer Stack
// specification.
func TestStack(t *testing.T) {
	data := written(t)
	z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		t.Fatal(err)
	}
	f, err := z.Open("stack.xml")
	if err != nil {
		t.Fatal(err)
	}
	text, err := io.ReadAll(f)
	if err != nil {
		t.Fatal(err)
	}
	at := -1
	for _, want := range []string{
		`<?xml version="1.0" encoding="UTF-8"?>`, `<image version="0.0.5" w="30" h="20">`, "<stack>",
		`<layer name="Notes &amp; words" src="data/layer0.png" x="0" y="0" opacity="1.0" visibility="visible" composite-op="svg:src-over"></layer>`,
		`<layer name="Greys" src="data/layer1.png" x="0" y="0" opacity="1.0" visibility="hidden" composite-op="svg:src-over"></layer>`,
		`<layer name="Picture"`, "</stack>", "</image>",
	} {
		next := strings.Index(string(text), want)
		if next <= at {
			t.Fatalf("%s is not in its place in\n%s", want, text)
		}
		at = next
	}
}

// The file opens as a picture again: with our reader, and the merged image of it, taken out
// by a general zip program, with a general image program, where they are here.
func TestOpensAgain(t *testing.T) {
	data := written(t)
	p, err := picturefile.Decode(data)
	if err != nil || p.Size != image.Pt(30, 20) || !bytes.Equal(p.Pix[:4], []byte{200, 30, 40, 255}) {
		t.Fatalf("%v, %v", p, err)
	}
	for _, tool := range []string{"python3", "identify"} {
		if _, err := exec.LookPath(tool); err != nil {
			t.Skip(tool + " is not here")
		}
	}
	dir := t.TempDir()
	path := filepath.Join(dir, "x.ora")
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Fatal(err)
	}
	if out, err := exec.Command("python3", "-m", "zipfile", "-e", path, dir).CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	out, err := exec.Command("identify", "-format", "%m %w %h", filepath.Join(dir, "mergedimage.png")).CombinedOutput()
	if err != nil || string(out) != "PNG 30 20" {
		t.Errorf("%s, %v", out, err)
	}
}
