package attack

import (
	"image"
	"math"
	"testing"
	"time"

	"app.tonedesk/analysis/colour"
)

// What counts as a flash. Source: WCAG 2.2 (W3C, 2024), success criterion 2.3.1 and "general
// flash and red flash thresholds": a pair of opposing changes of relative luminance of 10 %
// or more of the largest, the darker image below 0.80; no more than three in any second, but
// for flashes that cover at most a quarter of ten degrees of sight. Here a quarter of what is
// looked at.
const (
	flashStep    = 0.10
	flashDarker  = 0.80
	mostChanges  = 6 // three pairs
	flashPart    = 0.25
	measuredCols = 16
	measuredRows = 12
)

// flashMeter counts flashes in pictures that follow each other, a cell of a grid each.
type flashMeter struct {
	cells [measuredCols * measuredRows]cell
}

// cell is what a cell of the grid has gone through.
type cell struct {
	low, high float64     // since its last change
	way       int         // of that change: 1 lighter, -1 darker, 0 none yet
	changes   []time.Time // of the last second
	begun     bool
}

// add takes the next picture, and returns the share of the area that has just flashed more
// often than may be.
func (m *flashMeter) add(img *image.RGBA, at time.Time) float64 {
	over := 0
	for i := range m.cells {
		c := &m.cells[i]
		c.see(meanOf(img, i%measuredCols, i/measuredCols), at)
		if len(c.changes) > mostChanges {
			over++
		}
	}
	return float64(over) / float64(len(m.cells))
}

// see takes the cell's next luminance. A change counts where it has gone far enough from
// the extreme before it, and against the change before.
func (c *cell) see(y float64, at time.Time) {
	if !c.begun {
		c.low, c.high, c.begun = y, y, true
	}
	c.low, c.high = min(c.low, y), max(c.high, y)
	switch {
	case c.way <= 0 && y-c.low >= flashStep && c.low < flashDarker:
		c.way, c.high, c.changes = 1, y, append(c.changes, at)
		c.low = y
	case c.way >= 0 && c.high-y >= flashStep && y < flashDarker:
		c.way, c.low, c.changes = -1, y, append(c.changes, at)
		c.high = y
	}
	for len(c.changes) > 0 && at.Sub(c.changes[0]) >= time.Second {
		c.changes = c.changes[1:]
	}
}

// meanOf is the mean relative luminance of a cell of the grid over a picture.
func meanOf(img *image.RGBA, col, row int) float64 {
	b := img.Bounds()
	box := image.Rect(b.Dx()*col/measuredCols, b.Dy()*row/measuredRows, b.Dx()*(col+1)/measuredCols, b.Dy()*(row+1)/measuredRows).Add(b.Min)
	sum, n := 0.0, 0
	for y := box.Min.Y; y < box.Max.Y; y += 2 {
		for x := box.Min.X; x < box.Max.X; x += 2 {
			c := img.RGBAAt(x, y)
			sum += colour.Luminance(colour.Linear(c.R), colour.Linear(c.G), colour.Linear(c.B))
			n++
		}
	}
	return sum / math.Max(1, float64(n))
}

// The meter itself counts as the definition says.
func TestFlashMeter(t *testing.T) {
	for _, tt := range []struct {
		name      string
		from, to  uint8
		every     time.Duration // between two changes
		flashes   bool
		alternate bool
	}{
		{"3 flashes a second are allowed (SC 2.3.1)", 0, 255, 170 * time.Millisecond, false, true},
		{"4 flashes a second aren't", 0, 255, 124 * time.Millisecond, true, true},
		{"a step below 10 %: #000000 to #595959 is 0.0999", 0, 0x59, 50 * time.Millisecond, false, true},
		{"a step above it: #000000 to #5a5a5a is 0.1022", 0, 0x5a, 50 * time.Millisecond, true, true},
		{"the darker at 0.80 or above: #e7e7e7 is 0.799, #f5f5f5 less than 10 % more", 0xf0, 0xff, 50 * time.Millisecond, false, true},
		{"changes that go one way are no flash", 0, 255, 50 * time.Millisecond, false, false},
	} {
		var m flashMeter
		start, worst := time.Now(), 0.0
		for i := range 60 {
			v := tt.from
			if i%2 == 1 {
				v = tt.to
			}
			if !tt.alternate {
				v = uint8(4 * i)
			}
			img := image.NewRGBA(image.Rect(0, 0, 64, 48))
			for p := range img.Pix {
				img.Pix[p] = v
			}
			worst = max(worst, m.add(img, start.Add(time.Duration(i)*tt.every)))
		}
		if got := worst > flashPart; got != tt.flashes {
			t.Errorf("%s: %v, a share of %.2f", tt.name, got, worst)
		}
	}
}
