package watching

import (
	"context"
	"errors"
	"image"
	"testing"
	"testing/synctest"
	"time"

	"app.tonedesk/capture"
)

// movingStream is a desktop on which something moves for a while.
type movingStream struct {
	capture.Stream
	still time.Time // from then on nothing changes
	err   error
	grabs int
}

func (s *movingStream) Grab(context.Context, *capture.Frame) (bool, error) {
	s.grabs++
	return s.grabs == 1 || time.Now().Before(s.still), s.err
}

// The picture of the desktop is taken once our own window is gone from it and it stands
// still; not at once, and not never.
func TestSettle(t *testing.T) {
	unplugged := errors.New("unplugged")
	for _, tt := range []struct {
		name          string
		gone, still   time.Duration // after the beginning
		err           error
		least, latest time.Duration
	}{
		{"nothing moves", 0, 0, nil, settleEvery, settleEvery},
		{"our window goes late", 300 * time.Millisecond, 0, nil, 300 * time.Millisecond, 300*time.Millisecond + settleEvery},
		{"what lay beneath is painted late", 0, 220 * time.Millisecond, nil, 220 * time.Millisecond, 220*time.Millisecond + settleEvery},
		{"something always moves", 0, time.Hour, nil, settleMost, settleMost},
		{"our window never goes", time.Hour, 0, nil, settleMost, settleMost},
		{"it can't be read", 0, 0, unplugged, 0, 0},
	} {
		t.Run(tt.name, func(t *testing.T) {
			synctest.Test(t, func(t *testing.T) {
				begun := time.Now()
				s := &movingStream{still: begun.Add(tt.still), err: tt.err}
				var f capture.Frame
				err := settle(context.Background(), s, &f, func() bool { return time.Since(begun) >= tt.gone })
				if took := time.Since(begun); !errors.Is(err, tt.err) || took < tt.least || took > tt.latest {
					t.Errorf("%v after %v, want %v after %v to %v", err, took, tt.err, tt.least, tt.latest)
				}
			})
		})
	}
	synctest.Test(t, func(t *testing.T) {
		ctx, cancel := context.WithTimeout(context.Background(), settleEvery/2)
		defer cancel()
		s := &movingStream{still: time.Now().Add(time.Hour)}
		if err := settle(ctx, s, new(capture.Frame), func() bool { return true }); !errors.Is(err, context.DeadlineExceeded) {
			t.Errorf("given up, it returns %v", err)
		}
	})
}

// A broken connection is let go of, and made anew when the screen is needed again.
func TestScreenConnectsAnew(t *testing.T) {
	picks := 0
	s := screen{pick: func() (capture.Backend, error) { picks++; return brokenBackend{}, nil }}
	for range 2 {
		if _, err := s.open(context.Background(), image.Rectangle{}); !errors.Is(err, capture.ErrDisconnected) {
			t.Fatalf("opens with %v", err)
		}
	}
	if picks != 2 {
		t.Errorf("connected %d times, want 2", picks)
	}
}

type brokenBackend struct{ capture.Backend }

func (brokenBackend) Open(context.Context, image.Rectangle) (capture.Stream, error) {
	return nil, capture.ErrDisconnected
}

func (brokenBackend) Close() error { return nil }
