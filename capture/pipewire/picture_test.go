package pipewire

import (
	"bytes"
	"errors"
	"image"
	"testing"

	"app.tonedesk/capture/pipewire/pod"
)

// agreed is a format as a server settles it: written down by the layout of spa/pod/pod.h, not by
// package pod.
func agreed(pixels, width, height uint32) pod.Pod {
	b := func(words ...uint32) (p []byte) {
		for _, w := range words {
			p = pod.Order.AppendUint32(p, w)
		}
		return p
	}
	return bytes.Join([][]byte{
		b(5*24+8, 15, 0x40003, 4),
		b(1, 0, 4, 3, 2, 0), b(2, 0, 4, 3, 1, 0), b(0x20001, 0, 4, 3, pixels, 0),
		b(0x20003, 0, 8, 10, width, height), b(0x20004, 0, 8, 11, 0, 1),
	}, nil)
}

func TestParseFormat(t *testing.T) {
	for _, tt := range []struct {
		name string
		pod  pod.Pod
		want format
		err  bool
	}{
		{"BGRx", agreed(8, 1920, 1080), format{bgrx, image.Pt(1920, 1080)}, false},
		{"RGBA", agreed(11, 1, 1), format{rgba, image.Pt(1, 1)}, false},
		{"pixels that weren't offered", agreed(15, 640, 480), format{}, true},
		{"no width", agreed(8, 0, 480), format{}, true},
		{"too wide", agreed(8, 1<<31, 480), format{}, true},
		{"nothing", nil, format{}, true},
		{"cut off", agreed(8, 640, 480)[:60], format{}, true},
		{"of another type", pod.Int(7), format{}, true},
	} {
		got, err := parseFormat(tt.pod)
		if tt.err != (err != nil) || tt.err != errors.Is(err, pod.Err) || !tt.err && got != tt.want {
			t.Errorf("%s: %+v, %v, want %+v", tt.name, got, err, tt.want)
		}
	}
}

// Whatever a server settles, it is a format of a picture of a size that there can be, or an error.
func FuzzParseFormat(f *testing.F) {
	f.Add([]byte(agreed(8, 640, 480)))
	f.Add([]byte(offered()))
	f.Add([]byte(wished()[0]))
	f.Fuzz(func(t *testing.T, b []byte) {
		got, err := parseFormat(b)
		if err != nil {
			if !errors.Is(err, pod.Err) {
				t.Errorf("%v is no word", err)
			}
			return
		}
		if s := got.size; s.X < 1 || s.Y < 1 || s.X > mostSide || s.Y > mostSide || got.pixels == 0 {
			t.Errorf("a format of %v", got)
		}
	})
}

// Whatever a source says of its memory, what is read lies inside of it, and is as large as is said.
func FuzzRead(f *testing.F) {
	f.Add(4000, 10, 10, 0, 40, 0, 0, 0, 0, 0, 0, 0, 0)
	f.Add(4000, 10, 10, 8, 48, 1, 1, 9, 9, 2, 2, 5, 5)
	f.Add(400, 10, 10, 0, -40, 0, 0, 0, 0, 0, 0, 0, 0)
	f.Add(399, 10, 10, 0, 0, 0, 0, 1<<30, 1<<30, -5, -5, 3, 3)
	f.Fuzz(func(t *testing.T, room, width, height, offset, stride, cx, cy, cw, ch, px, py, pw, ph int) {
		if room < 0 || room > 1<<16 || width < 1 || height < 1 || width > mostSide || height > mostSide || offset < 0 || offset > 1<<32 || stride < -1<<31 || stride >= 1<<31 {
			t.Skip("no library says so")
		}
		r := raw{format: format{rgbx, image.Pt(width, height)}, memory: make([]byte, room), offset: offset, stride: stride, crop: image.Rect(cx, cy, cx+cw, cy+ch)}
		for i := range r.memory {
			r.memory[i] = byte(i % 4)
		}
		p, err := r.read(image.Rect(px, py, px+pw, py+ph), nil)
		if err != nil {
			if !errors.Is(err, ErrFormat) && !errors.Is(err, ErrPart) {
				t.Errorf("%v is no word", err)
			}
			return
		}
		if p.Size.X < 1 || p.Size.Y < 1 || len(p.Pix) != 4*p.Size.X*p.Size.Y || p.Size.X > p.Source.X || p.Source.X > width || p.Source.Y > height {
			t.Errorf("%v of %v in %d bytes", p.Size, p.Source, len(p.Pix))
		}
		if offset%4 == 0 && stride%4 == 0 && (p.Pix[0] != 2 || p.Pix[2] != 0) {
			t.Errorf("red and blue are not exchanged: %v", p.Pix[:4])
		}
	})
}
