package native

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/jezek/xgb"
	"github.com/jezek/xgb/xproto"

	"app.tonedesk/capture/xconn"
	"app.tonedesk/capture/xvfbtest"
)

// clipboardScreen starts a server and sees to it that no owner outlives the test.
func clipboardScreen(t testing.TB, o xvfbtest.Options) *xvfbtest.Server {
	t.Helper()
	server, _ := onScreen(t, o)
	t.Cleanup(func() {
		letGo()
		server.WaitFor("the owner's goroutines to end", func() bool {
			stacks := make([]byte, 1<<20)
			stacks = stacks[:runtime.Stack(stacks, true)]
			return !bytes.Contains(stacks, []byte("xconn.(*Line)")) && !bytes.Contains(stacks, []byte("clipboardOwner)"))
		})
	})
	return server
}

// noise is a picture that can't be made smaller: its file has about 3 bytes a pixel.
func noise(t testing.TB, size image.Point) []byte {
	t.Helper()
	r := rand.New(rand.NewPCG(1, uint64(size.X)))
	img := image.NewNRGBA(image.Rectangle{Max: size})
	for i := 0; i < len(img.Pix); i += 4 {
		binary.LittleEndian.PutUint32(img.Pix[i:], r.Uint32()|0xff000000)
	}
	return encode(t, img)
}

func encode(t testing.TB, img image.Image) []byte {
	t.Helper()
	var b bytes.Buffer
	e := png.Encoder{CompressionLevel: png.BestSpeed}
	if err := e.Encode(&b, img); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// dot is a small picture.
func dot(t testing.TB) []byte {
	img := image.NewNRGBA(image.Rect(0, 0, 8, 8))
	img.SetNRGBA(3, 3, color.NRGBA{0xe2, 0xab, 0x85, 255})
	return encode(t, img)
}

func mustCopy(t testing.TB, png []byte) {
	t.Helper()
	if err := CopyPicture(png); err != nil {
		t.Fatal(err)
	}
}

// pasted is what another program gets from the clipboard.
func pasted(server *xvfbtest.Server, target string) string {
	return server.Run("xclip", "-selection", "clipboard", "-o", "-t", target)
}

// takeClipboard has another program copy a text.
func takeClipboard(t *testing.T, server *xvfbtest.Server, text string) {
	t.Helper()
	path := filepath.Join(t.TempDir(), "text")
	if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	server.Launch("xclip", "-quiet", "-selection", "clipboard", "-i", path)
}

// owner returns who answers for the clipboard.
func owner(t *testing.T) *clipboardOwner {
	t.Helper()
	o, err := ask(1, func(*xconn.Conn, xproto.Window) (*clipboardOwner, error) { return owned, nil })
	if err != nil {
		t.Fatal(err)
	}
	return o
}

// What is copied comes out of another program byte for byte: in one piece, at the border of
// what a piece holds, and in many.
func TestCopyPicture(t *testing.T) {
	server := clipboardScreen(t, xvfbtest.Options{})
	mustCopy(t, dot(t))
	piece := owner(t).piece()
	whole := noise(t, image.Pt(1920, 1080))
	if len(whole) < 3<<20 {
		t.Fatalf("the large picture has only %d bytes", len(whole))
	}
	for _, tt := range []struct {
		name string
		png  []byte
	}{
		{"small", dot(t)}, {"a byte less than a piece", whole[:piece-1]}, {"a piece", whole[:piece]},
		{"a byte more than a piece", whole[:piece+1]}, {"two pieces", whole[:2*piece]},
		{"megabytes", whole}, {"small again", dot(t)},
	} {
		mustCopy(t, tt.png)
		if got := pasted(server, "image/png"); got != string(tt.png) {
			t.Errorf("%s: %d bytes came out of %d, or others", tt.name, len(got), len(tt.png))
		}
		if got := strings.Fields(pasted(server, "TARGETS")); !slices.Equal(got, []string{"TARGETS", "TIMESTAMP", "image/png"}) {
			t.Errorf("%s: targets %q", tt.name, got)
		}
	}
}

// When another program copies something we let go, and copy again when asked.
func TestCopyPictureTaken(t *testing.T) {
	server := clipboardScreen(t, xvfbtest.Options{})
	for range 3 {
		mustCopy(t, dot(t))
		o := owner(t)
		takeClipboard(t, server, "a text")
		server.WaitFor("the owner to let go", o.ended)
		if got := pasted(server, "UTF8_STRING"); got != "a text" {
			t.Errorf("the clipboard holds %q", got)
		}
	}
	mustCopy(t, dot(t))
	if got := pasted(server, "image/png"); got != string(dot(t)) {
		t.Error("copied again, another picture came out")
	}
}

// reader pastes over our own connection, so that a test can do it step by step.
type reader struct {
	t      *testing.T
	c      *xconn.Conn
	atoms  clipboardAtoms
	window xproto.Window
	events chan xgb.Event
}

func newReader(t *testing.T) *reader {
	t.Helper()
	r := &reader{t: t, events: make(chan xgb.Event, 1000)}
	r.ask(func(c *xconn.Conn) (err error) {
		r.c = c
		if r.atoms, err = newClipboardAtoms(c); err != nil {
			return err
		}
		if r.window, err = xproto.NewWindowId(c.X); err != nil {
			return err
		}
		return xproto.CreateWindowChecked(c.X, 0, r.window, c.Screen.Root, 0, 0, 1, 1, 0,
			xproto.WindowClassInputOnly, c.Screen.RootVisual, 0, nil).Check()
	})
	t.Cleanup(r.c.Subscribe(func(e xgb.Event) { offer(r.events, e) }))
	return r
}

func (r *reader) ask(f func(c *xconn.Conn) error) {
	r.t.Helper()
	if _, err := ask(1, func(c *xconn.Conn, _ xproto.Window) (bool, error) { return true, f(c) }); err != nil {
		r.t.Fatal(err)
	}
}

// next waits for an event that f wants.
func (r *reader) next(what string, f func(xgb.Event) bool) {
	r.t.Helper()
	late := time.After(30 * time.Second)
	for {
		select {
		case e := <-r.events:
			if f(e) {
				return
			}
		case <-late:
			r.t.Fatalf("waited in vain for %s", what)
		}
	}
}

// convert asks for the clipboard as target and returns the property of the answer.
func (r *reader) convert(window xproto.Window, target, property xproto.Atom) (got xproto.Atom) {
	r.t.Helper()
	r.ask(func(c *xconn.Conn) error {
		return xproto.ConvertSelectionChecked(c.X, window, r.atoms.clipboard, target, property, xproto.TimeCurrentTime).Check()
	})
	r.next("an answer", func(e xgb.Event) bool {
		n, ok := e.(xproto.SelectionNotifyEvent)
		if ok {
			got = n.Property
		}
		return ok && n.Target == target
	})
	return got
}

// take reads a property and deletes it, which asks for the next piece.
func (r *reader) take(property xproto.Atom) (kind xproto.Atom, value []byte) {
	r.t.Helper()
	r.ask(func(c *xconn.Conn) error {
		reply, err := xproto.GetProperty(c.X, true, r.window, property, xproto.GetPropertyTypeAny, 0, 1<<20).Reply()
		if err == nil {
			kind, value = reply.Type, reply.Value
		}
		return err
	})
	return kind, value
}

// piece waits for a piece and takes it.
func (r *reader) piece(property xproto.Atom) []byte {
	r.t.Helper()
	r.next("a piece", func(e xgb.Event) bool {
		n, ok := e.(xproto.PropertyNotifyEvent)
		return ok && n.Window == r.window && n.Atom == property && n.State == xproto.PropertyNewValue
	})
	_, piece := r.take(property)
	return piece
}

// begin asks for a large picture and takes its announcement, which is there before the answer.
func (r *reader) begin(size int) {
	r.t.Helper()
	if got := r.convert(r.window, r.atoms.png, r.atoms.png); got != r.atoms.png {
		r.t.Fatalf("the answer's property is %d", got)
	}
	kind, value := r.take(r.atoms.png)
	if kind != r.atoms.incr || len(value) != 4 || binary.LittleEndian.Uint32(value) != uint32(size) {
		r.t.Fatalf("announced: type %d, %v; want INCR, %d", kind, value, size)
	}
}

// now is the server's time.
func (r *reader) now() (now xproto.Timestamp) {
	r.t.Helper()
	r.ask(func(c *xconn.Conn) error {
		if err := xproto.ChangeWindowAttributesChecked(c.X, r.window, xproto.CwEventMask, []uint32{xproto.EventMaskPropertyChange}).Check(); err != nil {
			return err
		}
		return xproto.ChangePropertyChecked(c.X, xproto.PropModeAppend, r.window, xproto.AtomWmName, xproto.AtomString, 8, 0, nil).Check()
	})
	r.next("the time", func(e xgb.Event) bool {
		n, ok := e.(xproto.PropertyNotifyEvent)
		if ok {
			now = n.Time
		}
		return ok && n.Window == r.window && n.Atom == xproto.AtomWmName
	})
	return now
}

// Sources: ICCCM 2.0, sections 2.2 (answers, and a property of None), 2.6.2 (TIMESTAMP).
func TestCopyPictureAnswers(t *testing.T) {
	clipboardScreen(t, xvfbtest.Options{})
	r := newReader(t)
	before := r.now()
	mustCopy(t, dot(t))
	after := r.now()
	a := r.atoms
	if got := r.convert(r.window, a.timestamp, a.timestamp); got != a.timestamp {
		t.Fatalf("TIMESTAMP: property %d", got)
	}
	kind, value := r.take(a.timestamp)
	if kind != xproto.AtomInteger || len(value) != 4 {
		t.Fatalf("TIMESTAMP: type %d, %v", kind, value)
	}
	if got := xproto.Timestamp(binary.LittleEndian.Uint32(value)); got < before || got > after {
		t.Errorf("owned since %d, not between %d and %d", got, before, after)
	}
	if got := r.convert(r.window, a.png, xproto.AtomNone); got != a.png {
		t.Errorf("without a property: %d, want the target's name, %d", got, a.png)
	}
	if kind, value := r.take(a.png); kind != a.png || !bytes.Equal(value, dot(t)) {
		t.Errorf("without a property: type %d, %d bytes", kind, len(value))
	}
	if got := r.convert(r.window, xproto.AtomString, a.png); got != xproto.AtomNone {
		t.Errorf("a text: property %d, want none", got)
	}
	if kind, _ := r.take(a.png); kind != xproto.AtomNone {
		t.Error("a text was refused, and yet there is something")
	}
}

// What is under way arrives whole, though another program has copied something meanwhile,
// and though another picture was copied before.
func TestCopyPictureTakenUnderWay(t *testing.T) {
	server := clipboardScreen(t, xvfbtest.Options{})
	first := noise(t, image.Pt(500, 400))
	mustCopy(t, first)
	o := owner(t)
	r := newReader(t)
	r.begin(len(first))
	got := r.piece(r.atoms.png)
	mustCopy(t, dot(t))
	if owner(t) != o {
		t.Error("another owner, though the first had not ended")
	}
	takeClipboard(t, server, "a text")
	server.WaitFor("the other program's text", func() bool {
		return strings.Contains(pasted(server, "TARGETS"), "STRING")
	})
	if o.ended() {
		t.Error("ended, with a picture under way")
	}
	for {
		piece := r.piece(r.atoms.png)
		if len(piece) == 0 {
			break
		}
		got = append(got, piece...)
	}
	if !bytes.Equal(got, first) {
		t.Errorf("%d bytes came out of %d, or others", len(got), len(first))
	}
	server.WaitFor("the owner to let go", o.ended)
}

// A requestor that goes away in the middle is forgotten.
func TestCopyPictureRequestorGone(t *testing.T) {
	server := clipboardScreen(t, xvfbtest.Options{})
	large := noise(t, image.Pt(500, 400))
	mustCopy(t, large)
	o := owner(t)
	r := newReader(t)
	r.begin(len(large))
	r.piece(r.atoms.png)
	r.ask(func(c *xconn.Conn) error { return xproto.DestroyWindowChecked(c.X, r.window).Check() })
	if got := pasted(server, "image/png"); got != string(large) {
		t.Error("the next one got another picture")
	}
	takeClipboard(t, server, "a text")
	server.WaitFor("the owner to let go", o.ended)
}

// A requestor that fetches nothing any more is given up after a while, and its window is no
// longer watched; one that has just fetched something is not.
func TestCopyPictureRequestorStalls(t *testing.T) {
	clipboardScreen(t, xvfbtest.Options{})
	r := newReader(t)
	o, err := ask(1, func(c *xconn.Conn, _ xproto.Window) (*clipboardOwner, error) { return newClipboardOwner(c) })
	if err != nil {
		t.Fatal(err)
	}
	defer o.cancel()
	o.png = noise(t, image.Pt(500, 400))
	start := time.Now()
	slow, fast := destination{r.window, r.atoms.png}, destination{r.window, r.atoms.incr}
	mask := func() (mask uint32) {
		r.ask(func(c *xconn.Conn) error {
			reply, err := xproto.GetWindowAttributes(c.X, r.window).Reply()
			if err == nil {
				mask = reply.YourEventMask
			}
			return err
		})
		return mask
	}
	if !o.begin(slow) || !o.begin(fast) || mask() == 0 {
		t.Fatal("not begun")
	}
	o.expire(start.Add(sendTime / 2))
	if len(o.sends) != 2 {
		t.Fatal("given up too early")
	}
	o.sends[fast].till = start.Add(3 * sendTime)
	o.expire(start.Add(2 * sendTime))
	if len(o.sends) != 1 || o.sends[fast] == nil || mask() == 0 {
		t.Fatalf("%d under way, want the one that goes on", len(o.sends))
	}
	o.expire(start.Add(4 * sendTime))
	if len(o.sends) != 0 || mask() != 0 {
		t.Errorf("%d under way, events %#x", len(o.sends), mask())
	}
}

// The windows that the program itself watches are not sent to: that would end the watch.
func TestCopyPictureSparesWatchedWindows(t *testing.T) {
	clipboardScreen(t, xvfbtest.Options{})
	r := newReader(t)
	const watched = xproto.EventMaskStructureNotify
	r.ask(func(c *xconn.Conn) error {
		return xproto.ChangeWindowAttributesChecked(c.X, c.Screen.Root, xproto.CwEventMask, []uint32{watched}).Check()
	})
	mustCopy(t, noise(t, image.Pt(500, 400)))
	for _, w := range []xproto.Window{r.c.Screen.Root, owner(t).window} {
		r.ask(func(c *xconn.Conn) error {
			// The answer to a request by the root window would reach nobody: the time it takes
			// is seen by that of the next request.
			return xproto.ConvertSelectionChecked(c.X, w, r.atoms.clipboard, r.atoms.png, r.atoms.png, xproto.TimeCurrentTime).Check()
		})
		if got := r.convert(r.window, r.atoms.targets, r.atoms.targets); got != r.atoms.targets {
			t.Fatalf("TARGETS: property %d", got)
		}
		r.ask(func(c *xconn.Conn) error {
			reply, err := xproto.GetProperty(c.X, false, w, r.atoms.png, xproto.GetPropertyTypeAny, 0, 1).Reply()
			if err == nil && reply.Type != xproto.AtomNone {
				err = fmt.Errorf("window %#x was sent something", w)
			}
			return err
		})
	}
	r.ask(func(c *xconn.Conn) error {
		reply, err := xproto.GetWindowAttributes(c.X, c.Screen.Root).Reply()
		if err == nil && reply.YourEventMask != watched {
			err = fmt.Errorf("the root window's events: %#x", reply.YourEventMask)
		}
		return err
	})
	mustCopy(t, dot(t))
}

// Many copy, paste and take at the same time; it ends well (run with -race).
func TestCopyPictureManyAtOnce(t *testing.T) {
	server := clipboardScreen(t, xvfbtest.Options{})
	var all sync.WaitGroup
	pictures := [][]byte{dot(t), noise(t, image.Pt(400, 300))}
	mustCopy(t, pictures[0]) // so that somebody has the clipboard all the time
	for i := range 4 {
		all.Go(func() {
			for range 5 {
				if err := CopyPicture(pictures[i%2]); err != nil && !errors.Is(err, ErrClipboardBusy) {
					t.Error(err)
				}
			}
		})
	}
	for range 3 {
		if got := pasted(server, "TARGETS"); !strings.Contains(got, "image/png") && !strings.Contains(got, "STRING") {
			t.Errorf("targets %q", got)
		}
		takeClipboard(t, server, "a text")
	}
	all.Wait()
	server.WaitFor("the last picture", func() bool { // some of the texts may come late
		if err := CopyPicture(pictures[1]); err != nil {
			return false
		}
		cmd := exec.Command("xclip", "-selection", "clipboard", "-o", "-t", "image/png")
		cmd.Env = server.Env()
		got, err := cmd.Output()
		return err == nil && bytes.Equal(got, pictures[1])
	})
}

func TestCopyPictureOtherDisplay(t *testing.T) {
	clipboardScreen(t, xvfbtest.Options{})
	t.Setenv(displayVariable, ":59000")
	if err := CopyPicture(dot(t)); !errors.Is(err, ErrOtherDisplay) {
		t.Errorf("%v, want ErrOtherDisplay", err)
	}
}

// A display that halts costs a second, and all is well afterwards.
func TestCopyPictureStoppedDisplay(t *testing.T) {
	server := clipboardScreen(t, xvfbtest.Options{})
	mustCopy(t, dot(t))
	server.Stop()
	if err := CopyPicture(dot(t)); !errors.Is(err, xconn.ErrNotAnswering) {
		t.Errorf("halted: %v, want ErrNotAnswering", err)
	}
	server.Continue()
	large := noise(t, image.Pt(500, 400))
	server.WaitFor("an answer", func() bool { return CopyPicture(large) == nil })
	if got := pasted(server, "image/png"); got != string(large) {
		t.Error("another picture came out")
	}
}

func TestCopyPictureKilledDisplay(t *testing.T) {
	server := clipboardScreen(t, xvfbtest.Options{})
	mustCopy(t, dot(t))
	o := owner(t)
	server.Kill()
	<-o.done
	if err := CopyPicture(dot(t)); err == nil {
		t.Error("no display, and no error")
	}
}

// budget: 20 ms for a copy, half a second until another program has started and has it all.
// Our choice.
func BenchmarkCopyPicture(b *testing.B) {
	server := clipboardScreen(b, xvfbtest.Options{})
	large := noise(b, image.Pt(1920, 1080))
	b.Run("copy", func(b *testing.B) {
		for b.Loop() {
			mustCopy(b, large)
		}
	})
	b.Run("paste", func(b *testing.B) {
		mustCopy(b, large)
		b.SetBytes(int64(len(large)))
		for b.Loop() {
			pasted(server, "image/png")
		}
	})
}
