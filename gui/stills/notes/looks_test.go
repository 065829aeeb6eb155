package notes

import (
	"bytes"
	"image"
	"image/color"
	"image/draw"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"testing"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/gui/stills/ink"
)

// everyKind is a note of every kind, some of them with words.
func everyKind() []Note {
	stroke, light := Stroke{Width: 4}, Area{Side: Light, Width: 36}
	for i := range 120 {
		a := float64(i) / 10
		stroke.Points = append(stroke.Points, ink.Pt(70+float64(i)*0.3+45*math.Cos(a), 70+40*math.Sin(1.1*a)))
		if i%4 == 0 {
			light.Points = append(light.Points, ink.Pt(190+float64(i), 90+25*math.Sin(a/2)))
		}
	}
	shadow := Area{Shadow, mapped(light.Points, ink.Pt(10, 90).Plus), 36}
	return []Note{
		New(stroke, "wander"), New(Arrow{ink.Pt(30, 290), ink.Pt(150, 190), 3}, "turn"),
		New(Ring{ink.Pt(330, 30), ink.Pt(450, 120), 3}, ""), New(Box{ink.Pt(180, 240), ink.Pt(260, 300), 2}, "box"),
		New(Label{ink.Pt(300, 270), 20}, "Softer edge,\nlost line"),
		New(Spot{ink.Pt(400, 200), analysis.SpotOf(colour.RGB{R: 200, G: 120, B: 40})}, ""),
		New(light, ""), New(shadow, "shadow side"),
	}
}

// Every kind on a colourful ground, a selected one among them, in both scales: up to one
// pixel in a hundred may differ by more than 8 of 255 from what somebody looked at.
func TestKindsLook(t *testing.T) {
	list := everyKind()
	for name, v := range map[string]View{
		"kinds":       {Scale: 1, Pixel: 1, Selected: list[2].ID},
		"kinds_area":  {Scale: 1, Pixel: 1, Selected: list[7].ID},
		"kinds_large": {Scale: 1.75, Origin: ink.Pt(150, 60), Pixel: 1.5},
	} {
		img := image.NewRGBA(image.Rect(0, 0, 480, 330))
		for y := range 330 {
			for x := range 480 {
				img.SetRGBA(x, y, color.RGBA{uint8(x * 255 / 480), uint8(128 + 90*math.Sin(float64(x-y)/60)), uint8(y * 255 / 330), 255})
			}
		}
		draw.Draw(img, image.Rect(240, 0, 330, 330), image.White, image.Point{}, draw.Src)
		draw.Draw(img, image.Rect(285, 60, 420, 260), image.Black, image.Point{}, draw.Src)
		v.Inside = img.Rect
		new(ink.Drawer).Draw(img, img.Rect, v.Marks(list))
		assertLooks(t, name, img)
	}
}

func assertLooks(t *testing.T, name string, got *image.RGBA) {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("testdata", name+".png"))
	if err == nil {
		var master image.Image
		if master, err = png.Decode(bytes.NewReader(data)); err == nil && master.Bounds() == got.Rect {
			want := image.NewRGBA(got.Rect)
			draw.Draw(want, want.Rect, master, image.Point{}, draw.Src)
			n := 0
			for i := 0; i < len(got.Pix); i += 4 {
				for c := range 3 {
					if d := int(got.Pix[i+c]) - int(want.Pix[i+c]); d < -8 || d > 8 {
						n++
						break
					}
				}
			}
			if 100*n <= len(got.Pix)/4 {
				return
			}
			t.Errorf("%s: %d pixels differ", name, n)
		}
	}
	var b bytes.Buffer
	failed := filepath.Join("testdata", "failed", name+".png")
	if png.Encode(&b, got) != nil || os.MkdirAll(filepath.Dir(failed), 0o755) != nil || os.WriteFile(failed, b.Bytes(), 0o644) != nil {
		t.Error("what was drawn can't be kept")
	}
	t.Errorf("%s is not its master (%v); what was drawn lies in %s", name, err, failed)
}
