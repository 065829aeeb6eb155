package scenetest

import (
	"image"
	"image/color"
	"image/png"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"golang.org/x/image/draw"
)

// Writes every scene as a PNG, with a picture of its masks beside it, into the folder that
// SCENETEST_SHEET names: for looking at.
func TestSheet(t *testing.T) {
	folder := os.Getenv("SCENETEST_SHEET")
	if folder == "" {
		t.Skip("SCENETEST_SHEET names no folder")
	}
	var scenes []*Scene
	for _, name := range Names() {
		scenes = append(scenes, Named(name))
	}
	for seed := FirstOpen; seed <= LastOpen; seed++ {
		scenes = append(scenes, Random(seed))
	}
	var pictures []image.Image
	for _, s := range scenes {
		name := strings.NewReplacer(" ", "_", ",", "", ":", "").Replace(s.Name)
		write(t, filepath.Join(folder, name+".png"), s.Image)
		write(t, filepath.Join(folder, name+".masks.png"), s.masks())
		pictures = append(pictures, s.Image)
	}
	write(t, filepath.Join(folder, "sheet.png"), contact(pictures))
}

// Writes a contact sheet of each kind into the folder that SCENETEST_KINDS names: six seeds,
// and their masks below. SCENETEST_KIND asks for one kind alone.
func TestKindSheets(t *testing.T) {
	folder, alone := os.Getenv("SCENETEST_KINDS"), os.Getenv("SCENETEST_KIND")
	if folder == "" {
		t.Skip("SCENETEST_KINDS names no folder")
	}
	for _, name := range Kinds() {
		if alone != "" && alone != name {
			continue
		}
		var pictures [2 * columns]image.Image
		for i := range columns {
			s := Kind(name, FirstOpen+i)
			pictures[i], pictures[columns+i] = s.Image, s.masks()
		}
		write(t, filepath.Join(folder, strings.ReplaceAll(name, " ", "_")+".png"), contact(pictures[:]))
	}
	var pictures [2 * columns]image.Image // below, one form of each lit from elsewhere
	for i := range columns {
		pictures[i], pictures[columns+i] = OneLight(FirstOpen+i, false).Image, OneLight(FirstOpen+i, true).Image
	}
	write(t, filepath.Join(folder, "one_light.png"), contact(pictures[:]))
}

const columns, cell = 6, 330 // of a contact sheet

func contact(pictures []image.Image) image.Image {
	sheet := image.NewRGBA(image.Rect(0, 0, columns*cell, (len(pictures)+columns-1)/columns*cell))
	for i, p := range pictures {
		b := p.Bounds()
		scale := float64(cell-10) / float64(max(b.Dx(), b.Dy()))
		to := image.Rect(0, 0, int(scale*float64(b.Dx())), int(scale*float64(b.Dy()))).Add(image.Pt(i%columns*cell, i/columns*cell))
		draw.BiLinear.Scale(sheet, to, p, b, draw.Src, nil)
	}
	return sheet
}

// masks paints light sides light, shadows dark, accents red, lines blue, the ground green.
func (s *Scene) masks() image.Image {
	img := image.NewPaletted(s.Image.Rect, color.Palette{
		color.RGBA{255, 255, 0, 255}, color.RGBA{60, 140, 60, 255}, color.RGBA{30, 80, 30, 255}, color.RGBA{0, 200, 200, 255},
		color.White, color.Gray{90}, color.RGBA{255, 0, 0, 255}, color.RGBA{0, 0, 255, 255},
		color.RGBA{255, 220, 220, 255}, color.RGBA{110, 70, 70, 255},
	})
	for i, l := range s.labels {
		if l >= firstPart {
			f, side, _ := s.owner(l)
			l = firstPart + uint8(side)
			if !s.Families[f].Scored && side <= Shadow {
				l += 4
			}
		}
		img.Pix[i] = l
	}
	return img
}

func write(t *testing.T, path string, img image.Image) {
	t.Helper()
	f, err := os.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if err := png.Encode(f, img); err != nil {
		t.Fatal(err)
	}
}
