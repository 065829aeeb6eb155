package desktest

import (
	"image"
	"image/color"
	"image/draw"
	"testing"

	"app.tonedesk/capture/xvfbtest"
)

// Two colours and their lightness, computed outside of the program from CIE 15:2004 and
// IEC 61966-2-1: 2.2 steps of the ASTM D1535 scale apart.
var (
	LightSkin  = color.NRGBA{0xe2, 0xab, 0x85, 0xff} // L* 74.18
	ShadowSkin = color.NRGBA{0xb2, 0x6a, 0x5c, 0xff} // L* 52.45
)

const (
	LightSkinL  = 74.183
	ShadowSkinL = 52.450
)

// Patches is a picture of flat patches of many greys, two of which have colours.
func Patches(left, right color.NRGBA) *image.NRGBA {
	img := image.NewNRGBA(image.Rect(0, 0, 480, 320))
	for i := range 24 {
		v := uint8(i * 97 % 256)
		c := color.NRGBA{v, v, v, 255}
		switch i {
		case 8:
			c = left
		case 15:
			c = right
		}
		box := image.Rect(0, 0, 80, 80).Add(image.Pt(i%6*80, i/6*80))
		draw.Draw(img, box, image.NewUniform(c), image.Point{}, draw.Src)
	}
	return img
}

// Middles of the coloured patches, from the picture's corner.
var LeftPatch, RightPatch = image.Pt(200, 120), image.Pt(280, 200)

const (
	CornerX, CornerY = 40, 60
	WatchPatches     = `{"version": 1, "region": {"x": 40, "y": 60, "width": 480, "height": 320}, "place": {"x": 600, "y": 40, "width": 380, "height": 700}}`
)

// Corner returns where a point of the picture lies on that screen.
func Corner(p image.Point) image.Point { return p.Add(image.Pt(CornerX, CornerY)) }

// ScreenWithPatches is a screen that shows the picture of patches, with its painter and the
// window that it is in.
func ScreenWithPatches(t *testing.T) (*xvfbtest.Server, *xvfbtest.Painter, uint32) {
	t.Helper()
	server := xvfbtest.Start(t, xvfbtest.Options{Width: 1024, Height: 800, WindowManager: true})
	painter := server.Painter()
	id := painter.Picture(image.Pt(CornerX, CornerY), Patches(LightSkin, ShadowSkin), "A painting")
	painter.Move(id, image.Pt(CornerX, CornerY))
	return server, painter, id
}
