package live

import (
	"image"
	"slices"
	"strings"
	"testing"
	"time"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/analysistest"
	"app.tonedesk/analysis/movement"
	"app.tonedesk/capture"
)

func TestFrame(t *testing.T) {
	r := newRig(t)
	f := frameOf(halves(8, 4, black, white))
	f.Origin = image.Pt(100, 50)
	s := r.see(f, false)
	if want := image.Rect(100, 50, 108, 54); s.Bounds != want || s.Part != want || !s.At.Equal(f.At) {
		t.Errorf("bounds %v, part %v at %v, want %v at %v", s.Bounds, s.Part, s.At, want, f.At)
	}
	if s.Reading.Counted != 32 || s.Move.Kind != movement.Still || !s.Text || s.Loupe != nil || s.Beside != nil || s.Copied != nil || s.Picked != nil || len(s.Spots)+len(s.Manual) > 0 {
		t.Errorf("shown is %+v", s)
	}
	wantGreys(t, "the mirror", s.Img, 0, 0, 0, 0, 0, 255, 255, 255, 255)
	if again := r.see(f, true); again.Img != s.Img || again.Reading != s.Reading {
		t.Error("what still holds is made anew")
	}
}

func TestRead(t *testing.T) {
	r := newRig(t)
	next := wantsAll()
	next.Setup = next.Setup.LeavingOut(image.Rect(100, 50, 102, 54))
	next.Covered = image.Rect(0, 0, 101, 51)
	tt := taskOf(halves(8, 4, black, white), next, image.Pt(100, 50))
	reading := r.read(tt)
	if reading.Counted != 24 || reading.Histogram[0] != 8 || reading.Histogram[255] != 16 { // our window lies on what is left out
		t.Errorf("%d pixels are counted, %d of them black, %d white", reading.Counted, reading.Histogram[0], reading.Histogram[255])
	}
	r.Worker.shown.Reading, tt.same.reading = reading, true
	tt.pixels = analysis.Pixels{}
	if got := r.read(tt); got != reading || got.Counted != 24 {
		t.Error("a reading that still holds is made anew")
	}
}

// moved is a painting whose pixels stand so many columns to the left.
func moved(by int) *capture.Frame {
	p := analysistest.Painting(640, 360, analysis.BGRX).Crop(image.Rect(by, 0, by+500, 360))
	return &capture.Frame{Pix: p.Pix, Stride: p.Stride, Size: image.Pt(p.Width, p.Height), Layout: capture.BGRX}
}

func TestMove(t *testing.T) {
	r := newRig(t)
	for _, tt := range []struct {
		what     string
		columns  int
		repeated bool
		region   image.Rectangle
		want     movement.Kind
	}{
		{"the first", 0, false, image.Rectangle{}, movement.Still},
		{"the same", 0, false, image.Rectangle{}, movement.Still},
		{"moved", 60, false, image.Rectangle{}, movement.Moved},
		{"the moved once more", 60, true, image.Rectangle{}, movement.Still},
		{"a part of it", 60, true, image.Rect(100, 100, 400, 300), movement.Still},
		{"the part, moved", 0, false, image.Rect(100, 100, 400, 300), movement.Moved},
	} {
		r.next.Setup.Source.Region = tt.region
		if got := r.see(moved(tt.columns), tt.repeated).Move.Kind; got != tt.want {
			t.Errorf("%s: %v, want %v", tt.what, got, tt.want)
		}
	}
}

// Figures are renewed ten times a second, and at once where the painter did something.
func TestTextDue(t *testing.T) {
	r := newRig(t)
	start := r.now
	for _, tt := range []struct {
		after    time.Duration
		repeated bool
		due      bool
		again    []time.Duration
	}{
		{0, false, true, nil},
		{40 * time.Millisecond, false, false, []time.Duration{60 * time.Millisecond}},
		{60 * time.Millisecond, true, true, nil},
		{159 * time.Millisecond, false, false, []time.Duration{time.Millisecond}},
		{160 * time.Millisecond, false, true, nil},
	} {
		r.now, r.again = start.Add(tt.after), nil
		if got := r.textDue(tt.repeated); got != tt.due || !slices.Equal(r.again, tt.again) {
			t.Errorf("after %v, repeated %v: due %v and again in %v, want %v, %v", tt.after, tt.repeated, got, r.again, tt.due, tt.again)
		}
	}
}

// A mistake of ours is logged with its place, and the next frame is shown as if nothing had
// been.
func TestPanicInAFrame(t *testing.T) {
	r := newRig(t)
	r.see(frameOf(halves(4, 2, black, white)), false)
	f := frameOf(halves(4, 2, white, black))
	search := r.search
	r.next.Families, r.search = true, nil
	if r.see(f, false) != nil {
		t.Fatal("there was no panic")
	}
	if len(r.log) != 1 || !strings.Contains(r.log[0].Error(), "working on a frame: ") || !strings.Contains(r.log[0].Error(), "lookForFamilies") {
		t.Errorf("logged is %v", r.log)
	}
	r.search = search
	s := r.see(f, true)
	wantGreys(t, "the frame once more", s.Img, 0, 255, 255, 0, 0)
	r.onto = func(*Shown) { panic("in the window") }
	r.see(f, true)
	r.onto = nil
	if s = r.see(f, true); s == nil || len(r.log) != 2 {
		t.Errorf("after a panic in the window, shown is %v, logged %v", s, r.log)
	}
}

// busy wants everything but a copy, of which every one has memory of its own.
func busy() Wanted {
	next := wantsAll()
	next.Settings.View, next.Settings.Flipped, next.Looking, next.Look = "small", true, true, image.Pt(3, 3)
	next.Covered = image.Rect(0, 0, 9, 9)
	return next
}

func TestFrameAllocatesNothing(t *testing.T) {
	half := halves(64, 64, black, white)
	half.Pix[3] = 128
	for _, tt := range []struct {
		what string
		f    *capture.Frame
		next Wanted
	}{
		{"opaque", frameOf(halves(64, 64, black, white)), wantsAll()},
		{"half-transparent", frameOf(half), wantsAll()},
		{"with loupe and small picture", frameOf(half), busy()},
	} {
		r := newRig(t)
		r.owner.Show = func(*Shown) {}
		r.owner.Again = func(time.Duration) {}
		r.Want(tt.next)
		frame := func() { r.Frame(tt.f, false); r.Frame(tt.f, true) }
		frame()
		frame() // both images of a pair are there now
		least := 1.0
		for range 5 { // what the runtime allocates beside counts too
			least = min(least, testing.AllocsPerRun(20, frame))
		}
		if least != 0 {
			t.Errorf("%s: %g allocations a frame", tt.what, least)
		}
	}
}

// Budget: 0 allocs/op; time as the parts' own benchmarks say: reading 3 ms, the jump 2 ms,
// reducing and painting 8 ms.
func BenchmarkFrame(b *testing.B)            { benchmarkFrame(b, wantsAll(), false) }
func BenchmarkFrameAllWanted(b *testing.B)   { benchmarkFrame(b, busy(), false) }
func BenchmarkFrameOnceMore(b *testing.B)    { benchmarkFrame(b, wantsAll(), true) }
func BenchmarkFrameOfPicture(b *testing.B)   { benchmarkPicture(b, 255) }
func BenchmarkFrameTransparent(b *testing.B) { benchmarkPicture(b, 128) }

func benchmarkFrame(b *testing.B, next Wanted, repeated bool) {
	p := analysistest.Painting(1920, 1080, analysis.BGRX)
	benchmark(b, &capture.Frame{Pix: p.Pix, Stride: p.Stride, Size: image.Pt(1920, 1080), Layout: capture.BGRX}, next, repeated)
}

func benchmarkPicture(b *testing.B, alpha uint8) {
	p := analysistest.Painting(1920, 1080, analysis.RGBA)
	for i := 3; i < len(p.Pix); i += 4 {
		p.Pix[i] = alpha
	}
	benchmark(b, &capture.Frame{Pix: p.Pix, Stride: p.Stride, Size: image.Pt(1920, 1080)}, wantsAll(), false)
}

func benchmark(b *testing.B, f *capture.Frame, next Wanted, repeated bool) {
	next.Lay = func(bounds image.Rectangle) Lay { return Lay{bounds, image.Pt(760, 428)} }
	w := NewWorker(Owner{Show: func(*Shown) {}, Again: func(time.Duration) {}, Log: func(err error) { b.Error(err) }}, nil)
	defer w.Close()
	w.Want(next)
	w.Frame(f, false)
	w.Frame(f, false)
	b.ReportAllocs()
	for b.Loop() {
		w.Frame(f, repeated)
	}
}

// As BenchmarkFrame, where a dab of 64 x 64 has changed.
func BenchmarkFrameDab(b *testing.B) {
	p := analysistest.Painting(1920, 1080, analysis.BGRX)
	f := &capture.Frame{Pix: p.Pix, Stride: p.Stride, Size: image.Pt(1920, 1080), Layout: capture.BGRX, Changed: image.Rect(800, 300, 864, 364)}
	benchmark(b, f, wantsAll(), false)
}
