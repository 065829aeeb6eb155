package main

import (
	"image/color"
	"image/png"
	"os"
	"path/filepath"
	"testing"
)

// Every size lies where the Icon Theme Specification 0.13 wants it, in neutral greys, clear at
// its corners and covering in its middle as the icon does.
func TestIcons(t *testing.T) {
	to := t.TempDir()
	if err := write(to); err != nil {
		t.Fatal(err)
	}
	for _, folder := range []string{"16x16", "24x24", "32x32", "48x48", "64x64", "128x128", "256x256"} {
		f, err := os.Open(filepath.Join(to, "hicolor", folder, "apps", "app.tonedesk.png"))
		if err != nil {
			t.Error(err)
			continue
		}
		m, err := png.Decode(f)
		_ = f.Close()
		if err != nil {
			t.Fatal(err)
		}
		side := m.Bounds().Dx()
		at := func(x, y int) color.NRGBA { return color.NRGBAModel.Convert(m.At(x, y)).(color.NRGBA) }
		if at(0, 0).A != 0 || at(side/2, side/2).A != 255 {
			t.Errorf("%s: covers %d in the corner, %d in the middle", folder, at(0, 0).A, at(side/2, side/2).A)
		}
		for i := range side * side {
			if c := at(i%side, i/side); c.R != c.G || c.G != c.B {
				t.Fatalf("%s: %v is no grey", folder, c)
			}
		}
	}
}
