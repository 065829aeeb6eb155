package portal

import (
	"context"
	"errors"
	"fmt"
	"image"
	"strings"

	"app.tonedesk/capture"
	"app.tonedesk/capture/wayland"
)

// ofScreen begins what is kept, in place of a portal's token, where a screen of the compositor's was shared;
// its name follows. No portal's token is like that: common practice is a UUID, no source.
const ofScreen = "screen of the compositor: "

// screens are those that the compositor shares with every program.
type screens struct {
	compositor wayland.Compositor
	names      map[uint64]string // by the numbers that were given to them
}

// askCompositor shares a screen that the compositor shares with every program, where there is no portal that
// asks; why says how the portal failed, and is the error where there is no such screen either.
func (b *backend) askCompositor(ctx context.Context, why error) (uint64, error) {
	if !errors.Is(why, capture.ErrNoPortal) && !errors.Is(why, capture.ErrNoLibrary) {
		return 0, why
	}
	list, err := b.screens.compositor.Screens(ctx)
	if err != nil || len(list) == 0 {
		return 0, fmt.Errorf("%w; %d screens of the compositor: %v", why, len(list), err)
	}
	b.mu.Lock()
	defer b.mu.Unlock()
	if b.screens.names == nil {
		b.screens.names = map[uint64]string{}
	}
	for i := range list {
		b.numbers++
		list[i].Number, b.screens.names[b.numbers] = b.numbers, list[i].Name
	}
	if len(list) > 1 {
		return 0, &capture.Several{Screens: list}
	}
	return list[0].Number, nil
}

// screen returns the name of the screen that is shared under a number, or was before where that is 0; ""
// for what the portal shares. b.mu is held.
func (b *backend) screen(number uint64) string {
	if number != 0 {
		return b.screens.names[number]
	}
	name, ok := strings.CutPrefix(b.tokens.Load(), ofScreen)
	if !ok {
		return ""
	}
	return name
}

// shareScreen begins to read a screen of the compositor's, which is kept for the next time.
func (b *backend) shareScreen(ctx context.Context, name string, part image.Rectangle) (capture.Stream, error) {
	if token := ofScreen + name; b.tokens.Load() != token {
		b.tokens.Keep(token)
	}
	s, err := b.screens.compositor.Open(ctx, name, part)
	if err != nil {
		return nil, err
	}
	return screenStream{s, b}, nil
}

// screenStream is a stream that ends with its backend.
type screenStream struct {
	*wayland.Stream
	b *backend
}

// Grab implements capture.Stream.
func (s screenStream) Grab(ctx context.Context, f *capture.Frame) (bool, error) {
	s.b.mu.Lock()
	closed := s.b.closed
	s.b.mu.Unlock()
	if closed {
		return false, capture.ErrClosed
	}
	return s.Stream.Grab(ctx, f)
}
