package capture

import (
	"context"
	"fmt"
	"image"
	"slices"

	"github.com/jezek/xgb/xproto"

	"app.tonedesk/capture/xconn"
)

// Windows implements Follower.
func (b *x11Backend) Windows(ctx context.Context, own ...uint64) (windows []Window, err error) {
	err = b.onWindows(ctx, func(s *x11Session) error {
		found, err := s.windows(own)
		windows = found
		return err
	})
	if err != nil {
		return nil, fmt.Errorf("list windows: %w", err) // windows may still be written to
	}
	return windows, nil
}

// WindowAt implements Follower.
func (b *x11Backend) WindowAt(ctx context.Context, p image.Point, own ...uint64) (Window, bool, error) {
	var found *Window
	err := b.onWindows(ctx, func(s *x11Session) (err error) {
		found, err = s.windowAt(p, own, true)
		return err
	})
	if err != nil {
		return Window{}, false, fmt.Errorf("window at %v: %w", p, err)
	}
	if found == nil {
		return Window{}, false, nil
	}
	return *found, true, nil
}

// Follow implements Follower.
func (b *x11Backend) Follow(ctx context.Context, w Window, part image.Rectangle, own ...uint64) (WindowStream, error) {
	if part.Empty() && part != (image.Rectangle{}) {
		return nil, fmt.Errorf("follow window %q: part %v: %w", w.Title, part, ErrEmpty)
	}
	var stream *x11WindowStream
	err := b.onWindows(ctx, func(s *x11Session) error {
		if err := s.watchWindows(); err != nil {
			return err
		}
		source := newX11Window(s, w, part, own)
		stream = &x11WindowStream{newX11Stream(b, s, source, source.tokens), source}
		return nil
	})
	if err != nil {
		return nil, fmt.Errorf("follow window %q: %w", w.Title, err) // stream may still be written to
	}
	return stream, nil
}

// onWindows runs f on the backend's line, on a server that gives windows.
func (b *x11Backend) onWindows(ctx context.Context, f func(*x11Session) error) error {
	return b.do(ctx, &b.line, func() error {
		s, err := b.connect(ctx)
		if err != nil {
			return err
		}
		if !s.follows {
			return fmt.Errorf("%w: the display has no Composite extension of version 0.2", ErrUnsupported)
		}
		return f(s)
	})
}

// watchWindows has the server tell of windows that come, and of the manager's list of them.
func (s *x11Session) watchWindows() error {
	const mask = xproto.EventMaskStructureNotify | xproto.EventMaskSubstructureNotify | xproto.EventMaskPropertyChange
	return xproto.ChangeWindowAttributesChecked(s.conn.X, s.conn.Screen.Root, xproto.CwEventMask, []uint32{mask}).Check()
}

// windows returns what can be followed, the topmost first.
func (s *x11Session) windows(own []uint64) ([]Window, error) {
	ids, managed, err := s.candidates()
	if err != nil {
		return nil, err
	}
	cookies := make([]x11WindowCookie, len(ids))
	var windows []Window
	for from := 0; from < len(ids); from += 16 { // some at a time: the client library counts open questions
		batch := ids[from:min(from+16, len(ids))]
		for i, id := range batch {
			cookies[i] = s.describe(id)
		}
		for i := range batch {
			about, err := s.about(cookies[i])
			if err == nil && about.listed(managed) && !about.of(own) {
				windows = append(windows, about.Window)
			}
		}
	}
	if !s.conn.Alive() {
		return nil, xconn.ErrBroken
	}
	return windows, nil
}

// candidates returns windows, the topmost first: those that the window manager has in its care,
// or, where none is at work, the root window's children.
func (s *x11Session) candidates() (ids []xproto.Window, managed bool, err error) {
	root, a := s.conn.Screen.Root, &s.atoms
	check, stacking, clients := s.property(root, a.check), s.property(root, a.stacking), s.property(root, a.clients)
	manager := first(numbers(check))
	list := numbers(stacking)
	if other := numbers(clients); len(other) != len(list) { // no order, or an old one
		list = other
	}
	if manager != 0 && first(numbers(s.property(xproto.Window(manager), a.check))) == manager { // it lives (EWMH, _NET_SUPPORTING_WM_CHECK)
		for _, id := range slices.Backward(list) {
			ids = append(ids, xproto.Window(id))
		}
		return ids, true, nil
	}
	tree, err := xproto.QueryTree(s.conn.X, root).Reply()
	if err != nil {
		return nil, false, fmt.Errorf("windows of the display: %w", err)
	}
	slices.Reverse(tree.Children)
	return tree.Children, false, nil
}

// listed says whether a painter would call it a window. Where nobody manages windows, those
// without a name are parts of others.
func (a *x11About) listed(managed bool) bool {
	if !a.picture || a.override || a.furniture || a.ours {
		return false
	}
	return managed || a.viewable && a.Title != ""
}

// of says whether it is one of own.
func (a *x11About) of(own []uint64) bool { return slices.Contains(own, a.ID) }

// windowAt returns the topmost window that shows at p, or nil; through ours if that is wished.
func (s *x11Session) windowAt(p image.Point, own []uint64, through bool) (*Window, error) {
	windows, err := s.windows(own)
	if err != nil {
		return nil, err
	}
	inside := map[xproto.Window]*Window{} // by the child of the root that holds it
	for i := range windows {
		if top, err := s.top(xproto.Window(windows[i].ID)); err == nil && !windows[i].Minimised {
			inside[top] = &windows[i]
		}
	}
	tree, err := xproto.QueryTree(s.conn.X, s.conn.Screen.Root).Reply()
	if err != nil {
		return nil, fmt.Errorf("windows of the display: %w", err)
	}
	for _, top := range slices.Backward(tree.Children) {
		if !s.covers(top, p) {
			continue
		}
		about, err := s.about(s.describe(top))
		if err != nil || !about.viewable {
			continue
		}
		if w := inside[top]; w != nil {
			return w, nil
		}
		// What managers leave alone are tips, menus and veils; our own may be to be looked through.
		if about.picture && !about.override && !(through && s.oursInside(top, own)) {
			return nil, nil
		}
	}
	return nil, nil
}

// top returns the child of the root window that holds w.
func (s *x11Session) top(w xproto.Window) (xproto.Window, error) {
	for {
		tree, err := xproto.QueryTree(s.conn.X, w).Reply()
		if err != nil {
			return 0, err
		}
		if tree.Parent == s.conn.Screen.Root || tree.Parent == 0 {
			return w, nil
		}
		w = tree.Parent
	}
}

// covers says whether w, with its border, reaches over p.
func (s *x11Session) covers(w xproto.Window, p image.Point) bool {
	g, err := xproto.GetGeometry(s.conn.X, xproto.Drawable(w)).Reply()
	if err != nil {
		return false
	}
	border := 2 * int(g.BorderWidth)
	return p.In(image.Rect(0, 0, int(g.Width)+border, int(g.Height)+border).Add(image.Pt(int(g.X), int(g.Y))))
}

// oursInside says whether a child of the root window is one of ours, or the frame of one.
func (s *x11Session) oursInside(top xproto.Window, own []uint64) bool {
	level := []xproto.Window{top}
	for depth := 0; depth < 3 && len(level) > 0; depth++ { // frames hold their window one or two deep
		var next []xproto.Window
		for _, w := range level {
			about, err := s.about(s.describe(w))
			if err == nil && (about.ours || about.of(own)) {
				return true
			}
			if tree, err := xproto.QueryTree(s.conn.X, w).Reply(); err == nil {
				next = append(next, tree.Children...)
			}
		}
		level = next
	}
	return false
}
