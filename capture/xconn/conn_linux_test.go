package xconn

import (
	"context"
	"errors"
	"image"
	"io"
	"net"
	"path/filepath"
	"strconv"
	"sync"
	"testing"
	"time"

	"app.tonedesk/capture/xvfbtest"
	"github.com/jezek/xgb"
	"github.com/jezek/xgb/xproto"
)

func bounded(t testing.TB, d time.Duration) context.Context {
	ctx, cancel := context.WithTimeout(context.Background(), d)
	t.Cleanup(cancel)
	return ctx
}

// start starts a server that lets in this user without a secret.
func startServer(t testing.TB) *xvfbtest.Server {
	t.Helper()
	t.Setenv("XAUTHORITY", filepath.Join(t.TempDir(), "none"))
	return xvfbtest.Start(t, xvfbtest.Options{})
}

const patience = 20 * time.Second

func TestAcquire(t *testing.T) {
	server, other := startServer(t), startServer(t)
	a, err := Acquire(bounded(t, patience), server.Display)
	if err != nil {
		t.Fatal(err)
	}
	if !a.Has(SHM) || !a.Has(RandR) || a.Has(XWayland) {
		t.Error("extensions of a virtual server: MIT-SHM and RANDR are expected, XWAYLAND is not")
	}
	b, err := Acquire(bounded(t, patience), server.Display+".0")
	if err != nil || a != b {
		t.Errorf("the same display again: %v, the same %v", err, a == b)
	}
	if _, err := Acquire(bounded(t, patience), other.Display); !errors.Is(err, ErrBusy) {
		t.Errorf("another display: %v, want ErrBusy", err)
	}
	if err := Probe(bounded(t, patience), other.Display); err != nil {
		t.Errorf("probing another display: %v", err)
	}
	b.Release()
	if !a.Alive() {
		t.Error("ended while in use")
	}
	a.Release()
	c, err := Acquire(bounded(t, patience), other.Display)
	if err != nil {
		t.Fatalf("another display, now that the first was given back: %v", err)
	}
	c.Release()
	if _, err := Acquire(bounded(t, patience), other.Display+".7"); !errors.Is(err, ErrNoDisplay) {
		t.Errorf("a screen that isn't there: %v, want ErrNoDisplay", err)
	}
}

// Many connections one after the other, with events and probes at the same time: the
// library's tables must never be written while they are read (run with -race).
func TestReconnectWhileProbing(t *testing.T) {
	server := startServer(t)
	painter := server.Painter()
	stop := make(chan struct{})
	var probes sync.WaitGroup
	probes.Go(func() {
		for {
			select {
			case <-stop:
				return
			default:
				if err := Probe(bounded(t, patience), server.Display); err != nil {
					t.Errorf("probe: %v", err)
					return
				}
			}
		}
	})
	for range 20 {
		c, err := Acquire(bounded(t, patience), server.Display)
		if err != nil {
			t.Fatal(err)
		}
		seen := make(chan struct{}, 1)
		cancel := c.Subscribe(func(event xgb.Event) {
			select {
			case seen <- struct{}{}:
			default:
			}
		})
		if err := xproto.ChangeWindowAttributesChecked(c.X, c.Screen.Root, xproto.CwEventMask, []uint32{xproto.EventMaskStructureNotify}).Check(); err != nil {
			t.Fatal(err)
		}
		painter.Flood(10)
		<-seen
		cancel()
		c.Release()
	}
	close(stop)
	probes.Wait()
}

func TestStoppedServer(t *testing.T) {
	server := startServer(t)
	server.Stop()
	if err := Probe(bounded(t, 100*time.Millisecond), server.Display); !errors.Is(err, ErrNotAnswering) {
		t.Errorf("Probe: %v, want ErrNotAnswering", err)
	}
	if _, err := Acquire(bounded(t, 100*time.Millisecond), server.Display); !errors.Is(err, ErrNotAnswering) {
		t.Errorf("Acquire: %v, want ErrNotAnswering", err)
	}
	server.Continue()
	c, err := Acquire(bounded(t, patience), server.Display)
	if err != nil {
		t.Fatal(err)
	}
	server.Stop()
	c.Release() // and doesn't wait
	<-c.Done()
	server.Continue()
}

func TestKilledServer(t *testing.T) {
	t.Setenv("XAUTHORITY", filepath.Join(t.TempDir(), "none"))
	server := xvfbtest.Start(t, xvfbtest.Options{})
	c, err := Acquire(bounded(t, patience), server.Display)
	if err != nil {
		t.Fatal(err)
	}
	server.Kill()
	<-c.Done()
	if _, err := xproto.GetInputFocus(c.X).Reply(); !errors.Is(err, io.EOF) {
		t.Errorf("a request: %v, want EOF", err)
	}
	if _, err := Acquire(bounded(t, patience), server.Display); !errors.Is(err, ErrNoDisplay) {
		t.Errorf("Acquire: %v, want ErrNoDisplay", err)
	}
	c.Release()
}

// A server that talks nonsense gives an error, never a panic.
func TestNonsense(t *testing.T) {
	huge := append([]byte{1, 0, 11, 0, 0, 0, 20, 0}, make([]byte, 80)...)
	for i := range huge[8:] {
		huge[8+i] = 0xff // lengths that point far outside
	}
	for _, tt := range []struct {
		name, answer string
		want         error
	}{
		{"nothing", "", ErrBroken},
		{"not X", "HTTP/1.1 400 Bad Request\r\n\r\n", ErrBroken},
		{"old protocol", "\x01\x00\x0a\x00\x00\x00\x00\x00", ErrBroken},
		{"short setup", "\x01\x00\x0b\x00\x00\x00\x01\x00abcd", ErrBroken},
		{"refused with a reason", "\x00\x05\x0b\x00\x00\x00\x02\x00go on\x00\x00\x00", ErrRefused},
		{"refused with a bad length", "\x00\xff\x0b\x00\x00\x00\x01\x00abcd", ErrRefused},
		{"more authority wanted", "\x02\x00\x0b\x00\x00\x00\x01\x00more", ErrRefused},
		{"lengths that lie", string(huge), ErrBroken},
	} {
		t.Run(tt.name, func(t *testing.T) {
			display := fakeServer(t, tt.answer)
			if _, err := Acquire(bounded(t, patience), display); !errors.Is(err, tt.want) {
				t.Errorf("%v, want %v", err, tt.want)
			}
		})
	}
}

// fakeServer answers every connection with answer and ends it, except for the questions
// for extensions, which it denies.
func fakeServer(t *testing.T, answer string) string {
	t.Helper()
	socket := filepath.Join(t.TempDir(), "fake")
	listener, err := net.Listen("unix", socket+":0")
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { listener.Close() })
	go func() {
		for {
			nc, err := listener.Accept()
			if err != nil {
				return
			}
			go serve(nc, answer)
		}
	}()
	return socket + ":" + strconv.Itoa(0)
}

func serve(nc net.Conn, answer string) {
	defer nc.Close()
	buf := make([]byte, 256)
	if _, err := nc.Read(buf); err != nil {
		return
	}
	if _, err := io.WriteString(nc, answer); err != nil || answer == "" || answer[0] != 1 {
		return
	}
	for {
		if _, err := nc.Read(buf); err != nil {
			return
		}
		if _, err := nc.Write(append([]byte{1}, make([]byte, 31)...)); err != nil {
			return
		}
	}
}

// A picture of the painter's, so that the test support is checked where it is plainest.
func TestPainter(t *testing.T) {
	server := startServer(t)
	painter := server.Painter()
	painter.Fill(image.Rect(10, 10, 20, 20), 0x123456)
	c, err := Acquire(bounded(t, patience), server.Display)
	if err != nil {
		t.Fatal(err)
	}
	defer c.Release()
	reply, err := xproto.GetImage(c.X, xproto.ImageFormatZPixmap, xproto.Drawable(c.Screen.Root), 10, 10, 1, 1, 0xffffffff).Reply()
	if err != nil || [3]byte(reply.Data) != [3]byte{0x56, 0x34, 0x12} {
		t.Errorf("painted 123456, read %v, %v", reply, err)
	}
}
