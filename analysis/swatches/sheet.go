package swatches

import (
	"fmt"
	"image"
	"image/color"
	"image/draw"

	"golang.org/x/image/font"
	"golang.org/x/image/font/basicfont"
	"golang.org/x/image/math/fixed"

	"app.tonedesk/analysis"
)

// Measures of the sheet, in pixels. The letters are 7 by 13.
const (
	swatchWidth  = 128
	colourHeight = 64
	greyHeight   = 32
	lineHeight   = 14
	labelLines   = 3
	labelHeight  = labelLines*lineHeight + gap
	titleHeight  = lineHeight + gap
	gap          = 8
	perLine      = 8 // swatches side by side
)

// The sheet is neutral, so that its ground doesn't tint the swatches: lightness of ground and
// letters, with a contrast of 6 to 1.
const (
	groundLightness = 60
	inkLightness    = 5
)

// Sheet returns a picture of the swatches: each colour above the grey of its lightness, edge
// to edge, with its name and figures below. All areas are flat and nothing is smoothed, so
// that an eyedropper meets the exact colour anywhere on a swatch.
func Sheet(rows []Row) *image.NRGBA {
	img := image.NewNRGBA(image.Rectangle{Max: sheetSize(rows)})
	fill(img, img.Bounds(), grey(groundLightness))
	y := gap
	for _, row := range rows {
		write(img, image.Pt(gap, y), row.Title)
		y += titleHeight
		for i, s := range row.Swatches {
			paint(img, image.Pt(gap+i%perLine*swatchWidth, y+i/perLine*cellHeight), s)
		}
		y += linesOf(row) * cellHeight
	}
	return img
}

const cellHeight = colourHeight + greyHeight + labelHeight

// linesOf returns how many lines of swatches a row takes.
func linesOf(row Row) int { return (len(row.Swatches) + perLine - 1) / perLine }

// sheetSize returns the size of a sheet.
func sheetSize(rows []Row) image.Point {
	size := image.Pt(2*gap+2*swatchWidth, gap)
	for _, row := range rows {
		size.X = max(size.X, 2*gap+min(len(row.Swatches), perLine)*swatchWidth, 2*gap+textWidth(row.Title))
		size.Y += titleHeight + linesOf(row)*cellHeight
	}
	return size
}

// paint paints one swatch with its top left at a point.
func paint(img *image.NRGBA, at image.Point, s Swatch) {
	c := s.Spot.Colour
	fill(img, image.Rectangle{at, at.Add(image.Pt(swatchWidth, colourHeight))}, color.NRGBA{c.R, c.G, c.B, 255})
	below := at.Add(image.Pt(0, colourHeight))
	fill(img, image.Rectangle{below, below.Add(image.Pt(swatchWidth, greyHeight))}, grey(s.Spot.Lightness))
	labels := [labelLines]string{
		s.Name, c.Hex(),
		fmt.Sprintf("L* %.1f v %.1f", analysis.AsPrinted(s.Spot.Lightness), analysis.AsPrinted(s.Spot.Value)),
	}
	for i, label := range labels {
		write(img, at.Add(image.Pt(0, colourHeight+greyHeight+i*lineHeight)), cutTo(label, swatchWidth))
	}
}

// grey returns the grey of a lightness.
func grey(lightness float64) color.NRGBA {
	v := analysis.GreyOf(lightness)
	return color.NRGBA{v, v, v, 255}
}

func fill(img *image.NRGBA, r image.Rectangle, c color.NRGBA) {
	draw.Draw(img, r, image.NewUniform(c), image.Point{}, draw.Src)
}

// write writes a line of text with its top left at a point. The font has whole pixels only.
func write(img *image.NRGBA, at image.Point, text string) {
	d := font.Drawer{
		Dst: img, Src: image.NewUniform(grey(inkLightness)), Face: basicfont.Face7x13,
		Dot: fixed.P(at.X, at.Y+basicfont.Face7x13.Ascent),
	}
	d.DrawString(text)
}

func textWidth(text string) int { return len([]rune(text)) * basicfont.Face7x13.Advance }

// cutTo cuts a text to what fits into a width.
func cutTo(text string, width int) string {
	runes := []rune(text)
	return string(runes[:min(len(runes), width/basicfont.Face7x13.Advance)])
}
