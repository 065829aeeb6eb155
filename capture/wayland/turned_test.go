package wayland

import (
	"errors"
	"image"
	"testing"

	"pgregory.net/rapid"

	_ "app.tonedesk/analysis/lawtest" // the same cases every time
	"app.tonedesk/capture"
)

// However a picture is turned, each of its pixels lies in memory once, and inside of it; turned back it is
// what it was: a quarter to the left four times, or mirrored twice, is nothing.
func TestTurnedIsEveryPixelOnce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		size := image.Pt(rapid.IntRange(1, 9).Draw(t, "width"), rapid.IntRange(1, 9).Draw(t, "height"))
		l := layout{xrgb8888, size, 4*size.X + 4*rapid.IntRange(0, 3).Draw(t, "gap")}
		p := turned{l, uint32(rapid.IntRange(0, 7).Draw(t, "turn")), rapid.Bool().Draw(t, "invert")}
		seen := map[int]bool{}
		for y := range p.Size().Y {
			for x := range p.Size().X {
				at := p.at(x, y)
				if seen[at] || at < 0 || at+4 > l.bytes() || at%l.stride >= 4*size.X || at%4 != 0 {
					t.Fatalf("(%d,%d) of %v lies at %d", x, y, p.Size(), at)
				}
				seen[at] = true
			}
		}
		if len(seen) != size.X*size.Y {
			t.Errorf("%d pixels of %v", len(seen), size)
		}
	})
}

// Whatever a compositor says of its memory, it is refused, or what is read lies inside of it and is as large
// as is said.
func FuzzTurned(f *testing.F) {
	f.Add(uint32(xrgb8888), 40, 30, 160, uint32(0), false, 0, 0, 0, 0)
	f.Add(uint32(xbgr8888), 40, 30, 176, uint32(5), true, 3, 4, 99, 9)
	f.Add(uint32(0x30335258), 1<<30, 30, -1, uint32(1<<31), false, 0, 0, -5, -5)
	f.Fuzz(func(t *testing.T, format uint32, width, height, stride int, turn uint32, invert bool, left, top, right, foot int) {
		p := turned{layout{format, image.Pt(width, height), stride}, turn, invert}
		if err := p.check(); err != nil {
			if !errors.Is(err, capture.ErrFormat) {
				t.Errorf("%v is no word", err)
			}
			return
		}
		if p.bytes() > 1<<20 {
			t.Skip("too much memory for a test")
		}
		part := image.Rectangle{Min: image.Pt(left, top), Max: image.Pt(right, foot)}
		pix, where, err := p.read(make([]byte, p.bytes()), part, nil)
		if err != nil {
			if !errors.Is(err, capture.ErrPart) {
				t.Errorf("%v is no word", err)
			}
			return
		}
		if len(pix) != 4*where.Dx()*where.Dy() || where.Empty() || !where.In(image.Rectangle{Max: p.Size()}) {
			t.Errorf("%v of %v in %d bytes", where, p.Size(), len(pix))
		}
	})
}
