package analysis

import (
	"math"
	"testing"
)

// jumpScene is a figure before a ground: a head, a body, a shadow side, a table edge, seen
// through a view that is panned, zoomed and turned. It returns its lightness as a plane.
func jumpScene(dx, dy, zoom, turn float64, change func(x, y float64, v float64) float64) *Reading {
	const w, h = 640, 360
	r := &Reading{Width: w, Height: h, Grey: make([]uint8, w*h)}
	sin, cos := math.Sincos(turn * math.Pi / 180)
	for y := range h {
		for x := range w {
			u, v := (float64(x)-w/2-dx)/zoom, (float64(y)-h/2-dy)/zoom
			u, v = u*cos+v*sin, v*cos-u*sin
			grey := jumpPaint(u, v)
			if change != nil {
				grey = change(float64(x), float64(y), grey)
			}
			r.Grey[y*w+x] = uint8(min(max(grey, 0), 255))
		}
	}
	return r
}

func jumpPaint(u, v float64) float64 {
	grey := 200 - v/8 // a soft sky
	if v > 90 {
		grey = 120
	}
	if u*u/3600+(v+20)*(v+20)/6400 < 1 { // head, shadow to the right
		grey = 170
		if u > 12 {
			grey = 100
		}
	}
	if v > 50 && math.Abs(u) < 40+(v-50)*0.8 { // body
		grey = 140
		if u > 5 {
			grey = 70
		}
	}
	if math.Hypot(u-180, v+90) < 40 { // a lamp
		grey = 245
	}
	if math.Abs(u+200) < 30 && v > -60 { // a post
		grey = 60
	}
	return grey
}

func TestJump(t *testing.T) {
	plain := func(change func(x, y, v float64) float64) *Reading { return jumpScene(0, 0, 1, 0, change) }
	disc := func(cx, cy, radius, grey float64) func(x, y, v float64) float64 {
		return func(x, y, v float64) float64 {
			if math.Hypot(x-cx, y-cy) < radius {
				return grey
			}
			return v
		}
	}
	noise := func(x, y, v float64) float64 { // whole numbers, spread evenly from -4 to 4
		return v + float64((uint32(x)*2654435761^uint32(y)*40503)>>5%9) - 4
	}
	tests := []struct {
		name string
		next *Reading
		want bool
	}{
		{"nothing", plain(nil), false},
		{"a dab", plain(disc(300, 150, 20, 30)), false},
		{"a large dab", plain(disc(300, 150, 90, 30)), false},
		{"the lower half filled anew", plain(func(x, y, v float64) float64 {
			if y > 180 {
				return 90
			}
			return v
		}), false},
		{"lighter throughout", plain(func(_, _, v float64) float64 { return v + 20 }), false},
		{"more contrast", plain(func(_, _, v float64) float64 { return (v-128)*1.4 + 128 }), false},
		{"turned to its negative", plain(func(_, _, v float64) float64 { return 255 - v }), false},
		{"a grey layer at half strength", plain(func(_, _, v float64) float64 { return v/2 + 64 }), false},
		{"noise", plain(noise), false},
		{"a stroke across", plain(func(x, y, v float64) float64 {
			if math.Abs(y-0.5*x) < 6 {
				return 40
			}
			return v
		}), false},
		{"panned by 3", jumpScene(3, 0, 1, 0, nil), true},
		{"panned by 8 and 5", jumpScene(8, 5, 1, 0, nil), true},
		{"panned by 40", jumpScene(40, -25, 1, 0, nil), true},
		{"panned by 120", jumpScene(120, 0, 1, 0, nil), true},
		{"zoomed by 5 %", jumpScene(0, 0, 1.05, 0, nil), true},
		{"zoomed by half", jumpScene(0, 0, 1.5, 0, nil), true},
		{"turned by 3 degrees", jumpScene(0, 0, 1, 3, nil), true},
		{"turned by 30 degrees", jumpScene(0, 0, 1, 30, nil), true},
		{"turned upside down", jumpScene(0, 0, 1, 180, nil), true},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			var j Jump
			if j.Moved(jumpScene(0, 0, 1, 0, nil)) {
				t.Fatal("the first picture has jumped")
			}
			if got := j.Moved(tt.next); got != tt.want {
				t.Errorf("jumped: %v, want %v", got, tt.want)
			}
			if j.Moved(tt.next) {
				t.Error("the same picture once more has jumped")
			}
		})
	}
}

func TestJumpAllocates(t *testing.T) {
	var j Jump
	a, b := jumpScene(0, 0, 1, 0, nil), jumpScene(9, 3, 1, 0, nil)
	j.Moved(a)
	if n := testing.AllocsPerRun(10, func() { j.Moved(b); j.Moved(a) }); n != 0 {
		t.Errorf("%v allocations", n)
	}
}

func BenchmarkJump(b *testing.B) { // budget: a tenth of the shortest tick, 0 allocs/op
	var j Jump
	p, q := jumpScene(0, 0, 1, 0, nil), jumpScene(90, 3, 1, 0, nil)
	b.ReportAllocs()
	for b.Loop() {
		j.Moved(p)
		j.Moved(q)
	}
}
