package wayland

import (
	"bytes"
	"context"
	"errors"
	"image"
	"net"
	"os"
	"testing"
	"time"

	"golang.org/x/sys/unix"

	"app.tonedesk/capture"
	"app.tonedesk/capture/wayland/wire"
)

// pair is both ends of a connection.
func pair(t testing.TB) (ours, theirs *net.UnixConn) {
	t.Helper()
	files, err := unix.Socketpair(unix.AF_UNIX, unix.SOCK_STREAM|unix.SOCK_CLOEXEC, 0)
	if err != nil {
		t.Fatal(err)
	}
	end := func(fd int) *net.UnixConn {
		f := os.NewFile(uintptr(fd), "end")
		defer f.Close()
		conn, err := net.FileConn(f)
		if err != nil {
			t.Fatal(err)
		}
		return conn.(*net.UnixConn)
	}
	return end(files[0]), end(files[1])
}

// begins is how a compositor may begin, up to a copy that is ready.
func begins(copier, screens uint32) (b []byte) {
	for _, m := range []wire.Message{
		wire.New(registryObject, 0).Uint(1).Text("wl_shm").Uint(1),
		wire.New(registryObject, 0).Uint(2).Text("wl_output").Uint(4),
		wire.New(registryObject, 0).Uint(3).Text("zxdg_output_manager_v1").Uint(3),
		wire.New(registryObject, 0).Uint(4).Text("zwlr_screencopy_manager_v1").Uint(copier),
		wire.New(3, 0).Uint(0), wire.New(1, 1).Uint(3), // the first sync is done
		wire.New(6, 0).Int(0, 0, 1, 1, 0).Text("m").Text("m").Uint(screens),
		wire.New(6, 1).Uint(1).Int(8, 6, 60000),
		wire.New(7, 3).Text("DP-1"),
		wire.New(8, 0).Uint(0), wire.New(1, 1).Uint(8), // the second
		wire.New(8, 0).Uint(xrgb8888, 8, 6, 32), wire.New(8, 6),
		wire.New(8, 1).Uint(1), wire.New(8, 2).Uint(0, 0, 0),
	} {
		one, err := m.Bytes()
		if err != nil {
			panic(err)
		}
		b = append(b, one...)
	}
	return b
}

// tell says what a compositor says, up to the end of an object's number, at each sync, and the rest at the
// first copy; then it goes, or where it stays, when it is asked for one more.
func tell(conn *net.UnixConn, says []byte, stays bool) {
	defer conn.Close()
	s := wire.NewSocket(conn)
	const copier = 4 // object
	for {
		m, err := s.Receive()
		if err != nil {
			return
		}
		s.DropFiles()
		if m.Op != 0 || m.Object != displayObject && m.Object != copier {
			continue
		}
		if len(says) == 0 {
			return
		}
		part, rest := says, []byte(nil)
		for left := says; ; {
			m, after, ok, err := wire.Cut(left)
			if !ok || err != nil {
				break
			}
			if left = after; m.Object == displayObject && m.Op == displayDeleted {
				part, rest = says[:len(says)-len(left)], left
				break
			}
		}
		if _, err := conn.Write(part); err != nil || len(rest) == 0 && !stays {
			return
		}
		says = rest
	}
}

// Whatever a compositor says, reading its screen gives pictures of a size that there can be, or ends in one
// of the errors that are told to the painter; and where it says nothing more, when our patience ends.
func FuzzEvents(f *testing.F) {
	f.Add(begins(3, 0))
	f.Add(begins(2, 0))
	f.Add(begins(3, 1<<31+5)[:200])
	f.Fuzz(func(t *testing.T, says []byte) {
		ours, theirs := pair(t)
		right, wait := bytes.Equal(says, begins(3, 0)), 30*time.Millisecond
		if right {
			wait = 20 * time.Second
		}
		go tell(theirs, says, right)
		ctx, cancel := context.WithTimeoutCause(t.Context(), wait, capture.ErrNotAnswering)
		defer cancel()
		s, err := meet(ctx, ours)
		if err != nil {
			judge(t, err)
			return
		}
		stream, err := newStream(s, "DP-1", image.Rectangle{})
		if err != nil {
			s.close()
			judge(t, err)
			return
		}
		defer stream.Close()
		for {
			var frame capture.Frame
			changed, err := stream.Grab(ctx, &frame)
			if err != nil && right && stream.shot.size != image.Pt(8, 6) {
				t.Errorf("of what is right came a picture of %v", stream.shot.size)
			}
			if err != nil && stream.Close() == nil {
				judge(t, err)
				return
			}
			if changed && (len(frame.Pix) != 4*frame.Size.X*frame.Size.Y || frame.Size.X < 1 || frame.Size.X > mostSide) {
				t.Fatalf("%v in %d bytes", frame.Size, len(frame.Pix))
			}
			select {
			case <-stream.Changes():
			case <-stream.ended:
			case <-ctx.Done(): // it says no more
				return
			}
		}
	})
}

// judge fails the test where an error is none that is told to the painter.
func judge(t *testing.T, err error) {
	t.Helper()
	for _, known := range []error{capture.ErrSharing, capture.ErrDisconnected, capture.ErrNoPortal, capture.ErrGone, capture.ErrFormat, capture.ErrStopped, capture.ErrNotAnswering} {
		if errors.Is(err, known) {
			return
		}
	}
	t.Errorf("%v is no word", err)
}
