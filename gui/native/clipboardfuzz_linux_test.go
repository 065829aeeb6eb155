package native

import (
	"testing"

	"github.com/jezek/xgb/xproto"

	"app.tonedesk/capture/xvfbtest"
)

// Whatever others ask of the clipboard's owner, or say that happened, in whichever order: it
// goes on answering, and another picture can be copied. Each event is four bytes: its kind,
// the window, the target and the property.
func FuzzClipboardRequests(f *testing.F) {
	clipboardScreen(f, xvfbtest.Options{})
	f.Add([]byte{0, 2, 3, 5, 2, 2, 3, 5, 2, 2, 3, 5, 3, 2, 0, 0})       // a picture in pieces, and its window goes
	f.Add([]byte{0, 0, 3, 0, 0, 1, 3, 3, 0, 4, 1, 0, 1, 0, 0, 0, 2, 0}) // to our own window and the root, and one that isn't there
	large := make([]byte, 300_000)                                      // more than goes at a time
	f.Fuzz(func(t *testing.T, events []byte) {
		mustCopy(t, large)
		o := owner(t)
		windows := []xproto.Window{o.window, o.conn.Screen.Root, o.conn.Screen.Root + 1, 0, 1, 1<<32 - 1}
		atoms := []xproto.Atom{0, o.atoms.targets, o.atoms.timestamp, o.atoms.png, o.atoms.incr, o.atoms.clipboard, xproto.AtomWmName, 1<<32 - 1}
		for ; len(events) >= 4; events = events[4:] {
			w := windows[int(events[1])%len(windows)]
			target, property := atoms[int(events[2])%len(atoms)], atoms[int(events[3])%len(atoms)]
			switch events[0] % 4 {
			case 0:
				o.receive(xproto.SelectionRequestEvent{Owner: o.window, Requestor: w, Selection: o.atoms.clipboard, Target: target, Property: property})
			case 1:
				o.receive(xproto.SelectionClearEvent{Owner: o.window, Selection: target})
			case 2:
				o.receive(xproto.PropertyNotifyEvent{Window: w, Atom: property, State: xproto.PropertyDelete})
			case 3:
				o.receive(xproto.DestroyNotifyEvent{Window: w})
			}
		}
		mustCopy(t, dot(t))
	})
}
