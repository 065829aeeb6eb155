package xconn

import (
	"bytes"
	"context"
	"encoding/binary"
	"errors"
	"image"
	"math"
	"path/filepath"
	"slices"
	"testing"

	"app.tonedesk/capture/xvfbtest"
)

// What two fingers do on a touchpad arrives, over the window and with the numbers of the
// fingers; what they do elsewhere doesn't.
func TestPinches(t *testing.T) {
	t.Setenv("XAUTHORITY", filepath.Join(t.TempDir(), "none"))
	server := xvfbtest.Start(t, xvfbtest.Options{Touchpad: true})
	window := server.Painter().Window(image.Rect(100, 200, 500, 500), 0x808080)
	ctx, cancel := context.WithCancel(context.Background())
	defer cancel()
	heard, ended := make(chan Pinch, 100), make(chan error, 1)
	go func() { ended <- Pinches(ctx, server.Display, window, func(p Pinch) { heard <- p }) }()

	pad := server.Touchpad()
	server.Run("xdotool", "mousemove", "160", "290")
	// The request to be told may come after the first pinches.
	server.WaitFor("a pinch", func() bool {
		pad.Pinch(0, 0, 1.5)
		return len(heard) > 0
	})
	server.Run("xdotool", "mousemove", "20", "20")
	pad.Pinch(0, 0, 3)
	server.Run("xdotool", "mousemove", "160", "290")
	pad.Pinch(2.5, -4, 1.25, 0.5)

	want := []Pinch{
		{Phase: PinchBegins, X: 60, Y: 90, Scale: 1},
		{Phase: PinchGoesOn, X: 60, Y: 90, DX: 2.5, DY: -4, Scale: 1.25},
		{Phase: PinchGoesOn, X: 60, Y: 90, DX: 2.5, DY: -4, Scale: 0.5},
		{Phase: PinchEnds, X: 60, Y: 90, Scale: 0.5},
	}
	var all []Pinch
	for len(all) == 0 || all[len(all)-1] != want[3] {
		p := <-heard
		if all = append(all, p); p.Scale == 3 {
			t.Errorf("heard %+v, which was beside the window", p)
		}
	}
	if last := all[len(all)-len(want):]; !slices.Equal(last, want) {
		t.Errorf("heard %+v, want %+v", last, want)
	}
	cancel()
	if err := <-ended; !errors.Is(err, context.Canceled) {
		t.Errorf("ended with %v", err)
	}
}

// A window that isn't there, and a server that is gone, end it with an error.
func TestPinchesEnd(t *testing.T) {
	server := startServer(t)
	if err := Pinches(bounded(t, patience), server.Display, 0xfff0, func(Pinch) {}); !errors.Is(err, ErrNoPinches) {
		t.Errorf("no such window: %v", err)
	}
	window := server.Painter().Window(image.Rect(0, 0, 9, 9), 0)
	ended := make(chan error, 1)
	go func() { ended <- Pinches(bounded(t, patience), server.Display, window, func(Pinch) {}) }()
	server.Kill()
	if err := <-ended; err == nil || errors.Is(err, context.DeadlineExceeded) {
		t.Errorf("the server is gone: %v", err)
	}
}

// event makes a pinch's event. Source: XI2proto.h, xXIGesturePinchEvent.
func event(major byte, kind uint16, numbers ...float64) []byte {
	b := make([]byte, 100)
	b[0], b[1] = 35, major
	binary.LittleEndian.PutUint32(b[4:], uint32(len(b)-32)/4)
	binary.LittleEndian.PutUint16(b[8:], kind)
	for i, v := range numbers {
		binary.LittleEndian.PutUint32(b[32+4*i:], uint32(int32(math.Round(v*65536))))
	}
	return b
}

func TestParsePinch(t *testing.T) {
	whole := event(131, 28, 7, 8, 100.5, -20, -1.5, 2, 9, 9, 1.25, 30)
	want := Pinch{Phase: PinchGoesOn, X: 100.5, Y: -20, DX: -1.5, DY: 2, Scale: 1.25}
	if p, ok := parsePinch(whole, 131); !ok || p != want {
		t.Errorf("read %+v, %v; want %+v", p, ok, want)
	}
	end := event(131, 29, 0, 0, 3, 4, 0, 0, 0, 0, 0)
	binary.LittleEndian.PutUint32(end[96:], 1) // XIGesturePinchEventCancelled
	if p, ok := parsePinch(end, 131); !ok || p.Phase != PinchIsCalledOff {
		t.Errorf("called off it is read as %+v, %v", p, ok)
	}
	for name, b := range map[string][]byte{
		"another extension": event(130, 28, 0, 0, 0, 0, 0, 0, 0, 0, 1),
		"a swipe":           event(131, 31, 0, 0, 0, 0, 0, 0, 0, 0, 1),
		"no size":           event(131, 28),
		"too short":         whole[:60],
		"nothing":           nil,
	} {
		if p, ok := parsePinch(b, 131); ok {
			t.Errorf("%s: read as %+v", name, p)
		}
	}
}

// Whatever a server sends, reading it ends, and no pinch has a scale that can't be.
func FuzzReadPinches(f *testing.F) {
	f.Add(append(make([]byte, 32), event(131, 28, 1, 2, 3)...))
	f.Add(append(event(131, 27, 0, 0, 5, 5, 0, 0, 0, 0, 1), event(131, 29)...))
	f.Add([]byte{1, 0, 0, 0, 255, 255, 255, 255, 31: 0})
	f.Fuzz(func(t *testing.T, b []byte) {
		err := readPinches(bytes.NewReader(b), 131, func(p Pinch) {
			if p.Phase > PinchIsCalledOff || p.Phase < PinchEnds && !(p.Scale > 0) {
				t.Errorf("heard %+v", p)
			}
		})
		if err == nil {
			t.Error("never ends")
		}
	})
}
