package wording

import (
	"context"
	"errors"
	"fmt"
	"testing"

	"app.tonedesk/capture"
)

func TestSayNotFollowed(t *testing.T) {
	for _, tt := range []struct {
		err         error
		short, long string
	}{
		{capture.ErrNoWindow, "Window closed", "Can't follow it: the window is closed; open it again, and following goes on by itself, or choose another."},
		{capture.ErrMinimised, "Window minimised", "Can't follow it: it is minimised, or on another workspace, where its program paints nothing; bring it back, and following goes on by itself."},
		{capture.ErrPart, "Window too small", "Can't follow it: it has become too small for the part that is watched; make it larger, or watch all of it with E."},
		{capture.ErrFormat, "Window can't be read", "Can't follow it: the window has a pixel format that would give wrong colours; choose a region of the screen instead."},
		{capture.ErrUnsupported, "Window can't be read", "Can't follow it: windows can't be followed on this system; choose a region of the screen instead."},
		{capture.ErrWayland, "Window can't be read", "Can't follow it: this Wayland session lets no program read windows; log in with an X11 session, or open a picture file."},
		{context.DeadlineExceeded, "Screen does not answer", "Can't follow it: it took too long; try again."},
		{capture.ErrNotAnswering, "Screen does not answer", "Can't follow it: the display does not answer; wait for it; watching goes on by itself when it answers."},
		{errors.New("odd"), "Window can't be read", `Can't follow it: the reason given is "grab window: odd"; try again.`},
	} {
		err := fmt.Errorf("grab window: %w", tt.err)
		if got := SayNotFollowed(err); got != tt.short {
			t.Errorf("%v: %q, want %q", tt.err, got, tt.short)
		}
		if got := ExplainFollowing("follow it", err); got != tt.long {
			t.Errorf("%v: %s\nwant %s", tt.err, got, tt.long)
		}
	}
}

func TestSayWindow(t *testing.T) {
	for _, tt := range [][3]string{{"Heron", "Painter", "Heron"}, {"", "Painter", "Painter"}, {"", "", "Window"}} {
		if got := SayWindow(tt[0], tt[1]); got != tt[2] {
			t.Errorf("%q of %q is %q, want %q", tt[0], tt[1], got, tt[2])
		}
	}
}
