package displays

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"image"
	"io/fs"
	"sync"
	"time"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/profile"
	"app.tonedesk/capture"
	"app.tonedesk/capture/monitors"
	"app.tonedesk/capture/plainfile"
	"app.tonedesk/capture/xconn"
	"app.tonedesk/gui/settings"
)

// State is in which colours what is watched on the screen is read.
type State struct {
	Monitor string        // that it lies on, by its name; "" where that isn't known
	Space   *colour.Space // nil: sRGB
	Err     error         // why what is chosen can't be had: sRGB is taken in its place
}

// System is what is asked of the system. Both may be called from any goroutine.
type System struct {
	List    func(context.Context) ([]monitors.Monitor, error)
	Profile func(context.Context, monitors.Monitor) ([]byte, error)
}

// Colours are the displays' colours. Its methods may be called from any goroutine.
type Colours struct {
	System
	// Changed is told when the state is another; anew: what is watched is to be opened anew, since its
	// frames are of another space. It runs on Run's goroutine, or on one that reads a frame.
	Changed func(now State, anew bool)

	wake chan struct{} // holds at most one: the settings have changed

	mu     sync.Mutex
	chosen settings.Settings
	where  func() capture.Place // what is watched lies there; nil: it isn't on the screen
	now    State
	read   map[string]known // profiles, by the monitor
	listed []monitors.Monitor
	until  time.Time // the list counts until then
}

// known is a profile that was read: of the same bytes the space is the same, with its tables.
type known struct {
	data  []byte
	space *colour.Space
	err   error
}

// New returns the colours, all sRGB.
func New(s System) *Colours {
	return &Colours{System: s, wake: make(chan struct{}, 1), read: map[string]known{}}
}

// lookEvery is how often is looked whether what is watched lies on another monitor, or that has another
// profile. askMost is how long the system may take. Our choice.
const lookEvery, askMost = 2 * time.Second, time.Second

// Choose takes over what is chosen.
func (c *Colours) Choose(s settings.Settings) {
	c.mu.Lock()
	c.chosen = s
	c.mu.Unlock()
	c.again()
}

// Now returns the state of what is watched on the screen.
func (c *Colours) Now() State {
	c.mu.Lock()
	defer c.mu.Unlock()
	return c.now
}

// Run looks now and then, until ctx ends.
func (c *Colours) Run(ctx context.Context) {
	tick := time.NewTicker(lookEvery)
	defer tick.Stop()
	for {
		select {
		case <-ctx.Done():
			return
		case <-c.wake:
			c.look(ctx)
		case <-tick.C:
			if !c.plain() {
				c.look(ctx)
			}
		}
	}
}

// plain reports whether every display is taken to show sRGB.
func (c *Colours) plain() bool {
	c.mu.Lock()
	defer c.mu.Unlock()
	return len(c.chosen.ShownIn) == 0 && c.now.Space == nil && c.now.Err == nil
}

// look sees whether the state is another.
func (c *Colours) look(ctx context.Context) {
	c.mu.Lock()
	where := c.where
	c.mu.Unlock()
	if where == nil {
		return
	}
	if next := c.find(ctx, where()); !errors.Is(next.Err, errUnsure) {
		c.arrive(next, true)
	}
}

// errUnsure: the display doesn't answer now. What was known stays.
var errUnsure = errors.New("the display's colours can't be asked for now")

// arrive takes a state over.
func (c *Colours) arrive(next State, tell bool) {
	c.mu.Lock()
	was := c.now
	c.now = next
	c.mu.Unlock()
	same := was.Space == next.Space && was.Monitor == next.Monitor && fmt.Sprint(was.Err) == fmt.Sprint(next.Err)
	if !same && c.Changed != nil {
		c.Changed(next, tell && was.Space != next.Space)
	}
}

// At returns the space of the monitor that a place of the screen lies on; nil for sRGB.
func (c *Colours) At(ctx context.Context, p image.Point) *colour.Space {
	if c.plain() {
		return nil
	}
	return c.find(ctx, capture.Place{Part: image.Rectangle{Min: p, Max: p.Add(image.Pt(1, 1))}}).Space
}

// find returns the colours of what lies somewhere on the desktop.
func (c *Colours) find(ctx context.Context, at capture.Place) (s State) {
	ctx, cancel := context.WithTimeout(ctx, askMost)
	defer cancel()
	list, err := c.monitors(ctx)
	if err != nil {
		return State{Err: err}
	}
	if !at.Whole.Empty() && !monitors.Shows(list, at.Whole) {
		at.Part = image.Rectangle{} // what is shared is measured otherwise than the monitors: it isn't known where that lies
	}
	m, ok := monitors.Most(list, at.Part)
	if ok {
		s.Monitor = m.Name
	}
	c.mu.Lock()
	chosen := c.chosen.ColoursOf(s.Monitor)
	c.mu.Unlock()
	if space, ok := chosen.Space(); ok {
		s.Space = space
		return s
	}
	data, err := c.profileOf(ctx, chosen, m)
	if err != nil {
		s.Err = err
		return s
	}
	s.Space, s.Err = c.spaceOf(s.Monitor, data)
	return s
}

// monitors lists them, anew after a while; none where there is no way to know them. The error wraps
// errUnsure.
func (c *Colours) monitors(ctx context.Context) ([]monitors.Monitor, error) {
	c.mu.Lock()
	list, until := c.listed, c.until
	c.mu.Unlock()
	if time.Now().Before(until) {
		return list, nil
	}
	list, err := c.List(ctx)
	if err != nil && !errors.Is(err, capture.ErrUnsupported) && !errors.Is(err, xconn.ErrNoDisplay) {
		return nil, fmt.Errorf("%w: %w", errUnsure, err)
	}
	c.mu.Lock()
	c.listed, c.until = list, time.Now().Add(lookEvery/2)
	c.mu.Unlock()
	return list, nil
}

// profileOf returns the bytes of the profile that was chosen. The error wraps monitors.ErrNone where
// the desktop keeps none, or errUnsure, or is one of plainfile.
func (c *Colours) profileOf(ctx context.Context, chosen settings.Colours, m monitors.Monitor) ([]byte, error) {
	if chosen.In == settings.ColoursOwn {
		if m.Name == "" {
			return nil, monitors.ErrNone
		}
		data, err := c.Profile(ctx, m)
		file := new(fs.PathError)
		if err != nil && !errors.Is(err, monitors.ErrNone) && !errors.Is(err, plainfile.ErrLarge) && !errors.As(err, &file) {
			err = fmt.Errorf("%w: %w", errUnsure, err)
		}
		return data, tooLarge(err)
	}
	data, err := plainfile.Read(chosen.File, monitors.MostProfile)
	return data, tooLarge(err)
}

// tooLarge says of a large file that it is a large profile.
func tooLarge(err error) error {
	if errors.Is(err, plainfile.ErrLarge) {
		return fmt.Errorf("%w: %w", profile.ErrLarge, err)
	}
	return err
}

// spaceOf reads a profile, where it isn't the one read before for that monitor.
func (c *Colours) spaceOf(monitor string, data []byte) (*colour.Space, error) {
	c.mu.Lock()
	last, ok := c.read[monitor]
	c.mu.Unlock()
	if ok && bytes.Equal(last.data, data) {
		return last.space, last.err
	}
	last = known{data: data}
	if last.space, last.err = profile.Read(data); last.err == nil {
		last.space = last.space.Known()
	}
	c.mu.Lock()
	c.read[monitor] = last
	c.mu.Unlock()
	return last.space, last.err
}

// Of returns a stream whose frames have the space of where they are read, which where returns in
// desktop pixels once there is a frame: nothing where that isn't known. Of what is shared it has to
// return the whole too, by which is seen whether the desktop measures that as it does its monitors.
func (c *Colours) Of(s capture.Stream, where func() capture.Place) capture.Stream {
	return &stream{Stream: s, colours: c, where: where}
}

// first returns the space of what is watched from now on.
func (c *Colours) first(ctx context.Context, where func() capture.Place) *colour.Space {
	c.mu.Lock()
	c.where = where
	c.mu.Unlock()
	if c.plain() { // which monitor it is can wait: the first picture needn't
		c.again()
		return nil
	}
	next := c.find(ctx, where())
	if errors.Is(next.Err, errUnsure) { // then what comes next is to find out, as another space
		next.Err = nil
		defer c.again()
	}
	c.arrive(next, false)
	return next.Space
}

// again has Run look soon.
func (c *Colours) again() {
	select {
	case c.wake <- struct{}{}:
	default: // it is to wake up already
	}
}

// Elsewhere says that what is watched now is not on the screen.
func (c *Colours) Elsewhere() {
	c.mu.Lock()
	defer c.mu.Unlock()
	c.where, c.now = nil, State{}
}

// stream is a stream of one space.
type stream struct {
	capture.Stream
	colours *Colours
	where   func() capture.Place
	known   bool
	space   *colour.Space
}

// Grab implements capture.Stream.
func (s *stream) Grab(ctx context.Context, f *capture.Frame) (changed bool, err error) {
	changed, err = s.Stream.Grab(ctx, f)
	if err != nil || !changed {
		return changed, err
	}
	if !s.known { // now it is known where a window lies
		s.known = true
		s.space = s.colours.first(ctx, s.where)
	}
	f.Space = nil
	if s.space != nil {
		f.Space = s.space
	}
	return true, nil
}

// Changes implements capture.Notifier, as far as the stream does.
func (s *stream) Changes() <-chan struct{} {
	if n, ok := s.Stream.(capture.Notifier); ok {
		return n.Changes()
	}
	return nil
}
