package portal

import (
	"context"
	"errors"
	"fmt"
	"sync"

	"github.com/godbus/dbus/v5"

	"app.tonedesk/capture"
)

// Shortcuts are keys of the whole desktop, as long as they are not closed.
type Shortcuts struct {
	hearer ShortcutHearer

	mu   sync.Mutex
	bus  *bus            // nil before it is there
	path dbus.ObjectPath // of the session; "" before it is there
	done bool            // closed or ended
}

// AskShortcuts has the desktop hand out keys, which may ask the painter. app is the name of our entry
// in the desktop's menu, own our own window's number, 0 for none. keys says by ID how the desktop calls
// the key that it chose, which need not be the one we would like; what it gave no key is missing. The
// error wraps capture.ErrGivenUp where the painter said no or ctx ended, ErrUnanswered, ErrNoPortal,
// ErrNotAnswering, ErrStopped or ErrSharing.
func AskShortcuts(ctx context.Context, env func(string) string, app string, own uint64, wished []Shortcut, h ShortcutHearer) (s *Shortcuts, keys map[string]string, err error) {
	return askShortcuts(ctx, addressOf(env), usual, shortcutWish{app, own, wished}, h)
}

// shortcutWish is what is asked for.
type shortcutWish struct {
	app    string
	own    uint64
	wished []Shortcut
}

func askShortcuts(ctx context.Context, address string, w waits, wish shortcutWish, h ShortcutHearer) (*Shortcuts, map[string]string, error) {
	s := &Shortcuts{hearer: h}
	b, err := connect(ctx, address, use{of: shortcuts, waits: w, ended: s.endedBy, heard: s.heard})
	if err != nil {
		return nil, nil, givenUp(ctx, err)
	}
	s.mu.Lock()
	s.bus = b
	s.mu.Unlock()
	keys, err := s.begin(ctx, b, wish)
	if err == nil && s.isDone() { // ended meanwhile, which nobody was told of
		err = fmt.Errorf("keys of the desktop: %w", capture.ErrStopped)
	}
	if err != nil {
		s.Close()
		b.conn.Close()
		return nil, nil, givenUp(ctx, err)
	}
	return s, keys, nil
}

// givenUp says of an error that it came since ctx ended, if it did.
func givenUp(ctx context.Context, err error) error {
	if ctx.Err() != nil && !errors.Is(err, capture.ErrGivenUp) {
		return fmt.Errorf("%w: %w", capture.ErrGivenUp, err)
	}
	return err
}

// begin opens a session and has it filled.
func (s *Shortcuts) begin(ctx context.Context, b *bus, w shortcutWish) (map[string]string, error) {
	// Newer desktops hand keys to programs only that they know by name; older ones don't know the method.
	quick, cancel := context.WithTimeoutCause(ctx, b.waits.call, capture.ErrNotAnswering)
	defer cancel()
	_ = b.conn.Object(service, object).CallWithContext(quick, registry+".Register", 0, w.app, map[string]dbus.Variant{}).Err
	results, err := b.request(ctx, b.waits.call, capture.ErrNotAnswering, "CreateSession", map[string]any{"session_handle_token": token()})
	if err != nil {
		return nil, err
	}
	path, err := handle(results["session_handle"])
	if err != nil {
		return nil, err
	}
	s.mu.Lock()
	s.path = path
	s.mu.Unlock()
	list := make([]bound, len(w.wished))
	for i, k := range w.wished {
		list[i] = bound{k.ID, map[string]dbus.Variant{"description": dbus.MakeVariant(k.Does), "preferred_trigger": dbus.MakeVariant(k.Trigger)}}
	}
	results, err = b.request(ctx, b.waits.people, capture.ErrUnanswered, "BindShortcuts", nil, path, list, parent(w.own))
	if err != nil {
		return nil, err
	}
	return keysOf(results["shortcuts"].Value())
}

// bound is a key as the portal writes it.
type bound struct {
	ID    string
	About map[string]dbus.Variant
}

// keysOf reads the portal's list of keys that have been handed out.
func keysOf(list any) (map[string]string, error) {
	keys := map[string]string{}
	if list == nil {
		return keys, nil
	}
	var all []bound
	if err := dbus.Store([]any{list}, &all); err != nil {
		return nil, fmt.Errorf("%w: the portal lists keys in another way: %v", capture.ErrSharing, err)
	}
	for _, b := range all {
		if words, _ := b.About["trigger_description"].Value().(string); words != "" {
			keys[b.ID] = words
		}
	}
	return keys, nil
}

// heard takes the portal's signals about keys; those of other sessions are none of ours.
func (s *Shortcuts) heard(signal *dbus.Signal) {
	s.mu.Lock()
	path, done := s.path, s.done
	s.mu.Unlock()
	if len(signal.Body) < 2 || path == "" || signal.Body[0] != path || done {
		return
	}
	switch signal.Name {
	case shortcuts + ".Activated":
		if id, ok := signal.Body[1].(string); ok {
			s.hearer.Pressed(id)
		}
	case shortcuts + ".ShortcutsChanged":
		if keys, err := keysOf(signal.Body[1]); err == nil {
			s.hearer.Changed(keys)
		}
	}
}

// endedBy is told by the bus that a session has ended, or all have.
func (s *Shortcuts) endedBy(path dbus.ObjectPath, why error) {
	s.mu.Lock()
	ours := (path == "" || path == s.path) && !s.done
	s.done = s.done || ours
	b := s.bus
	s.mu.Unlock()
	if ours && b != nil {
		s.hearer.Ended(why)
		b.conn.Close()
	}
}

// Close gives the keys back. Any goroutine may call it, also twice.
func (s *Shortcuts) Close() {
	s.mu.Lock()
	b, path, was := s.bus, s.path, s.done
	s.done = true
	s.mu.Unlock()
	if !was && b != nil {
		b.close(path)
	}
}

func (s *Shortcuts) isDone() bool {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.done
}
