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

// Part of a window that has to be on a screen, so that it can be taken hold of.
const (
	reachWidth  = 80
	reachHeight = 40
)

// reachable moves a window's inside so that its top is on one of the screens. Without
// screens there is no telling.
func reachable(at image.Rectangle, screens []image.Rectangle) (image.Rectangle, bool) {
	if len(screens) == 0 {
		return at, false
	}
	top := image.Rect(at.Min.X, at.Min.Y, at.Max.X, min(at.Max.Y, at.Min.Y+reachHeight))
	best, most := screens[0], -1
	for _, s := range screens {
		part := top.Intersect(s)
		if part.Dx() >= min(reachWidth, at.Dx()) && part.Dy() >= reachHeight/2 {
			return at, true
		}
		if area := part.Dx() * part.Dy(); area > most {
			best, most = s, area
		}
	}
	x := max(min(at.Min.X, best.Max.X-at.Dx()), best.Min.X)
	y := max(min(at.Min.Y, best.Max.Y-at.Dy()), best.Min.Y+reachHeight)
	return at.Add(image.Pt(x, y).Sub(at.Min)), true
}
