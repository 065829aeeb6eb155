package widgets

import (
	"image"
	"image/color"
	"math"
	"slices"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
)

// spreadPicture is the drawn histogram. It keeps its image for the next drawing.
type spreadPicture struct {
	img       *image.RGBA
	ink, sign color.RGBA      // of the bars, and of what stands out from them
	limits    analysis.Limits // bars beyond them are dotted
}

// draw paints the bins, w by h display pixels large, of which scale make a Fyne unit, and
// over them the target's outline, if there is a target.
func (p *spreadPicture) draw(histogram, target *[256]int, w, h int, scale float64) image.Image {
	if p.img == nil || p.img.Rect.Dx() != w || p.img.Rect.Dy() != h {
		p.img = image.NewRGBA(image.Rect(0, 0, w, h))
	}
	clear(p.img.Pix)
	heights, cut := spreadHeights(histogram)
	room := float64(h) // below the ticks, if there are any
	if slices.Contains(cut[:], true) {
		room -= spikeHeight * scale
	}
	for x := range w {
		first, last := columnBins(x, w)
		if height := slices.Max(heights[first:last]); height > 0 {
			top := float64(h) - max(height*room, 1) // what is there is seen
			if lightness := colour.LightnessOfBins(first+last-1, 2); lightness < p.limits.Dark || lightness > p.limits.Light && p.limits.Light > 0 {
				p.dots(x, h, int(top), scale)
			} else {
				p.column(x, h, top)
			}
		}
	}
	p.spikes(histogram, cut, w, scale)
	if target != nil {
		p.outline(targetHeights(target, histogram), w, h, room, max(int(1.5*scale+0.5), 1))
	}
	return p.img
}

// outline paints the upper edge of the target's bars, as thick as asked for.
func (p *spreadPicture) outline(heights [256]float64, w, h int, room float64, thick int) {
	before := h
	for x := range w {
		first, last := columnBins(x, w)
		top := h - int(slices.Max(heights[first:last])*room+0.5)
		for y := max(min(top, before)-thick, 0); y < min(max(top, before), h); y++ {
			if (x/(3*thick))%2 == 0 || max(top, before)-min(top, before) > thick { // in dashes: edges are whole lines
				p.img.SetRGBA(x, y, p.sign)
			}
		}
		before = top
	}
}

// column paints a bar's column from top down to the foot; the uppermost pixel as much as it
// is covered.
func (p *spreadPicture) column(x, h int, top float64) {
	top = max(top, 0)
	y := int(top)
	if part := 1 - (top - float64(y)); y < h {
		p.img.SetRGBA(x, y, faded(p.ink, part))
	}
	for y++; y < h; y++ {
		p.img.SetRGBA(x, y, p.ink)
	}
}

// dots paints the bar's column as even dots, each a Fyne unit and a half large.
func (p *spreadPicture) dots(x, h, top int, scale float64) {
	dot := max(int(1.5*scale+0.5), 1)
	for y := max(top, 0); y < h; y++ {
		if (x/dot+(h-1-y)/dot)%2 == 0 {
			p.img.SetRGBA(x, y, p.ink)
		}
	}
}

// faded is a premultiplied colour that covers only a part.
func faded(c color.RGBA, part float64) color.RGBA {
	by := func(v uint8) uint8 { return uint8(math.Round(float64(v) * part)) }
	return color.RGBA{R: by(c.R), G: by(c.G), B: by(c.B), A: by(c.A)}
}

// spikeHeight is the height of the tick over a cut bar with the gap below it, in Fyne units, and
// spikeGap that of the gap.
const (
	spikeHeight = 7.0
	spikeGap    = 2.0
)

// spikes puts a tick over each run of cut bars, as wide as its highest: it goes on.
func (p *spreadPicture) spikes(histogram *[256]int, cut [256]bool, w int, scale float64) {
	high := int((spikeHeight-spikeGap)*scale + 0.5)
	for bin := 0; bin < 256; bin++ {
		if !cut[bin] {
			continue
		}
		highest := bin
		for ; bin < 256 && cut[bin]; bin++ {
			if histogram[bin] > histogram[highest] {
				highest = bin
			}
		}
		for x := range w {
			if first, last := columnBins(x, w); highest < first || highest >= last {
				continue
			}
			for y := range min(high, p.img.Rect.Dy()) {
				p.img.SetRGBA(x, y, p.ink)
			}
		}
	}
}
