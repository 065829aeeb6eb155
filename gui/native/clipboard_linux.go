package native

import (
	"fmt"

	"github.com/jezek/xgb/xproto"

	"app.tonedesk/capture/xconn"
)

// owned is who answers for the picture that was copied last, or nil. Only what runs on the
// line touches it.
var owned *clipboardOwner

// CopyPicture puts a picture, the bytes of a PNG file, on the clipboard. They are kept and
// must not change any more. X servers store no clipboard: the program that copied is asked
// for the picture whenever one is pasted, until another program copies something or this one
// ends. Errors wrap ErrOtherDisplay, ErrClipboardBusy or one of xconn's; after
// xconn.ErrNotAnswering the picture may still get there.
func CopyPicture(png []byte) error {
	if err := do(1, func(c *xconn.Conn, _ xproto.Window) error { return copyPicture(c, png) }); err != nil {
		return fmt.Errorf("copy a picture: %w", err)
	}
	return nil
}

// copyPicture hands the picture to the owner of the clipboard on c, a new one if there is
// none. It runs on the line.
func copyPicture(c *xconn.Conn, png []byte) error {
	for {
		if owned == nil || owned.ended() {
			o, err := newClipboardOwner(c)
			if err != nil {
				return err
			}
			owned = o
			go o.run()
		}
		select {
		case owned.offers <- png:
		case <-owned.done: // it was letting go just now
			continue
		}
		select {
		case err := <-owned.answers:
			return err
		case <-owned.done:
			return fmt.Errorf("take the clipboard: %w", xconn.ErrBroken)
		}
	}
}

// clipboardAtoms are the names that a clipboard is spoken of with.
type clipboardAtoms struct{ clipboard, targets, timestamp, png, incr xproto.Atom }

func newClipboardAtoms(c *xconn.Conn) (clipboardAtoms, error) {
	var a clipboardAtoms
	for _, n := range []struct {
		atom *xproto.Atom
		name string
	}{
		{&a.clipboard, "CLIPBOARD"}, {&a.targets, "TARGETS"}, {&a.timestamp, "TIMESTAMP"},
		{&a.png, "image/png"}, {&a.incr, "INCR"},
	} {
		var err error
		if *n.atom, err = atom(c, n.name); err != nil {
			return a, err
		}
	}
	return a, nil
}
