package stills

import (
	"archive/zip"
	"bytes"
	"encoding/json"
	"encoding/xml"
	"image"
	"image/color"
	"image/draw"
	"image/png"
	"testing"

	"app.tonedesk/analysis"
	"app.tonedesk/gui/stills/ink"
	"app.tonedesk/gui/stills/notes"
)

// partOf decodes one picture of an archive.
func partOf(t *testing.T, data []byte, name string) *image.NRGBA {
	t.Helper()
	z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		t.Fatal(err)
	}
	f, err := z.Open(name)
	if err != nil {
		t.Fatal(err)
	}
	img, err := png.Decode(f)
	if err != nil {
		t.Fatal(err)
	}
	m := image.NewNRGBA(img.Bounds())
	draw.Draw(m, m.Rect, img, image.Point{}, draw.Src)
	return m
}

// The visible layers laid over each other (simple alpha compositing) are the merged image,
// but for roundings to 8 bits on the way; the hidden ones are neutral; every picture says sRGB.
func TestLayersMakeTheMergedImage(t *testing.T) {
	list := []notes.Note{
		notes.New(notes.Ring{From: ink.Pt(50, 40), To: ink.Pt(90, 60), Width: 2}, "ring"),
		notes.New(notes.Area{Side: notes.Light, Points: []ink.Point{{X: 60, Y: 50}}, Width: 40}, "light"),
	}
	var b bytes.Buffer
	if err := WriteORA(&b, noise(4), nil, list); err != nil {
		t.Fatal(err)
	}
	if n := bytes.Count(b.Bytes(), []byte("sRGB")); n != 6 {
		t.Errorf("%d of six pictures say sRGB", n)
	}
	merged := partOf(t, b.Bytes(), "mergedimage.png")
	z, err := zip.NewReader(bytes.NewReader(b.Bytes()), int64(b.Len()))
	if err != nil {
		t.Fatal(err)
	}
	f, err := z.Open("stack.xml")
	if err != nil {
		t.Fatal(err)
	}
	var stack struct {
		Layers []struct {
			X int `xml:"x,attr"`
			Y int `xml:"y,attr"`
		} `xml:"stack>layer"`
	}
	if err := xml.NewDecoder(f).Decode(&stack); err != nil || len(stack.Layers) != 4 {
		t.Fatalf("%+v, %v", stack, err)
	}
	noted := image.Pt(stack.Layers[0].X, stack.Layers[0].Y)
	if noted == (image.Point{}) {
		t.Error("the layer of the notes is not cut to where they lie")
	}
	over := image.NewRGBA(merged.Rect)
	draw.Draw(over, over.Rect, partOf(t, b.Bytes(), "data/layer3.png"), image.Point{}, draw.Src)
	above := partOf(t, b.Bytes(), "data/layer0.png")
	draw.Draw(over, above.Rect.Add(noted), above, image.Point{}, draw.Over)
	for i := range merged.Pix {
		if d := int(merged.Pix[i]) - int(over.Pix[i]); d < -4 || d > 4 {
			t.Fatalf("byte %d is %d merged and %d in layers", i, merged.Pix[i], over.Pix[i])
		}
	}
	for _, name := range []string{"data/layer1.png", "data/layer2.png"} {
		img := partOf(t, b.Bytes(), name)
		for i := 0; i < len(img.Pix); i += 4 {
			if img.Pix[i] != img.Pix[i+1] || img.Pix[i] != img.Pix[i+2] {
				t.Fatalf("%s has a colour", name)
			}
		}
	}
}

// What is transparent in the picture is so in its layers; on paper it is white, and what is
// half transparent half white.
func TestTransparentPicture(t *testing.T) {
	p := analysis.Pixels{Pix: bytes.Repeat([]byte{100, 100, 100, 255}, 30*20), Stride: 120, Width: 30, Height: 20}
	for i := range 30 * 20 {
		p.Pix[4*i+3] = [3]uint8{0, 51, 255}[i%30/10]
	}
	var b bytes.Buffer
	if err := WriteORA(&b, p, nil, nil); err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{"data/layer1.png", "data/layer2.png", "data/layer3.png", "mergedimage.png"} {
		img := partOf(t, b.Bytes(), name)
		for i, want := range []uint8{0, 51, 255} {
			if got := img.NRGBAAt(10*i+5, 10).A; got != want {
				t.Errorf("%s has alpha %d, want the picture's %d", name, got, want)
			}
		}
	}
	paper, err := OnPaper(p)
	if err != nil {
		t.Fatal(err)
	}
	small := partOf(t, b.Bytes(), "Thumbnails/thumbnail.png")
	for i, want := range []uint8{255, 224, 100} { // 51/255 of 100 and 204/255 of 255 are 224
		if r, _, _, seen := paper.At(10*i+5, 10); r != want || !seen {
			t.Errorf("on paper it is %d, want %d", r, want)
		}
		if c := small.NRGBAAt(10*i+5, 10); c.R != want || c.A != 255 {
			t.Errorf("the small picture is %v, want %d", c, want)
		}
	}
}

// Annotated pixel for pixel, reduced and enlarged, the picture keeps its shape and, where no
// note is, its colours.
func TestAnnotate(t *testing.T) {
	p := analysis.Pixels{Pix: bytes.Repeat([]byte{200, 100, 50, 255}, 300*100), Stride: 1200, Width: 300, Height: 100}
	for side, want := range map[int]image.Point{0: {300, 100}, 150: {150, 50}, 500: {300, 100}, 1000: {900, 300}} {
		img := Annotate(p, notesFor(1), side)
		if img.Rect.Size() != want {
			t.Errorf("side %d gives %v, want %v", side, img.Rect.Size(), want)
		}
		if c := img.RGBAAt(want.X-1, want.Y-1); c.R != 200 || c.G != 100 || c.B != 50 {
			t.Errorf("side %d: the corner is %v", side, c)
		}
		marked := 0
		for i := 0; i < len(img.Pix); i += 4 {
			if img.Pix[i] != 200 {
				marked++
			}
		}
		if marked == 0 {
			t.Errorf("side %d: no note is drawn", side)
		}
	}
}

// A picture too large to be painted at once is painted in bands, as if it were.
func TestAnnotatedInBands(t *testing.T) {
	p := noise(4)
	wide := analysis.Pixels{Width: 65_000, Height: 70, Stride: 4 * 65_000, Pix: make([]byte, 4*65_000*70)} // bands of 64 rows
	for i := range wide.Pix {
		wide.Pix[i] = p.Pix[i%len(p.Pix)]
	}
	list := []notes.Note{notes.New(notes.Ring{From: ink.Pt(100, 10), To: ink.Pt(900, 69), Width: 9}, "across both")}
	want, got := Annotate(wide, list, 0), Annotated(wide, list)
	if _, whole := got.(*image.RGBA); whole {
		t.Fatal("it is painted at once")
	}
	for y := range wide.Height {
		for x := range 1000 {
			if color.RGBAModel.Convert(got.At(x, y)) != want.At(x, y) {
				t.Fatalf("pixel %d, %d is %v, want %v", x, y, got.At(x, y), want.At(x, y))
			}
		}
	}
}

func TestWriteJSON(t *testing.T) {
	var b bytes.Buffer
	if err := WriteJSON(&b, metaFor(3), notesFor(2)); err != nil {
		t.Fatal(err)
	}
	var got struct {
		Name  string
		Notes []struct{ ID, Kind string }
	}
	if err := json.Unmarshal(b.Bytes(), &got); err != nil || got.Name != "3" || len(got.Notes) != 2 || got.Notes[0].Kind != "ring" {
		t.Errorf("%+v, %v", got, err)
	}
}
