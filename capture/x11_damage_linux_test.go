package capture

import (
	"errors"
	"fmt"
	"image"
	"path/filepath"
	"testing"
	"time"

	"github.com/jezek/xgb/xproto"
	"pgregory.net/rapid"

	"app.tonedesk/capture/xvfbtest"
)

// until grabs until ok, each time after the stream has told of a change: never on a timer.
func until(t testing.TB, s Stream, f *Frame, what string, ok func(err error) bool) {
	t.Helper()
	for {
		_, err := s.Grab(bounded(t), f)
		if ok(err) {
			return
		}
		select {
		case <-s.(Notifier).Changes():
		case <-time.After(20 * time.Second):
			t.Fatalf("waited in vain for %s; last error %v", what, err)
		}
	}
}

// neverChecks keeps a stream from reading all from time to time.
func neverChecks(s Stream) *x11Stream {
	x, ok := s.(*x11Stream)
	if !ok {
		x = s.(*x11WindowStream).x11Stream
	}
	x.checked = time.Now().Add(time.Hour)
	return x
}

// openCounted opens our backend behind a counter, and returns how many pictures were asked for.
func openCounted(t *testing.T, server *xvfbtest.Server) (b *x11Backend, pictures func() int) {
	t.Helper()
	t.Setenv("XAUTHORITY", filepath.Join(t.TempDir(), "none"))
	counter := server.Counter()
	backend, err := openX11(counter.Display)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { backend.Close() })
	b = backend.(*x11Backend)
	const getImage, shmGetImage = 73, 4 // X11R7.7, appendix B; MIT-SHM 1.1
	shm := b.session.conn.X.Extensions["MIT-SHM"]
	return b, func() int { return counter.Count(getImage, -1) + counter.Count(shm, shmGetImage) }
}

// While nothing changes in a region no picture is asked for, and a dab costs one, of the dab.
func TestX11OnlyChangesAreRead(t *testing.T) {
	server := xvfbtest.Start(t, xvfbtest.Options{})
	painter := server.Painter()
	painter.Fill(image.Rect(0, 0, 640, 480), 0x202020)
	b, pictures := openCounted(t, server)
	s := neverChecks(openRegion(t, b, image.Rect(100, 100, 500, 400)))
	var f Frame
	grab(t, s, &f, true)
	neverChecks(s)
	if !f.Changed.Empty() {
		t.Errorf("the first picture is new all over, not in %v", f.Changed)
	}
	painter.Fill(image.Rect(100, 100, 101, 101), 0x303030)
	grab(t, s, &f, true) // both pictures are there now
	neverChecks(s)
	before := pictures()
	if before == 0 {
		t.Fatal("the counter counts nothing")
	}
	for range 100 {
		grab(t, s, &f, false)
	}
	painter.Fill(image.Rect(0, 0, 640, 100), 0xffffff) // beside the region
	grab(t, s, &f, false)
	if n := pictures() - before; n != 0 {
		t.Errorf("%d pictures were asked for while nothing changed", n)
	}
	for i := range 10 {
		dab := image.Rect(0, 0, 64, 64).Add(image.Pt(100+30*i, 100+20*i))
		painter.Fill(dab, 0x400000+uint32(i))
		before = pictures()
		grab(t, s, &f, true)
		if n := pictures() - before; n != 1 {
			t.Errorf("dab %d: %d pictures were asked for", i, n)
		}
		if want := dab.Sub(image.Pt(100, 100)); f.Changed != want {
			t.Errorf("dab %d: changed %v, want %v", i, f.Changed, want)
		}
	}
	painter.Fill(image.Rect(370, 280, 380, 290), 0x400009) // the colour that is there
	grab(t, s, &f, false)
}

// The last change of a burst is seen, by who waits for word of changes alone.
func TestX11LastOfABurst(t *testing.T) {
	server := xvfbtest.Start(t, xvfbtest.Options{})
	painter := server.Painter()
	b := openTest(t, server)
	s := neverChecks(openRegion(t, b, image.Rect(0, 0, 64, 64)))
	var f Frame
	grab(t, s, &f, true)
	for burst := range 20 {
		last := uint32(burst+1) << 8
		done := make(chan bool)
		go func() {
			defer close(done)
			for i := range 30 {
				painter.Fill(image.Rect(i, i, i+8, i+8), 0x800000+uint32(i))
			}
			painter.Fill(image.Rect(60, 60, 61, 61), last)
		}()
		until(t, s, &f, "the last change", func(err error) bool {
			if err != nil {
				t.Fatal(err)
			}
			return at(f, 60, 60) == [3]byte{0, byte(burst + 1), 0}
		})
		<-done
	}
}

// A change that the server doesn't tell of is found by the look at the whole.
func TestX11FullLook(t *testing.T) {
	server := xvfbtest.Start(t, xvfbtest.Options{})
	painter := server.Painter()
	s := openRegion(t, openTest(t, server), image.Rect(0, 0, 64, 64)).(*x11Stream)
	var f Frame
	grab(t, s, &f, true)
	painter.Fill(image.Rect(1, 2, 3, 4), 0x123456)
	source := s.source.(*x11Region)
	if _, err := source.damage.Load().ask().box(everywhere); err != nil { // what changed is taken by another
		t.Fatal(err)
	}
	grab(t, neverChecks(s), &f, false)
	s.checked = time.Now().Add(-x11CheckTime)
	grab(t, s, &f, true)
	if at(f, 1, 2) != [3]byte{0x12, 0x34, 0x56} {
		t.Errorf("reads %v", at(f, 1, 2))
	}
}

// A change whose read nobody waited for is in the next picture.
func TestX11ChangeOfAnImpatientGrab(t *testing.T) {
	server := xvfbtest.Start(t, xvfbtest.Options{})
	painter := server.Painter()
	s := neverChecks(openRegion(t, openTest(t, server), image.Rect(0, 0, 64, 64)).(*x11Stream))
	var f Frame
	grab(t, s, &f, true)
	painter.Fill(image.Rect(1, 2, 3, 4), 0x123456)
	server.Stop()
	if _, err := s.Grab(hurried(t), &f); !errors.Is(err, ErrNotAnswering) {
		t.Fatal(err)
	}
	server.Continue()
	grab(t, s, &f, true)
	if at(f, 1, 2) != [3]byte{0x12, 0x34, 0x56} {
		t.Errorf("reads %v", at(f, 1, 2))
	}
}

// differing returns the smallest box around the pixels that differ.
func differing(a, b Frame) (box image.Rectangle) {
	for y := range a.Size.Y {
		for x := range a.Size.X {
			if at(a, x, y) != at(b, x, y) {
				box = box.Union(image.Rect(x, y, x+1, y+1))
			}
		}
	}
	return box
}

// clone copies a frame.
func clone(f Frame) Frame {
	f.Pix = append([]byte(nil), f.Pix...)
	return f
}

// checkParts holds the law of reading in parts: after any boxes are painted the picture is
// that of a full read, and nothing differs from the picture before outside of Changed.
func checkParts(t *testing.T, parts, full *x11Stream, within image.Rectangle, paint func(box image.Rectangle, pixel uint32)) {
	t.Helper()
	var f, want Frame
	grab(t, parts, &f, true)
	grab(t, full, &want, true)
	rapid.Check(t, func(rt *rapid.T) {
		before := clone(f)
		for range rapid.IntRange(0, 4).Draw(rt, "boxes") {
			min := image.Pt(rapid.IntRange(within.Min.X-20, within.Max.X).Draw(rt, "x"), rapid.IntRange(within.Min.Y-20, within.Max.Y).Draw(rt, "y"))
			size := image.Pt(rapid.IntRange(1, within.Dx()+20).Draw(rt, "w"), rapid.IntRange(1, within.Dy()+20).Draw(rt, "h"))
			if rapid.Bool().Draw(rt, "small") {
				size = image.Pt(1+size.X/8, 1+size.Y/8)
			}
			paint(image.Rectangle{Min: min, Max: min.Add(size)}, rapid.Uint32Range(0, 1<<15-1).Draw(rt, "pixel"))
		}
		neverChecks(parts)
		full.unsure = true
		changed, err := parts.Grab(bounded(t), &f)
		_, late := full.Grab(bounded(t), &want)
		if err != nil || late != nil {
			rt.Fatal(err, late)
		}
		if d := differing(f, want); !d.Empty() {
			rt.Fatalf("differs from a full read in %v", d)
		}
		d := differing(before, f)
		if changed != !d.Empty() {
			rt.Fatalf("changed %v, differs in %v", changed, d)
		}
		if changed && !d.In(f.Changed) && !f.Changed.Empty() {
			rt.Fatalf("differs in %v, told %v", d, f.Changed)
		}
	})
}

func TestX11PartsAreTheWhole(t *testing.T) {
	for _, tt := range []struct {
		depth  int
		shared bool
	}{{24, true}, {24, false}, {16, true}, {30, true}} {
		t.Run(fmt.Sprintf("depth %d, shared %v", tt.depth, tt.shared), func(t *testing.T) {
			server := xvfbtest.Start(t, xvfbtest.Options{Width: 150, Height: 120, Depth: tt.depth})
			painter := server.Painter()
			b := openTest(t, server)
			area := image.Rect(7, 5, 122, 101)
			parts, full := openRegion(t, b, area).(*x11Stream), openRegion(t, b, area).(*x11Stream)
			parts.shared = parts.shared && tt.shared
			checkParts(t, parts, full, area, painter.Fill)
		})
	}
}

func TestX11PartsOfAWindowAreTheWhole(t *testing.T) {
	server := xvfbtest.Start(t, xvfbtest.Options{})
	painter := server.Painter()
	id := painter.Open(xvfbtest.Order{Box: image.Rect(600, 440, 715, 536), Title: "leaf", Class: "Painter", Border: 3}) // mostly off the screen
	child := painter.Open(xvfbtest.Order{Box: image.Rect(20, 20, 60, 50), Parent: xproto.Window(id), Alpha: true})
	b := openTest(t, server).(*x11Backend)
	w := Window{ID: uint64(id), Title: "leaf", Class: "Painter"}
	parts, full := followTest(t, b, w, image.Rectangle{}), followTest(t, b, w, image.Rectangle{})
	turn := 0
	checkParts(t, parts.x11Stream, full.x11Stream, image.Rect(0, 0, 115, 96), func(box image.Rectangle, pixel uint32) {
		if turn++; turn%5 == 0 {
			painter.Paint(child, box.Sub(image.Pt(20, 20)), pixel|0xff000000)
		} else {
			painter.Paint(id, box, pixel)
		}
	})
}
