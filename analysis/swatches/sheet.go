package swatches

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"hash/crc32"
	"image"
	"image/color"
	"image/draw"
	"image/png"
	"io"
	"slices"

	"golang.org/x/image/font"
	"golang.org/x/image/font/basicfont"
	"golang.org/x/image/math/fixed"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
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
	frame        = 1 // around a colour and its grey
	cellWidth    = swatchWidth + 2*frame + gap
	cellHeight   = colourHeight + greyHeight + 2*frame + labelHeight
	perLine      = 8 // swatches side by side
)

// The sheet is neutral, so that its ground doesn't tint the swatches: white, with black letters
// and a black line around each colour and its grey. So whatever grey a swatch has, it stands
// out from the ground or from the line, and white ones end where the line does.
const (
	groundLightness = 100
	inkLightness    = 0
)

// Sheet returns a picture of the swatches: each colour above the grey of its lightness, edge
// to edge and with a line around the two, its name and figures below. All areas are flat and
// nothing is smoothed, so that an eyedropper meets the exact colour anywhere on a swatch.
func Sheet(rows []Row) *image.NRGBA {
	img := image.NewNRGBA(image.Rectangle{Max: sheetSize(rows)})
	fill(img, img.Bounds(), grey(groundLightness))
	y := gap
	for _, row := range rows {
		write(img, image.Pt(gap, y), titleOf(row))
		y += titleHeight
		for i, s := range row.Swatches {
			paint(img, image.Pt(gap+i%perLine*cellWidth, y+i/perLine*cellHeight), s)
		}
		y += linesOf(row) * cellHeight
	}
	return img
}

// linesOf returns how many lines of swatches a row takes.
func linesOf(row Row) int { return (len(row.Swatches) + perLine - 1) / perLine }

// titleOf returns a row's title, as much of it as a full line of swatches is wide.
func titleOf(row Row) string { return cutTo(row.Title, perLine*cellWidth) }

// sheetSize returns the size of a sheet.
func sheetSize(rows []Row) image.Point {
	size := image.Pt(gap+2*cellWidth, gap)
	for _, row := range rows {
		size.X = max(size.X, gap+min(len(row.Swatches), perLine)*cellWidth, 2*gap+textWidth(titleOf(row)))
		size.Y += titleHeight + linesOf(row)*cellHeight
	}
	return size
}

// paint paints one swatch with its top left at a point.
func paint(img *image.NRGBA, at image.Point, s Swatch) {
	pair := image.Rectangle{at, at.Add(image.Pt(swatchWidth+2*frame, colourHeight+greyHeight+2*frame))}
	fill(img, pair, grey(inkLightness))
	at = at.Add(image.Pt(frame, frame))
	c := s.Spot.Colour
	fill(img, image.Rectangle{at, at.Add(image.Pt(swatchWidth, colourHeight))}, color.NRGBA{c.R, c.G, c.B, 255})
	below := at.Add(image.Pt(0, colourHeight))
	fill(img, image.Rectangle{below, below.Add(image.Pt(swatchWidth, greyHeight))}, grey(s.Spot.Lightness))
	labels := [labelLines]string{
		s.Name, c.Hex(),
		fmt.Sprintf("L* %.1f v %.1f", analysis.AsPrinted(s.Spot.Lightness), analysis.AsPrinted(s.Spot.Value)),
	}
	for i, label := range labels {
		write(img, at.Add(image.Pt(0, colourHeight+greyHeight+frame+i*lineHeight)), cutTo(label, swatchWidth))
	}
}

// grey returns the grey of a lightness.
func grey(lightness float64) color.NRGBA {
	v := colour.GreyOf(lightness)
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

// WritePNG writes the sheet of the swatches as a PNG that says that its colours are sRGB.
func WritePNG(w io.Writer, rows []Row) error {
	var buffer bytes.Buffer
	if err := png.Encode(&buffer, Sheet(rows)); err != nil {
		return err
	}
	_, err := w.Write(withSRGB(buffer.Bytes()))
	return err
}

// headEnd is where the first chunk of a PNG, IHDR, ends: 8 bytes of signature, 4 of length,
// 4 of name, 13 of data, 4 of checksum (PNG).
const headEnd = 8 + 4 + 4 + 13 + 4

// withSRGB returns a PNG with an sRGB chunk behind its first. The chunk holds one byte, the
// rendering intent: 1, relative colorimetric, for colours that are to stay what they are.
// Source: PNG.
func withSRGB(picture []byte) []byte {
	const relative = 1
	named := append([]byte("sRGB"), relative)
	chunk := binary.BigEndian.AppendUint32(nil, 1)
	chunk = append(chunk, named...)
	chunk = binary.BigEndian.AppendUint32(chunk, crc32.ChecksumIEEE(named))
	return slices.Insert(picture, headEnd, chunk...)
}
