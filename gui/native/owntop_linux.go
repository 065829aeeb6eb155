package native

import (
	"image"

	"github.com/jezek/xgb/xproto"

	"app.tonedesk/capture/xconn"
)

// Topmost reports whether our own window, or its frame, is what shows at a place of the desktop.
func Topmost(handle uintptr, at image.Point) (bool, error) {
	return ask(handle, func(c *xconn.Conn, w xproto.Window) (bool, error) {
		root := c.Screen.Root
		there, err := xproto.TranslateCoordinates(c.X, root, root, int16(at.X), int16(at.Y)).Reply()
		if err != nil {
			return false, err
		}
		for range mostNested {
			if w == there.Child {
				return true, nil
			}
			tree, err := xproto.QueryTree(c.X, w).Reply()
			if err != nil {
				return false, noWindow("place of the window", err)
			}
			if w = tree.Parent; w == root || w == 0 {
				break
			}
		}
		return false, nil
	})
}

// mostNested is how deep a desktop may put a window into frames. Our choice: they use two.
const mostNested = 16
