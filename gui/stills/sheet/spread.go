package sheet

import (
	"math"
	"slices"
	"strconv"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/gui/stills/ink"
)

// Share is a group's name and share in words, over its group.
type Share struct {
	From, To float64 // L*
	Words    string
}

// spread draws the histogram of lightness in a box, black to white: the square root of each
// bin's count; group borders as thin lines with the shares above; value steps along the foot.
// A bin more than four times as high as all others is cut, which a white gap tells.
func (p *Page) spread(b Box, histogram *[256]int, shares []Share) {
	const top, foot = 5, 4.5 // mm, for the shares and the steps
	plot := Box{b.X, b.Y + top, b.W, b.H - top - foot}
	at := func(lightness float64) float64 { return plot.X + plot.W*lightness/100 }
	heights, cut := binHeights(histogram)
	for bin, high := range heights {
		if high == 0 {
			continue
		}
		from, to := at(100*(float64(bin)-0.5)/255), at(100*(float64(bin)+0.5)/255)
		from, to = max(from, plot.X), min(to, plot.right())
		h := high * plot.H
		p.add(fill{Box{from, plot.bottom() - h, to - from, h}, neutral(quietGrey)})
		if cut[bin] {
			p.add(fill{Box{from, plot.Y + 1, to - from, 0.7}, neutral(255)})
		}
	}
	for i, s := range shares {
		if i > 0 {
			p.add(rule{ink.Pt(at(s.From), b.Y), ink.Pt(at(s.From), plot.bottom()), 0.25, textGrey})
		}
	}
	p.shares(b, shares, at)
	for step := range colour.Steps + 1 {
		x := at(colour.Lightness(colour.YOfValue(float64(step))))
		p.add(rule{ink.Pt(x, plot.bottom()), ink.Pt(x, plot.bottom()+1.2), 0.2, lineGrey})
		p.centred(x, plot.bottom()+4.2, strconv.Itoa(step), smallText, quietGrey)
	}
	p.add(rule{ink.Pt(plot.X, plot.bottom()), ink.Pt(plot.right(), plot.bottom()), 0.25, textGrey})
}

// shares writes the shares over their groups, pushed apart where they would meet.
func (p *Page) shares(b Box, shares []Share, at func(float64) float64) {
	xs := make([]float64, len(shares))
	left := b.X
	for i, s := range shares {
		wide := ink.Width(ink.Regular, s.Words, smallText)
		xs[i] = max(left, (at(s.From)+at(s.To)-wide)/2)
		left = xs[i] + wide + 2
	}
	right := b.right()
	for i := range slices.Backward(shares) {
		wide := ink.Width(ink.Regular, shares[i].Words, smallText)
		xs[i] = min(xs[i], right-wide)
		right = xs[i] - 2
	}
	for i, s := range shares {
		p.say(xs[i], b.Y+3, s.Words, smallText, textGrey)
	}
}

// binHeights returns the height of each bin, 0 to 1, and which are cut: as in the window's
// spread.
func binHeights(histogram *[256]int) (heights [256]float64, cut [256]bool) {
	sorted := *histogram
	slices.Sort(sorted[:])
	top := sorted[255]
	if limit := 16 * sorted[247]; limit > 0 && top > limit {
		top = limit
	}
	for bin, n := range histogram {
		if top > 0 {
			heights[bin] = math.Sqrt(float64(min(n, top)) / float64(top))
			cut[bin] = n > top
		}
	}
	return heights, cut
}

// centred writes a line with its middle at x.
func (p *Page) centred(x, y float64, text string, size float64, grey uint8) {
	p.say(x-ink.Width(ink.Regular, text, size)/2, y, text, size, grey)
}

// neutral returns a grey as a colour.
func neutral(grey uint8) colour.RGB { return colour.RGB{R: grey, G: grey, B: grey} }
