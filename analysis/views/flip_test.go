package views

import (
	"bytes"
	"math/rand/v2"
	"testing"

	"app.tonedesk/analysis"
)

// Twice mirrored is as before; once mirrored, every row runs backwards.
func TestFlipLeftRight(t *testing.T) {
	rng := rand.New(rand.NewPCG(19, 20))
	for range 50 {
		width, height := rng.IntN(9), rng.IntN(9)
		p := analysis.Pixels{Pix: make([]byte, 4*width*height), Stride: 4 * width, Width: width, Height: height}
		for i := range p.Pix {
			p.Pix[i] = uint8(rng.Uint32())
		}
		q := p
		q.Pix = bytes.Clone(p.Pix)
		FlipLeftRight(q.Pix, width, height)
		for i := range width * height {
			x, y := i%width, i/width
			if !bytes.Equal(p.Pix[4*i:][:4], q.Pix[4*(y*width+width-1-x):][:4]) {
				t.Fatalf("pixel %d, %d is not mirrored", x, y)
			}
		}
		FlipLeftRight(q.Pix, width, height)
		if !bytes.Equal(p.Pix, q.Pix) {
			t.Error("twice mirrored is another picture")
		}
	}
}
