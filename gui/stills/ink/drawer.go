package ink

import (
	"encoding/binary"
	"image"
	"math"
	"slices"
)

// tileSize is the side of a tile, in pixels: small enough that a short stroke touches few
// pixels beside its own, and within the size that the rasterizer does in whole numbers.
const tileSize = 1 << tileBits

const tileBits = 6

// Drawer draws marks. It owns its buffers: not for concurrent use.
type Drawer struct {
	mask     image.Alpha
	hole     image.Alpha
	outlines outlines
	stamps   stamps
	shapes   shapes
	around   []Point   // of a letter, where it stands
	letters  []letter  // of the present mark, where it is drawn
	tiles    [][]piece // of the present mark, by tile
}

// piece is a segment of a line that may touch a tile; of line -1 it is a letter.
type piece struct{ line, segment int }

const ofText = -1

// layer is one going over a mark: its lines wider by grow on either side, without those
// narrower by hollow.
type layer struct {
	grow   float64
	hollow float64 // 0: filled
	grey   uint8
	hatch  Hatch
}

// layers returns what is drawn of a mark, from the lowest up.
func (m *Mark) layers() []layer {
	var all []layer
	if m.Halo > 0 {
		all = append(all, layer{grow: m.Rim + m.Halo, grey: m.Grey, hollow: m.within(m.Halo)})
	}
	if m.Hollow > 0 && m.Hatch != NoHatch {
		all = append(all, layer{hatch: m.Hatch})
	}
	if m.Rim > 0 {
		all = append(all, layer{grow: m.Rim, grey: m.RimGrey, hollow: m.within(2*m.Rim + m.Hollow)})
	}
	return append(all, layer{grey: m.Grey, hollow: m.Hollow})
}

// within returns how wide a rim is that must leave the inside of a hollow mark free.
func (m *Mark) within(rim float64) float64 {
	if m.Hollow > 0 {
		return rim
	}
	return 0
}

// Draw draws marks on dst, the first lowest, where clip lets it.
func (d *Drawer) Draw(dst *image.RGBA, clip image.Rectangle, marks []Mark) {
	clip = clip.Intersect(dst.Bounds())
	for i := range marks {
		d.draw(dst, clip, &marks[i])
	}
}

func (d *Drawer) draw(dst *image.RGBA, clip image.Rectangle, m *Mark) {
	clip = clip.Intersect(m.boundsIn(boxOf(clip)))
	if clip.Empty() {
		return
	}
	grid := tilesOf(clip)
	d.spread(m, grid)
	layers := m.layers()
	for y := grid.Min.Y; y < grid.Max.Y; y++ {
		for x := grid.Min.X; x < grid.Max.X; x++ {
			pieces := d.tiles[(y-grid.Min.Y)*grid.Dx()+x-grid.Min.X]
			if len(pieces) == 0 {
				continue
			}
			tile := image.Rect(x, y, x+1, y+1)
			tile.Min, tile.Max = tile.Min.Mul(tileSize), tile.Max.Mul(tileSize)
			for _, l := range layers[m.lowest(layers, tile, pieces):] {
				d.lay(dst, clip.Intersect(tile), tile, m, l, pieces)
			}
		}
	}
}

// lowest returns the first of the layers that are seen in a tile: those under one that fills it are
// not.
func (m *Mark) lowest(layers []layer, tile image.Rectangle, pieces []piece) int {
	for i := len(layers) - 1; i > 0; i-- {
		if l := layers[i]; l.hollow <= 0 && l.hatch == NoHatch && m.fills(tile, l.grow, pieces) {
			return i
		}
	}
	return 0
}

// fills reports whether one of the pieces covers all of a tile, its line wider by grow on either side.
func (m *Mark) fills(tile image.Rectangle, grow float64, pieces []piece) bool {
	return slices.ContainsFunc(pieces, func(p piece) bool {
		if p.line == ofText {
			return false
		}
		l := &m.Lines[p.line]
		return l.reach(p.segment, l.Width/2+grow, tile) == whole
	})
}

// tilesOf returns the tiles that pixels lie in; there are some.
func tilesOf(pixels image.Rectangle) image.Rectangle {
	return image.Rect(
		pixels.Min.X>>tileBits, pixels.Min.Y>>tileBits, // rounded down, below 0 too
		(pixels.Max.X-1)>>tileBits+1, (pixels.Max.Y-1)>>tileBits+1,
	)
}

// spread sorts the mark's pieces into the tiles of grid.
func (d *Drawer) spread(m *Mark, grid image.Rectangle) {
	n := grid.Dx() * grid.Dy()
	for len(d.tiles) < n {
		d.tiles = append(d.tiles, nil)
	}
	for i := range n {
		d.tiles[i] = d.tiles[i][:0]
	}
	put := func(b box, p piece) {
		pixels := b.pixels()
		if pixels.Empty() {
			return
		}
		in := tilesOf(pixels).Intersect(grid)
		for y := in.Min.Y; y < in.Max.Y; y++ {
			for x := in.Min.X; x < in.Max.X; x++ {
				at := &d.tiles[(y-grid.Min.Y)*grid.Dx()+x-grid.Min.X]
				*at = append(*at, p)
			}
		}
	}
	for i := range m.Lines {
		l := &m.Lines[i]
		for k := range l.segments() {
			from, to := l.segment(k)
			b := noBox
			b.add(l.Width/2+m.Rim+m.Halo, from, to)
			put(b, piece{i, k})
		}
	}
	d.letters = d.letters[:0]
	in := grid
	in.Min, in.Max = grid.Min.Mul(tileSize), grid.Max.Mul(tileSize)
	m.Text.each(boxOf(in), m.Rim+m.Halo, func(l letter) {
		put(l.around(m.Text.Size, m.Rim+m.Halo), piece{ofText, len(d.letters)})
		d.letters = append(d.letters, l)
	})
}

// lay draws one layer of a mark's pieces in a tile.
func (d *Drawer) lay(dst *image.RGBA, clip, tile image.Rectangle, m *Mark, l layer, pieces []piece) {
	if l.hollow > 0 && m.fills(tile, l.grow-l.hollow, pieces) || !d.cover(&d.mask, tile, m, l.grow, pieces) {
		return
	}
	if l.hollow > 0 {
		d.cover(&d.hole, tile, m, l.grow-l.hollow, pieces)
		for i, h := range d.hole.Pix {
			d.mask.Pix[i] -= min(h, d.mask.Pix[i])
		}
	}
	for y := clip.Min.Y; y < clip.Max.Y; y++ {
		mask := d.mask.Pix[d.mask.PixOffset(clip.Min.X, y):][:clip.Dx()]
		row := dst.Pix[dst.PixOffset(clip.Min.X, y):][:4*clip.Dx()]
		if l.hatch == NoHatch {
			blendRow(row, mask, l.grey)
			continue
		}
		for i, alpha := range mask {
			if alpha == 0 {
				continue
			}
			if grey, painted := l.hatch.at(clip.Min.X+i-m.Phase.X, y-m.Phase.Y); painted {
				blend(row[4*i:][:4], grey, alpha)
			}
		}
	}
}

// cover fills mask with how much of each pixel of the tile the pieces cover, their lines
// wider by grow on either side. It reports whether they may cover any.
func (d *Drawer) cover(mask *image.Alpha, tile image.Rectangle, m *Mark, grow float64, pieces []piece) bool {
	if mask.Pix == nil {
		*mask = *image.NewAlpha(tile)
	}
	mask.Rect = tile
	clear(mask.Pix)
	touched := d.outline(mask, m, grow, pieces)
	if !m.Text.stamped() {
		return touched
	}
	for _, p := range pieces {
		if p.line == ofText {
			d.press(mask, &m.Text, d.letters[p.segment], grow)
			touched = true
		}
	}
	return touched
}

// outline fills mask with the pieces that are outlined: lines, and letters that are too large to
// be stamped. It reports whether there are some: what lies beside the tile is left away, and one
// piece that covers all of it is enough.
func (d *Drawer) outline(mask *image.Alpha, m *Mark, grow float64, pieces []piece) bool {
	if len(m.Lines) == 0 && m.Text.stamped() {
		return false
	}
	some := false
	begin := func() {
		if !some {
			d.outlines.begin(mask.Rect)
			some = true
		}
	}
	for _, p := range pieces {
		switch {
		case p.line != ofText:
			l := &m.Lines[p.line]
			switch l.reach(p.segment, l.Width/2+grow, mask.Rect) {
			case whole:
				for i := range mask.Pix {
					mask.Pix[i] = 255
				}
				return true
			case part:
				begin()
				l.pieces(&d.outlines, p.segment, l.Width+2*grow)
			}
		case !m.Text.stamped():
			begin()
			d.letter(&m.Text, d.letters[p.segment], grow)
		}
	}
	if some {
		d.outlines.end(mask)
	}
	return some
}

// letter adds a letter, or the line around it.
func (d *Drawer) letter(t *Text, l letter, grow float64) {
	tile := d.outlines.box()
	for _, shape := range d.shapes.of(t, l.glyph) {
		d.around = d.around[:0]
		for _, p := range shape {
			d.around = append(d.around, l.at.Plus(p))
		}
		if grow <= 0 {
			d.outlines.add(d.around...)
			continue
		}
		around := Line{Points: d.around, Closed: true}
		for k := range around.segments() {
			from, to := around.segment(k)
			b := noBox
			if b.add(grow, from, to); b.meets(tile) { // a large letter's line lies in other tiles for the most part
				around.pieces(&d.outlines, k, 2*grow)
			}
		}
	}
}

// blend lays a grey over a pixel, as much of it as alpha says (0 to 255): simple alpha
// compositing on encoded values (W3C Compositing and Blending Level 1), rounded.
func blend(q []uint8, grey, alpha uint8) {
	if alpha == 255 {
		q[0], q[1], q[2], q[3] = grey, grey, grey, 255
		return
	}
	a, rest := int(alpha), 255-int(alpha)
	g := int(grey)*a + 127
	q[0] = uint8((g + int(q[0])*rest) / 255)
	q[1] = uint8((g + int(q[1])*rest) / 255)
	q[2] = uint8((g + int(q[2])*rest) / 255)
	q[3] = uint8((255*a + int(q[3])*rest + 127) / 255)
}

// blendRow lays a grey over pixels, as much of it as mask says, eight at once where all or none
// of them are covered.
func blendRow(row, mask []uint8, grey uint8) {
	var solid [32]uint8
	for i := range solid {
		solid[i] = grey
		if i%4 == 3 {
			solid[i] = 255
		}
	}
	for ; len(mask) >= 8; mask, row = mask[8:], row[32:] {
		switch binary.LittleEndian.Uint64(mask) {
		case 0:
		case math.MaxUint64:
			*(*[32]uint8)(row) = solid
		default:
			blendEach(row[:32], mask[:8], grey)
		}
	}
	blendEach(row, mask, grey)
}

func blendEach(row, mask []uint8, grey uint8) {
	for i, alpha := range mask {
		if alpha > 0 {
			blend(row[4*i:][:4], grey, alpha)
		}
	}
}
