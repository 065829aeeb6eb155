package capture

import (
	"context"
	"fmt"
	"image"
	"image/color"
	"sync"
	"time"
)

// Step is what one Grab of a scripted stream does: it waits for After, then hangs,
// panics, fails, finds nothing new, or gives a picture, whichever of these is set
// first in this order. The zero Step finds nothing new.
type Step struct {
	After   time.Duration // waits this long, the context's end or not
	Hang    bool          // waits for Script.Release, the context's end or not
	Panic   any           // panics with it
	Err     error         // fails with it
	Picture *image.NRGBA  // gives a copy of it
}

// Show is a step that gives img.
func Show(img *image.NRGBA) Step { return Step{Picture: img} }

// Fail is a step that fails with err.
func Fail(err error) Step { return Step{Err: err} }

// Hang is a step that hangs until Script.Release, then finds nothing new.
func Hang() Step { return Step{Hang: true} }

// Same is a step that finds nothing new.
func Same() Step { return Step{} }

// Plain returns a picture of one colour, width by height pixels, for steps.
func Plain(width, height int, c color.NRGBA) *image.NRGBA {
	img := image.NewNRGBA(image.Rect(0, 0, width, height))
	for i := 0; i < len(img.Pix); i += 4 {
		img.Pix[i], img.Pix[i+1], img.Pix[i+2], img.Pix[i+3] = c.R, c.G, c.B, c.A
	}
	return img
}

// Script is a Backend for tests: its streams do, Grab by Grab, what a list of steps
// says, and find nothing new when the list is done. All its streams share the list,
// so that a stream opened anew goes on where the last one stopped; the first Grab of
// a stream always gives a picture (the last one shown) where its step says neither.
// It notes every misuse of a stream, such as two Grabs at once.
type Script struct {
	mu       sync.Mutex
	steps    []Step
	openErrs []error
	last     *image.NRGBA
	release  chan struct{}
	opened   int
	closed   int
	grabs    int
	hanging  int
	faults   []string
}

// NewScript returns a script that plays steps on a desktop of 640 by 480 pixels.
func NewScript(steps ...Step) *Script {
	return &Script{
		steps:   steps,
		release: make(chan struct{}),
	}
}

// Play adds steps at the end.
func (s *Script) Play(steps ...Step) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.steps = append(s.steps, steps...)
}

// FailOpen makes the next Opens fail, one with each error; nil lets one pass.
func (s *Script) FailOpen(errs ...error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.openErrs = append(s.openErrs, errs...)
}

// Release ends every Hang that is under way.
func (s *Script) Release() {
	s.mu.Lock()
	defer s.mu.Unlock()
	close(s.release)
	s.release = make(chan struct{})
}

// Counts is what a script has seen so far.
type Counts struct {
	Opened, Closed int // streams
	Grabs          int // begun
	Hanging        int // Grabs that hang now
}

// Counts returns what has happened so far.
func (s *Script) Counts() Counts {
	s.mu.Lock()
	defer s.mu.Unlock()
	return Counts{s.opened, s.closed, s.grabs, s.hanging}
}

// Faults returns what the user of the streams did wrong, in words.
func (s *Script) Faults() []string {
	s.mu.Lock()
	defer s.mu.Unlock()
	return append([]string(nil), s.faults...)
}

func (s *Script) fault(format string, args ...any) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.faults = append(s.faults, fmt.Sprintf(format, args...))
}

// Open implements Backend.
func (s *Script) Open(ctx context.Context, region image.Rectangle) (Stream, error) {
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	region, err := clip(region, image.Rect(0, 0, 640, 480))
	if err != nil {
		return nil, err
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	if len(s.openErrs) > 0 {
		err := s.openErrs[0]
		s.openErrs = s.openErrs[1:]
		if err != nil {
			return nil, err
		}
	}
	s.opened++
	return &scriptStream{script: s, region: region}, nil
}

// Close implements Backend.
func (s *Script) Close() error { return nil }
