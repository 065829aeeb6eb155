package desktest

import "slices"

// Place is something in the window that can be pressed.
type Place struct {
	Words string
	On    bool
	Box   [4]float32
}

// Named returns the place with these words, and whether there is one.
func Named(places []Place, words string) (Place, bool) {
	i := slices.IndexFunc(places, func(p Place) bool { return p.Words == words })
	if i < 0 {
		return Place{}, false
	}
	return places[i], true
}

// Press presses a button of the bar, or of the open panel.
func (w *Window) Press(words string) {
	w.T.Helper()
	w.press(words, func(l Shown) []Place { return l.Bar })
}

// Choose chooses in the open menu, or at the first start.
func (w *Window) Choose(words string) {
	w.T.Helper()
	w.press(words, func(l Shown) []Place { return l.Menu })
}

func (w *Window) press(words string, of func(Shown) []Place) {
	w.T.Helper()
	var p Place
	w.WaitFor(words, func(l Shown) (ok bool) {
		p, ok = Named(of(l), words)
		return ok && p.Box[2] > 0
	})
	w.ClickIn(p.Box[0]+p.Box[2]/2, p.Box[1]+p.Box[3]/2)
}

// ShowDemo chooses the demo painting at the first start, unless something is watched already, and
// waits for a picture.
func (w *Window) ShowDemo() Shown {
	w.T.Helper()
	const demo = "or look at the demo painting first"
	seen := func(l Shown) bool { return !l.Bounds.Empty() }
	asked := false
	l := w.WaitFor("the first start, or a picture", func(l Shown) bool {
		var p Place
		p, asked = Named(l.Menu, demo)
		return asked && p.Box[2] > 0 || !asked && seen(l)
	})
	if !asked {
		return l
	}
	w.Choose(demo)
	return w.WaitFor("the demo", func(l Shown) bool { return len(l.Menu) == 0 && seen(l) })
}
