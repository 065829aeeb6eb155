package flashes

import (
	"encoding/binary"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
)

// The grid over a picture, and how often a cell is sampled along each side; our choice.
const (
	cols, rows = 16, 20
	each       = 5
	Cells      = cols * rows
)

// Levels are the relative luminances of the cells of a pane, in [0, 1].
type Levels struct {
	Y       [Cells]float32
	Covered int // cells where there is any picture
}

// Layer is a picture in a pane whose width and height are 1. One in the layout RGBA has
// colours that are multiplied by their alpha, as in image.RGBA.
type Layer struct {
	analysis.Pixels
	X, Y, W, H float32
}

// Whole is a picture that fills the pane.
func Whole(p analysis.Pixels) Layer { return Layer{p, 0, 0, 1, 1} }

// luminance has each code's share of the relative luminance, by channel: red, green, blue.
var luminance = func() (of [3][256]float32) {
	for code := range 256 {
		y := colour.Linear(uint8(code))
		for i, share := range [3]float64{colour.Luminance(y, 0, 0), colour.Luminance(0, y, 0), colour.Luminance(0, 0, y)} {
			of[i][code] = float32(share)
		}
	}
	return of
}()

// pixel is red in the lowest byte, green, blue, alpha; 0 is nothing.
type pixel uint32

const opaque = 255 << 24

func (p pixel) luminance() float32 {
	return luminance[0][uint8(p)] + luminance[1][uint8(p>>8)] + luminance[2][uint8(p>>16)]
}

// over lays p over another pixel.
func (p pixel) over(under pixel) pixel {
	clear := 255 - p>>24
	out := pixel(opaque)
	for shift := 0; shift < 24; shift += 8 {
		out |= min(p>>shift&255+under>>shift&255*clear/255, 255) << shift
	}
	return out
}

// sampled is a row of samples over all of the pane's width.
type sampled [cols * each]pixel

// Measure takes the levels of a pane of a colour with layers in it, the lowest first. A cell's
// level is that of the part of it where there are layers.
func (l *Levels) Measure(ground colour.RGB, layers ...Layer) {
	bare := pixel(ground.R) | pixel(ground.G)<<8 | pixel(ground.B)<<16 | opaque
	l.Covered = 0
	for row := range rows {
		var sum, n [cols]float32
		for y := range each {
			var line sampled
			for i := range layers {
				layers[i].over(&line, bare, (float32(row*each+y)+0.5)/(rows*each))
			}
			line.addTo(&sum, &n)
		}
		for col := range cols {
			l.Y[row*cols+col] = bare.luminance()
			if n[col] > 0 {
				l.Y[row*cols+col] = sum[col] / n[col]
				l.Covered++
			}
		}
	}
}

// addTo adds the samples to the cells of their row.
func (s *sampled) addTo(sum, n *[cols]float32) {
	for i, p := range s {
		if p != 0 {
			sum[i/each] += p.luminance()
			n[i/each]++
		}
	}
}

// over lays the layer over a row of samples at the height y of a pane of a colour.
func (l *Layer) over(line *sampled, bare pixel, y float32) {
	if y < l.Y || y >= l.Y+l.H || l.W <= 0 || l.Width <= 0 || l.Height <= 0 {
		return
	}
	at := min(int((y-l.Y)/l.H*float32(l.Height)), l.Height-1)
	row := l.Pix[at*l.Stride:][:analysis.PixelBytes*l.Width]
	perSample := float32(l.Width) / l.W / float32(len(line))
	from := (0.5 - l.X*float32(len(line))) * perSample // column under the first sample
	for i := range line {
		x := from + float32(i)*perSample
		if x < 0 || x >= float32(l.Width) {
			continue
		}
		p := pixel(binary.LittleEndian.Uint32(row[analysis.PixelBytes*int(x):]))
		switch {
		case l.Layout == analysis.BGRX:
			line[i] = p>>16&255 | p&0xff00 | p&255<<16 | opaque
		case p >= opaque:
			line[i] = p
		case p>>24 > 0 && line[i] == 0:
			line[i] = p.over(bare)
		case p>>24 > 0:
			line[i] = p.over(line[i])
		}
	}
}
