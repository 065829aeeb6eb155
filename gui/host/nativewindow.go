package host

import (
	"image"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver"
)

// NativeHandle returns the system's handle of a window, 0 if there is none (yet). Fyne
// goroutine only.
func NativeHandle(window fyne.Window) (handle uintptr) {
	w, ok := window.(driver.NativeWindow)
	if !ok {
		return 0
	}
	w.RunNative(func(context any) {
		switch c := context.(type) {
		case driver.X11WindowContext:
			handle = c.WindowHandle
		case driver.WindowsWindowContext:
			handle = c.HWND
		}
	})
	return handle
}

// WithGraphics does what has the toolkit free what it has drawn in a window. At another theme it
// (2.7.1, reloadScale) forgets all words that it has drawn, and the driver keeps each of them for good
// unless the window's graphics are at hand: 3 MB a time. Fyne goroutine only.
func WithGraphics(window fyne.Window, do func()) {
	with, is := window.(interface{ RunWithContext(do func()) })
	if !is || NativeHandle(window) == 0 { // without a view it would break down
		do()
		return
	}
	with.RunWithContext(do)
}

// frame is the widths of what the desktop draws around a window's inside, in pixels.
type frame struct{ left, top, right, bottom int }

// plainFrame is taken where the desktop does not say yet: a title above (our choice, no lower than
// the common desktops draw it).
var plainFrame = frame{top: 40}

// frameOf is what is around a window's inside.
func frameOf(whole, inside image.Rectangle) frame {
	f := frame{inside.Min.X - whole.Min.X, inside.Min.Y - whole.Min.Y, whole.Max.X - inside.Max.X, whole.Max.Y - inside.Max.Y}
	if whole.Empty() || inside.Empty() || f.top <= 0 {
		return plainFrame
	}
	return f
}

// within returns the room for a window's inside on a screen.
func (f frame) within(screen image.Rectangle) image.Rectangle {
	screen.Min = screen.Min.Add(image.Pt(f.left, f.top))
	screen.Max = screen.Max.Sub(image.Pt(f.right, f.bottom))
	return screen
}

// placed returns where the inside of a window of a size goes that is to be at a place: on the
// screen that has most of it, with its frame, and made smaller where it is larger than that. room
// is what there is for it. Without screens there is no telling.
func placed(at image.Point, size image.Point, around frame, screens []image.Rectangle) (inside image.Rectangle, room image.Point, ok bool) {
	wanted, most := image.Rectangle{Min: at, Max: at.Add(size)}, -1
	var best image.Rectangle
	for _, s := range screens {
		part := wanted.Intersect(s)
		if area := part.Dx() * part.Dy(); area > most {
			best, most = around.within(s), area
		}
	}
	if best.Empty() {
		return wanted, size, false
	}
	size = image.Pt(min(size.X, best.Dx()), min(size.Y, best.Dy()))
	at.X = max(min(at.X, best.Max.X-size.X), best.Min.X)
	at.Y = max(min(at.Y, best.Max.Y-size.Y), best.Min.Y)
	return image.Rectangle{Min: at, Max: at.Add(size)}, best.Size(), true
}
