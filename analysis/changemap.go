package analysis

import (
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/internal/dots"
)

// spans are the scales of a map of differences, in tones to either side.
var spans = []float64{1, 2, 3, 5, 10}

// Span returns the scale on which a map of the differences says most: the least of 1, 2, 3,
// 5 and 10 tones to either side that holds all but a hundredth of the altered pixels.
func (c *Change) Span() float64 {
	var counts [1001]int
	altered := 0
	for _, d := range c.difference {
		if away := max(int(d), -int(d)); d != notCounted && away > alteredFrom {
			counts[min(away, 1000)]++
			altered++
		}
	}
	within, away := 0, 0
	for _, span := range spans {
		for ; away <= int(100*span); away++ {
			within += counts[away]
		}
		if 100*within >= 99*altered {
			return span
		}
	}
	return spans[len(spans)-1]
}

// Paint paints the differences as greys: RGBA, 4*Width bytes a row, alpha 255. No change is
// L* 50, black is darker by span tones or more, white lighter by as much, even steps of L*
// between. What isn't counted has dots, as in the mirror.
func (c *Change) Paint(dst []byte, span float64) {
	var greys [2001]uint8
	for i := range greys {
		greys[i] = colour.GreyOf(50 + 50*max(-1, min(float64(i-1000)/100/span, 1)))
	}
	for y := range c.Height {
		for x := range c.Width {
			d := c.difference[y*c.Width+x]
			grey := greys[1000]
			switch shift := dots.DotShift(y); {
			case d != notCounted:
				grey = greys[max(0, min(int(d)+1000, 2000))]
			case y%(dots.DotStep/2) < dots.DotSize && (x+shift)%dots.DotStep < dots.DotSize:
				grey = dots.LightDot // on L* 50
			}
			q := dst[PixelBytes*(y*c.Width+x):][:PixelBytes]
			q[0], q[1], q[2], q[3] = grey, grey, grey, 255
		}
	}
}
