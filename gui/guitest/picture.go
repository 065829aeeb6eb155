package guitest

import (
	"image"
	"image/color"
	"image/draw"
	"image/png"
	"os"
	"path/filepath"
	"testing"
)

// AssertNeutral fails if any pixel of img has a hue.
func AssertNeutral(t *testing.T, img image.Image) {
	t.Helper()
	b := img.Bounds()
	for y := b.Min.Y; y < b.Max.Y; y++ {
		for x := b.Min.X; x < b.Max.X; x++ {
			c := color.NRGBAModel.Convert(img.At(x, y)).(color.NRGBA)
			if c.R != c.G || c.G != c.B {
				t.Fatalf("pixel %d, %d is %v, not a grey", x, y, c)
			}
		}
	}
}

// AssertPicture compares img with testdata/name.png. Up to one pixel in 500 may differ by more
// than 8 of 255 (our choice: fewer than a word has): edges of letters and lines come out of
// floating-point sums that processors round differently. A missing master fails; what was drawn
// lands in testdata/failed, to be looked at. With TONEDESK_GOLDENS=1 in the environment it becomes
// the master.
func AssertPicture(t *testing.T, name string, img image.Image) {
	t.Helper()
	got := image.NewNRGBA(img.Bounds())
	draw.Draw(got, got.Rect, img, img.Bounds().Min, draw.Src)
	if os.Getenv("TONEDESK_GOLDENS") == "1" {
		writePNG(t, filepath.Join("testdata", name+".png"), got)
		return
	}
	want, err := readPNG(filepath.Join("testdata", name+".png"))
	if err != nil {
		keepFailed(t, name, got)
		t.Errorf("master of %s: %v", name, err)
		return
	}
	if want.Bounds().Size() != got.Bounds().Size() {
		keepFailed(t, name, got)
		t.Errorf("%s is %v, its master %v", name, got.Bounds().Size(), want.Bounds().Size())
		return
	}
	master := image.NewNRGBA(got.Rect)
	draw.Draw(master, master.Rect, want, want.Bounds().Min, draw.Src)
	if n := countDiffering(master.Pix, got.Pix, 8); n*500 > len(got.Pix)/4 {
		keepFailed(t, name, got)
		t.Errorf("%s: %d of %d pixels differ from the master", name, n, len(got.Pix)/4)
	}
}

// countDiffering returns how many pixels differ by more than tolerance in a channel.
func countDiffering(a, b []byte, tolerance int) int {
	n := 0
	for i := 0; i+3 < len(a); i += 4 {
		for c := range 4 {
			if d := int(a[i+c]) - int(b[i+c]); d > tolerance || d < -tolerance {
				n++
				break
			}
		}
	}
	return n
}

func readPNG(path string) (image.Image, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return png.Decode(f)
}

func keepFailed(t *testing.T, name string, img image.Image) {
	t.Helper()
	writePNG(t, filepath.Join("testdata", "failed", name+".png"), img)
}

func writePNG(t *testing.T, path string, img image.Image) {
	t.Helper()
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		t.Fatal(err)
	}
	f, err := os.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if err := png.Encode(f, img); err != nil {
		t.Fatal(err)
	}
}
