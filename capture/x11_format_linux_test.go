package capture

import (
	"bytes"
	"math/rand/v2"
	"testing"

	"github.com/jezek/xgb/shm"
	"pgregory.net/rapid"
)

// namesake makes the server attach the segment of our number, in its own namespace,
// and returns how many hold ours. It is the trap itself, without our check.
func namesake(t *testing.T, b *x11Backend) int {
	t.Helper()
	c := b.session.conn
	seg, err := takeSegment(640 * 480 * 4)
	if err != nil {
		t.Fatal(err)
	}
	defer seg.giveBack()
	id, err := shm.NewSegId(c.X)
	if err != nil {
		t.Fatal(err)
	}
	if err := shm.AttachChecked(c.X, id, uint32(seg.id), false).Check(); err != nil {
		t.Fatalf("the server has no segment of number %d: the trap is not there: %v", seg.id, err)
	}
	defer shm.Detach(c.X, id)
	return seg.holders()
}

func format24(t testing.TB) *x11Format {
	f, err := newX11Format(24, 32, 32, [3]uint32{0xff, 0xff00, 0xff0000})
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// Two pictures are the same if and only if all bits that count are. The law is stated
// pixel by pixel, for every format and any garbage elsewhere.
func TestX11SameProperty(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := rapid.SampledFrom(someFormats).Draw(t, "format")
		w, h := rapid.IntRange(1, 40).Draw(t, "width"), rapid.IntRange(1, 4).Draw(t, "height")
		r := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 0))
		a, b := make([]byte, f.stride(w)*h), make([]byte, f.stride(w)*h)
		for i := range a {
			a[i], b[i] = byte(r.Uint32()), byte(r.Uint32())
		}
		for y := range h {
			for x := range w {
				for i := range f.bytes {
					at, mask := y*f.stride(w)+x*f.bytes+i, byte(f.mask>>(8*i))
					b[at] = a[at]&mask | b[at]&^mask
				}
			}
		}
		if !f.same(a, b, w, h) {
			t.Fatal("garbage counts as a change")
		}
		x, y, bit := r.IntN(w), r.IntN(h), r.IntN(8*f.bytes)
		b[y*f.stride(w)+x*f.bytes+bit/8] ^= 1 << (bit % 8)
		if counts := f.mask>>bit&1 == 1; f.same(a, b, w, h) == counts {
			t.Fatalf("bit %d of pixel %d, %d: counts %v, same the same", bit, x, y, counts)
		}
	})
}

var someFormats = func() []*x11Format {
	var all []*x11Format
	for _, k := range []struct {
		depth, bits int
		masks       [3]uint32
	}{
		{24, 32, [3]uint32{0xff, 0xff00, 0xff0000}},
		{30, 32, [3]uint32{0x3ff, 0xffc00, 0x3ff00000}},
		{24, 24, [3]uint32{0xff, 0xff00, 0xff0000}},
		{16, 16, [3]uint32{0x1f, 0x7e0, 0xf800}},
		{15, 16, [3]uint32{0x1f, 0x3e0, 0x7c00}},
	} {
		f, err := newX11Format(k.depth, k.bits, 32, k.masks)
		if err != nil {
			panic(err)
		}
		all = append(all, f)
	}
	return all
}()

// White, black and the primaries are exact in every format, whatever the order.
func TestX11Convert(t *testing.T) {
	for _, f := range append(someFormats, mustFormat(t, 24, 32, [3]uint32{0xff0000, 0xff00, 0xff})) {
		for i, want := range [][]byte{{255, 0, 0, 255}, {0, 255, 0, 255}, {0, 0, 255, 255}} {
			if f.direct {
				continue
			}
			p := f.channel[i] << f.shift[i]
			src := make([]byte, f.stride(1)+4)
			for k := range f.bytes {
				src[k] = byte(p >> (8 * k))
			}
			got := make([]byte, 4)
			if f.convert(got, src, 1, 1); !bytes.Equal(got, want) {
				t.Errorf("depth %d, %d bytes, channel %d: %v, want %v", f.depth, f.bytes, i, got, want)
			}
		}
	}
}

func mustFormat(t *testing.T, depth, bits int, masks [3]uint32) *x11Format {
	f, err := newX11Format(depth, bits, 32, masks)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

func FuzzX11Format(f *testing.F) {
	f.Add(24, 32, 32, uint32(0xff), uint32(0xff00), uint32(0xff0000), []byte{1, 2, 3, 4})
	f.Add(15, 16, 32, uint32(0x1f), uint32(0x3e0), uint32(0x7c00), []byte{1, 2, 3, 4})
	f.Fuzz(func(t *testing.T, depth, bits, pad int, blue, green, red uint32, src []byte) {
		format, err := newX11Format(depth, bits, pad, [3]uint32{blue, green, red})
		if err != nil || len(src) < format.stride(1) {
			return
		}
		dst := make([]byte, 4)
		if !format.direct {
			format.convert(dst, src[:format.stride(1)], 1, 1)
		}
		if !format.same(src, src, 1, 1) {
			t.Error("a picture differs from itself")
		}
	})
}
