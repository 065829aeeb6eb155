package wayland

import (
	"cmp"
	"context"
	"fmt"
	"image"
	"net"
	"path/filepath"
	"slices"
	"time"

	"app.tonedesk/capture"
	"app.tonedesk/capture/wayland/wire"
)

// Compositor is the way to a session's compositor, which is connected to for each use. Its methods may be
// called from any goroutine.
type Compositor struct {
	Socket string        // its path
	Wait   time.Duration // how long it may take to answer
}

// usual is how long a compositor may take to answer. Our choice.
const usual = 5 * time.Second

// Of returns the way to the compositor that an environment names. Source: WL, wl_display_connect.
func Of(env func(string) string) Compositor {
	socket := cmp.Or(env("WAYLAND_DISPLAY"), "wayland-0")
	if !filepath.IsAbs(socket) {
		socket = filepath.Join(cmp.Or(env("XDG_RUNTIME_DIR"), "/nonexistent"), socket)
	}
	return Compositor{socket, usual}
}

// Screens lists the screens that can be read, from left to right. The error wraps capture.ErrNoPortal
// where the compositor lets no program read them, capture.ErrNoDisplay where there is none,
// capture.ErrNotAnswering or capture.ErrDisconnected.
func (c Compositor) Screens(ctx context.Context) ([]capture.Screen, error) {
	s, err := c.connect(ctx)
	if err != nil {
		return nil, fmt.Errorf("list screens: %w", err)
	}
	defer s.close()
	s.mu.Lock()
	defer s.mu.Unlock()
	var screens []capture.Screen
	for _, o := range s.sorted() {
		screens = append(screens, capture.Screen{Name: o.Name, Size: o.Size})
	}
	return screens, nil
}

// Open begins to read the screen of a name, or a part of it: a rectangle from its top left, read where it
// meets the screen; the zero rectangle is all. The error wraps those of Screens, capture.ErrGone where
// there is no screen of the name, or capture.ErrEmpty.
func (c Compositor) Open(ctx context.Context, name string, part image.Rectangle) (*Stream, error) {
	if part.Empty() && part != (image.Rectangle{}) {
		return nil, fmt.Errorf("read part %v of a screen: %w", part, capture.ErrEmpty)
	}
	s, err := c.connect(ctx)
	if err != nil {
		return nil, fmt.Errorf("read screen %q: %w", name, err)
	}
	stream, err := newStream(s, name, part)
	if err != nil {
		s.close()
		return nil, fmt.Errorf("read screen %q: %w", name, err)
	}
	return stream, nil
}

// session is a connection, and what of the compositor's offer is used.
type session struct {
	*display
	shm     uint32             // object
	outputs map[uint32]*output // by their numbers in the offer
	source  uint32             // object of EXT that makes a source of an output; 0: not offered
	copier  uint32             // object that copies: EXT's where there is a source, else WLR's; 0: neither
}

// Interfaces, and the versions of them that are used.
var (
	shmOffer    = global{"wl_shm", 1}
	outputOffer = global{"wl_output", 1}
	placeOffer  = global{"zxdg_output_manager_v1", 2}
	wlrOffer    = global{"zwlr_screencopy_manager_v1", 3}
	sourceOffer = global{"ext_output_image_capture_source_manager_v1", 1}
	extOffer    = global{"ext_image_copy_capture_manager_v1", 1}
)

// connect connects to the compositor, and learns what it offers.
func (c Compositor) connect(ctx context.Context) (*session, error) {
	ctx, cancel := context.WithTimeoutCause(ctx, c.Wait, capture.ErrNotAnswering)
	defer cancel()
	conn, err := (&net.Dialer{}).DialContext(ctx, "unix", c.Socket)
	if err != nil {
		return nil, fmt.Errorf("%w: the compositor: %v", capture.ErrNoDisplay, err)
	}
	return meet(ctx, conn.(*net.UnixConn))
}

// meet learns what a compositor offers, until ctx ends.
func meet(ctx context.Context, conn *net.UnixConn) (*session, error) {
	s := &session{display: newDisplay(conn), outputs: map[uint32]*output{}}
	s.mu.Lock()
	s.gone = func(number uint32) { delete(s.outputs, number) }
	s.mu.Unlock()
	stop := context.AfterFunc(ctx, func() {
		s.mu.Lock()
		defer s.mu.Unlock()
		s.end(context.Cause(ctx))
	})
	defer stop()
	err := s.sync()
	if err == nil {
		if err = s.take(); err == nil {
			err = s.sync()
		}
	}
	if err != nil {
		s.close()
		return nil, err
	}
	return s, nil
}

// take takes what is used of the offer.
func (s *session) take() error {
	s.mu.Lock()
	defer s.mu.Unlock()
	take := func(g global) (object uint32) {
		if number, ok := s.find(g.of, g.version); ok {
			object = s.bind(number, g, nil)
		}
		return object
	}
	s.shm = take(shmOffer)
	s.copier = 0
	if s.source = take(sourceOffer); s.source != 0 {
		s.copier = take(extOffer)
	}
	if s.copier == 0 {
		s.source = 0
		s.copier = take(wlrOffer)
	}
	if s.shm == 0 || s.copier == 0 {
		return fmt.Errorf("%w, and the compositor lets no program read its screens", capture.ErrNoPortal)
	}
	places := take(placeOffer)
	if places == 0 {
		return fmt.Errorf("%w, and the compositor doesn't name its screens", capture.ErrNoPortal)
	}
	for number, g := range s.globals {
		if g.of == outputOffer.of {
			o := &output{}
			o.object = s.bind(number, outputOffer, o.hear)
			s.send(wire.New(places, placeOf).Uint(s.object(o.hearPlace), o.object))
			s.outputs[number] = o
		}
	}
	return nil
}

// sorted lists the outputs from left to right.
func (s *session) sorted() []*output {
	var list []*output
	for _, o := range s.outputs {
		if o.Size = o.upright(); o.Name != "" && o.Size != (image.Point{}) { // else it has never been on
			list = append(list, o)
		}
	}
	slices.SortFunc(list, func(a, b *output) int {
		return cmp.Or(cmp.Compare(a.at.X, b.at.X), cmp.Compare(a.at.Y, b.at.Y), cmp.Compare(a.object, b.object))
	})
	return list
}

// output is a screen, as the compositor describes it.
type output struct {
	capture.Screen
	object uint32
	at     image.Point // of its top left, in the compositor's own measure
	wide   image.Point // its size in that measure
	mode   image.Point // pixels of the device itself
	turn   uint32      // see turned
}

// Requests and events about outputs. Source: WL; XDG.
const (
	outputGeometry, outputMode = 0, 1
	currentMode                = 1
	placeOf                    = 1
	placeAt, placeSize         = 0, 1
	placeName                  = 3
)

// hear takes its events.
func (o *output) hear(op uint16, a *wire.Arguments) {
	switch op {
	case outputGeometry:
		for range 5 { // a place, which some compositors leave out; millimetres; how the points of colour lie
			a.Int()
		}
		a.Text() // who made it
		a.Text()
		o.turn = a.Uint()
	case outputMode:
		if flags, size := a.Uint(), image.Pt(int(a.Int()), int(a.Int())); flags&currentMode != 0 {
			o.mode = size
		}
	}
}

// hearPlace takes where it is, how large, and what it is called.
func (o *output) hearPlace(op uint16, a *wire.Arguments) {
	switch op {
	case placeAt:
		o.at = image.Pt(int(a.Int()), int(a.Int()))
	case placeSize:
		o.wide = image.Pt(int(a.Int()), int(a.Int()))
	case placeName:
		o.Name = a.Text()
	}
}

// upright is its size as the painter sees it.
func (o *output) upright() image.Point {
	return turned{layout: layout{size: o.mode}, turn: o.turn}.Size()
}
