package main

import (
	"fmt"
	"image"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"app.tonedesk/capture"
	"app.tonedesk/capture/xvfbtest"
	"app.tonedesk/cmd/desk/desktest"
)

// hands do to the window what a painter does, and count it: presses are taps and keys.
type hands struct {
	*desktest.Window
	presses, drags int
}

// tap presses what the window calls by these words: of its bar, menu or page.
func (h *hands) tap(words string) {
	h.T.Helper()
	x, y := h.place(words)
	h.tapAt(x, y)
}

// place is the middle of what has these words, once the window has laid it out.
func (h *hands) place(words string) (x, y float32) {
	h.T.Helper()
	h.WaitFor(words, func(l desktest.Shown) bool {
		p, ok := desktest.Named(slices.Concat(l.Menu, l.Bar, l.Places), words)
		x, y = p.Box[0]+p.Box[2]/2, p.Box[1]+p.Box[3]/2
		return ok && p.Box[0] > 0 && p.Box[2] > 0
	})
	return x, y
}

func (h *hands) tapAt(x, y float32) {
	h.T.Helper()
	h.presses++
	h.ClickIn(x, y)
}

// tapTab presses a page's tab, and tapPart a part of the page of stills.
func (h *hands) tapTab(i int) { h.T.Helper(); h.presses++; h.OpenPage(i, tabCount) }

func (h *hands) tapPart(i int) { h.T.Helper(); h.presses++; clickPart(h.Window, i) }

// tapPicture presses a pixel of the picture.
func (h *hands) tapPicture(p image.Point) { h.T.Helper(); h.presses++; h.Click(p) }

func (h *hands) key(key string) { h.T.Helper(); h.presses++; h.Key(key) }

func (h *hands) drag(from, to image.Point) {
	h.T.Helper()
	l := h.WaitFor("the picture", func(l desktest.Shown) bool { return !l.Bounds.Empty() })
	h.dragIn(l.Bounds, from, to)
}

// dragIn is drag where the mirror shows a part of the picture.
func (h *hands) dragIn(part image.Rectangle, from, to image.Point) {
	h.T.Helper()
	h.drags++
	fx, fy := h.in(part, from)
	tx, ty := h.in(part, to)
	h.DragIn(fx, fy, tx, ty)
}

// in is where a pixel lies in the window, which shows a part of the picture.
func (h *hands) in(part image.Rectangle, p image.Point) (x, y float32) {
	h.T.Helper()
	m := h.WaitFor("the mirror", func(l desktest.Shown) bool { return l.Mirror[2] > 0 }).Mirror
	return m[0] + m[2]*(float32(p.X-part.Min.X)+0.5)/float32(part.Dx()), m[1] + m[3]*(float32(p.Y-part.Min.Y)+0.5)/float32(part.Dy())
}

// slip presses a pixel of the picture, and the pointer goes so far before the button comes up: the way
// of a pen that taps.
func (h *hands) slip(p image.Point, dx, dy int) {
	h.T.Helper()
	h.presses++
	px, py := h.in(h.WaitFor("a picture", func(l desktest.Shown) bool { return !l.Part.Empty() }).Part, p)
	x, y := fmt.Sprint(int(px)), fmt.Sprint(int(py))
	by := func(x, y int) []string { return []string{"mousemove_relative", "--", fmt.Sprint(x), fmt.Sprint(y)} }
	h.Do(slices.Concat([]string{"mousemove", "--window", h.ID, x, y, "mousedown", "1"}, by(dx/2, dy/2), by(dx-dx/2, dy-dy/2), []string{"mouseup", "1"})...)
}

// hold presses a place of the window until what it does is seen.
func (h *hands) hold(x, y string, what string, done func(desktest.Shown) bool) {
	h.T.Helper()
	h.presses++
	h.Do("mousemove", "--window", h.ID, x, y, "mousedown", "1")
	h.WaitFor(what+", while it is held", done)
	h.Do("mouseup", "1")
}

// gesture is a deed with the presses and drags that it may take at most, from the open window.
type gesture struct {
	deed           string
	presses, drags int
	before         func(h *hands) // brings the window where it is done, uncounted; may be nil
	does           func(h *hands)
	done           func(desktest.Shown) bool
}

// Points of the picture of the pot, in its light and in its shadow, and beside it.
var (
	potLight  = desktest.Corner(image.Pt(200, 160))
	potShadow = desktest.Corner(image.Pt(350, 160))
	potBeside = desktest.Corner(image.Pt(30, 30))
)

func spots(n int) func(desktest.Shown) bool {
	return func(l desktest.Shown) bool { return len(l.Spots) == n }
}

func says(words string) func(desktest.Shown) bool {
	return func(l desktest.Shown) bool { return strings.Contains(l.Message, words) }
}

// clear takes all spots away.
func (h *hands) clear() {
	h.T.Helper()
	h.Key("shift+Delete")
	h.WaitFor("no spots", spots(0))
}

// two sets A in the light and B in the shadow.
func (h *hands) two() {
	h.T.Helper()
	h.clear()
	h.Click(potLight)
	h.WaitFor("spot A", spots(1))
	h.Click(potShadow)
	h.WaitFor("spot B", spots(2))
}

// open opens a page.
func (h *hands) open(tab int) {
	h.T.Helper()
	h.OpenPage(tab, tabCount)
	name := []string{"Watch", "Structure", "Colours", "Stills"}[tab]
	h.WaitFor(name, func(l desktest.Shown) bool { return l.Page == name })
}

// watchGestures are those of the bar and of the page of spots.
func watchGestures() []gesture {
	open := func(h *hands) { h.open(0); h.two() }
	view := func(key string) func(desktest.Shown) bool {
		return func(l desktest.Shown) bool { return l.View == key && l.Menu == nil }
	}
	frozen := func(on bool) func(desktest.Shown) bool {
		return func(l desktest.Shown) bool { return l.Frozen == on }
	}
	panel := func(open bool) func(desktest.Shown) bool {
		return func(l desktest.Shown) bool { _, is := desktest.Named(l.Bar, "Done"); return is == open }
	}
	settings := func(h *hands) { h.Key("ctrl+comma"); h.WaitFor("the settings", panel(true)) }
	return []gesture{
		{"another view by taps", 2, 0, nil, func(h *hands) { h.tap("View"); h.tap("Two-tone") }, view("two-tone")},
		{"another view by a key", 1, 0, nil, func(h *hands) { h.key("2") }, view("grey")},
		{"freeze", 1, 0, nil, func(h *hands) { h.tap("Freeze") }, frozen(true)},
		{"resume by the chip", 1, 0, nil, func(h *hands) {
			m := h.WaitFor("the chip", says("Frozen")).Mirror
			h.tapAt(m[0]+40, m[1]+22)
		}, frozen(false)},
		{"zoom", 1, 0, nil, func(h *hands) { h.tap("Zoom in") }, func(l desktest.Shown) bool { return l.Part.Dx() < l.Bounds.Dx() }},
		{"compare two places", 2, 0, func(h *hands) {
			h.Key("ctrl+0")
			h.WaitFor("all of the picture", func(l desktest.Shown) bool { return l.Part == l.Bounds })
			h.clear()
		}, func(h *hands) { h.tapPicture(potLight); h.tapPicture(potShadow) },
			func(l desktest.Shown) bool { return len(l.Spots) == 2 && strings.HasPrefix(l.Sentence, "B is 2.2") }}, // CIE 15:2004, ASTM D1535
		{"a third spot with Shift", 1, 0, open, func(h *hands) {
			h.Do("keydown", "shift")
			h.tapPicture(potBeside)
			h.Do("keyup", "shift")
		}, spots(3)},
		{"a third spot with a pen held", 1, 0, open, func(h *hands) {
			x, y := h.At(potBeside)
			h.hold(x, y, "the third", spots(3))
		}, spots(3)},
		{"copy a code", 1, 0, open, func(h *hands) {
			l := h.WaitFor("the pair", func(l desktest.Shown) bool { return len(l.Places) > 0 && l.Places[0].Box[3] >= 100 })
			card := l.Places[0].Box // A's code stands at the foot of the card's first column
			h.tapAt(card[0]+30, card[1]+card[3]-12)
		}, says("Copied #e2ab85")},
		{"clear all spots by taps", 2, 0, open, func(h *hands) { h.tap("Menu"); h.tap("Clear all spots") }, spots(0)},
		{"clear all spots by a key", 1, 0, open, func(h *hands) { h.key("shift+Delete") }, spots(0)},
		{"settings closed by Done", 1, 0, settings, func(h *hands) { h.tap("Done") }, panel(false)},
		{"settings closed by Esc", 1, 0, settings, func(h *hands) { h.key("Escape") }, panel(false)},
	}
}

// pictureGestures are those on the picture itself: a tap stays one though the pen slips, and what is
// enlarged is dragged along.
func pictureGestures() []gesture {
	var part image.Rectangle // of the picture that is shown before
	enlarged := func(h *hands) {
		part = h.WaitFor("all of it", func(l desktest.Shown) bool { return !l.Bounds.Empty() && l.Part == l.Bounds }).Part
		for range 3 {
			h.Key("ctrl+equal")
			part = h.WaitFor("it enlarged", func(l desktest.Shown) bool { return l.Part.Dx() < part.Dx() }).Part
		}
	}
	watch := func(h *hands) { h.open(0); h.clear() }
	shifted := func(n int) func(desktest.Shown) bool { // by a drag to the left: later pixels are seen, as large as before
		return func(l desktest.Shown) bool {
			return l.Part.Size() == part.Size() && l.Part.Min.X > part.Min.X+20 && len(l.Spots) == n
		}
	}
	pan := func(h *hands) {
		beside := part.Max.Sub(part.Size().Div(4)) // of the spot in the middle
		h.dragIn(part, beside, beside.Sub(image.Pt(50, 0)))
	}
	still := func(l desktest.Shown) bool { return len(l.Spots) == 1 && l.Part == part }
	return []gesture{
		{"a tap that slips by 8 pixels", 1, 0, watch, func(h *hands) { h.slip(potLight, 8, 0) }, spots(1)},
		{"a tap that slips aside", 1, 0, watch, func(h *hands) { h.slip(potLight, -5, 6) }, spots(1)},
		{"a tap that slips, enlarged", 1, 0, func(h *hands) { watch(h); enlarged(h) }, func(h *hands) { h.slip(part.Min.Add(part.Size().Div(2)), 5, 6) }, still},
		{"enlarged, the picture dragged", 0, 1, nil, pan, shifted(1)},
		{"enlarged, an area by its mode", 1, 1, nil, func(h *hands) { // many desktops move windows by a drag with Alt
			now := h.WaitFor("the part", func(l desktest.Shown) bool { return len(l.Spots) == 1 }).Part
			h.key("m")
			h.WaitFor("what to do", func(l desktest.Shown) bool { return l.Sentence != "A is value 7.3" || l.Message != "" })
			middle := now.Min.Add(now.Size().Div(2))
			h.dragIn(now, middle.Add(image.Pt(-60, -40)), middle.Add(image.Pt(-10, -5)))
		}, spots(2)},
		{"enlarged, an area with Alt", 0, 1, (*hands).clear, func(h *hands) {
			part = h.WaitFor("the part", spots(0)).Part
			middle := part.Min.Add(part.Size().Div(2))
			h.Do("keydown", "alt")
			h.dragIn(part, middle.Add(image.Pt(-60, -40)), middle.Add(image.Pt(-10, -5)))
			h.Do("keyup", "alt")
		}, still},
		{"a still enlarged and dragged", 0, 1, func(h *hands) {
			h.Key("ctrl+0")
			watch(h)
			h.tapTab(stillsTab)
			h.tap("Keep")
			h.WaitFor("it kept", func(l desktest.Shown) bool { return len(l.Kept) == 1 })
			h.tap("Mark up")
			h.WaitFor("the still", func(l desktest.Shown) bool {
				return l.Still != nil && l.Still.Tool == "Select" && l.Part == l.Bounds && !l.Bounds.Empty()
			})
			enlarged(h)
		}, pan, shifted(0)},
		{"back from it", 1, 0, nil, func(h *hands) { h.tap("Freeze") }, func(l desktest.Shown) bool { return l.Still == nil && l.Part == l.Bounds }},
		{"it away", 1, 0, func(h *hands) { clickPart(h.Window, 0) }, func(h *hands) { h.tap("Put it into the trash") }, func(l desktest.Shown) bool { return len(l.Kept) == 0 }},
	}
}

// pageGestures are those of Structure and Colours.
func pageGestures() []gesture {
	row := func(h *hands) (x, y string) { // of the one local colour, a place of no swatch
		box := h.WaitFor("its row laid out", func(l desktest.Shown) bool { return len(l.Families) == 1 && l.Families[0].Box[1] > 100 }).Families[0].Box
		return fmt.Sprint(int(box[0] + box[2]*0.6)), fmt.Sprint(int(box[1] + box[3]/2))
	}
	goesOn := func(l desktest.Shown) bool { _, is := desktest.Named(l.Menu, "Go on in Colours"); return is }
	return []gesture{
		{"judge all shadows", 1, 0, func(h *hands) { h.open(0); h.clear() }, func(h *hands) { h.tapTab(structureTab) },
			func(l desktest.Shown) bool {
				return len(l.Families) == 1 && strings.Contains(l.Families[0].Title, "reads")
			}},
		{"take a local colour's pair", 1, 0, nil, func(h *hands) {
			box := h.WaitFor("its row laid out", func(l desktest.Shown) bool { return len(l.Families) == 1 && l.Families[0].Box[1] > 100 }).Families[0].Box
			h.tapAt(box[0]+box[2]/4, box[1]+box[3]/4)
		}, func(l desktest.Shown) bool {
			return len(l.Spots) == 2 && l.Spots[0].Colour == "#e2ab85" && l.Spots[1].Colour == "#b26a5c"
		}},
		{"a local colour's menu by a right tap", 1, 0, nil, func(h *hands) {
			x, y := row(h)
			h.presses++
			h.Do("mousemove", "--window", h.ID, x, y, "click", "3")
		}, goesOn},
		{"a local colour's menu by holding it", 1, 0, func(h *hands) {
			h.Key("Escape")
			h.WaitFor("the window", func(l desktest.Shown) bool { return l.Asks == "" })
		}, func(h *hands) {
			x, y := row(h)
			h.hold(x, y, "the menu", goesOn)
		}, goesOn},
		{"a target by a tap, up to its file", 1, 0, func(h *hands) {
			h.Key("Escape")
			h.WaitFor("the window", func(l desktest.Shown) bool { return l.Asks == "" })
			h.Key("Next", "Next", "Next", "v")
			h.WaitFor("what lies lower", func(l desktest.Shown) bool {
				choose, _ := desktest.Named(l.Places, "Choose")
				return l.View == "layer-grey" && choose.Box[1] > 100 && choose.Box[1] < 690
			})
			h.Key("2")
		}, func(h *hands) { h.tap("Choose") }, func(l desktest.Shown) bool { return l.Asks == "Open the target" }},
		{"a target by a key, up to its file", 1, 0, func(h *hands) {
			h.Key("Escape")
			h.WaitFor("the window", func(l desktest.Shown) bool { return l.Asks == "" })
		}, func(h *hands) { h.key("t") }, func(l desktest.Shown) bool { return l.Asks == "Open the target" }},
		{"copy a shadow", 1, 0, func(h *hands) {
			h.Key("Escape")
			h.WaitFor("the window", func(l desktest.Shown) bool { return l.Asks == "" })
			h.open(2)
			h.Click(potLight)
			h.WaitFor("the base", func(l desktest.Shown) bool { return l.Base == "#e2ab85" })
		}, func(h *hands) { h.tap("−1") }, says("Copied #")},
		{"another base", 1, 0, nil, func(h *hands) { h.tapPicture(potShadow) }, func(l desktest.Shown) bool { return l.Base == "#b26a5c" }},
		{"shadows as in this picture", 1, 0, nil, func(h *hands) { h.tap("As in this picture") }, func(l desktest.Shown) bool {
			as, _ := desktest.Named(l.Places, "As in this picture")
			return as.On
		}},
		{"go on from a swatch", 1, 0, nil, func(h *hands) {
			x, y := h.place("−1")
			h.presses++
			h.Do("mousemove", "--window", h.ID, fmt.Sprint(int(x)), fmt.Sprint(int(y)), "click", "3")
		}, func(l desktest.Shown) bool { return l.Base != "" && l.Base != "#b26a5c" }},
		{"copy all local colours relit", 1, 0, func(h *hands) {
			h.Key("Next", "Next", "Next")
			h.WaitFor("what lies lower", func(l desktest.Shown) bool {
				relit, _ := desktest.Named(l.Places, "Copy these lights and shadows")
				return relit.Box[1] > 100 && relit.Box[1] < 690
			})
		}, func(h *hands) { h.tap("Copy these lights and shadows") }, says("Copied all of these colours")},
	}
}

// stillGestures are those of the page of stills, which begins empty.
func stillGestures() []gesture {
	kept := func(n int) func(desktest.Shown) bool {
		return func(l desktest.Shown) bool { return len(l.Kept) == n }
	}
	compares := func(l desktest.Shown) bool { return l.Compares != "" }
	watch := func(h *hands) {
		h.open(0)
		h.WaitFor("nothing compared", func(l desktest.Shown) bool { return l.Compares == "" })
	}
	back := func(l desktest.Shown) bool { return l.Still == nil && l.Bounds.Min == desktest.Corner(image.Point{}) }
	return []gesture{
		{"keep by taps", 2, 0, watch, func(h *hands) { h.tapTab(stillsTab); h.tap("Keep") }, kept(1)},
		{"keep by a key", 1, 0, nil, func(h *hands) { h.key("ctrl+s") }, kept(2)},
		{"compare with the newest by taps", 2, 0, watch, func(h *hands) { h.tapTab(stillsTab); h.tapPart(2) }, compares},
		{"compare with the newest by a key", 1, 0, watch, func(h *hands) { h.key("d") }, compares},
		{"a spot beside the dividing line", 1, 0, (*hands).clear, func(h *hands) { h.tapPicture(potShadow) },
			func(l desktest.Shown) bool { return l.Compares != "" && len(l.Spots) == 1 }},
		{"mark up", 3, 1, func(h *hands) {
			h.Key("d")
			h.WaitFor("nothing compared", func(l desktest.Shown) bool { return l.Compares == "" })
			clickPart(h.Window, 0)
			watch(h)
		}, func(h *hands) {
			h.tapTab(stillsTab)
			h.tap("Mark up")
			box := h.WaitFor("the tools", func(l desktest.Shown) bool { return l.Still != nil && len(l.Tools) > 4 && l.Tools[4][1] > 100 }).Tools[4]
			h.tapAt(box[0]+box[2]/2, box[1]+box[3]/2)
			l := h.WaitFor("the tool", func(l desktest.Shown) bool { return l.Still != nil && l.Still.Tool == "Box" && !l.Bounds.Empty() })
			h.drag(l.Bounds.Min.Add(image.Pt(60, 60)), l.Bounds.Min.Add(image.Pt(200, 200)))
		}, func(l desktest.Shown) bool { return l.Still != nil && slices.Equal(l.Still.Kinds, []string{"box"}) }},
		{"back to what is watched", 1, 0, nil, func(h *hands) { h.tap("Freeze") }, back},
		{"export", 3, 0, func(h *hands) {
			clickPart(h.Window, 0)
			watch(h)
		}, func(h *hands) {
			h.tapTab(stillsTab)
			h.tap("Export it")
			h.tap("Save")
		}, says("Written as")},
		{"out of the trash", 1, 0, func(h *hands) {
			deleted := h.WaitFor("both stills", kept(2)).Kept[0]
			h.tap("Put it into the trash")
			h.WaitFor("it deleted", kept(1))
			h.tap("Which")
			h.WaitFor("the lists", func(l desktest.Shown) bool { _, is := desktest.Named(l.Menu, "Trash"); return is })
			h.Key("Down", "Down", "Down", "Down", "Return")
			h.WaitFor("the trash", func(l desktest.Shown) bool { return l.Asks == "" && slices.Contains(l.Kept, deleted) })
		}, func(h *hands) {
			grid := h.WaitFor("it in the trash", func(l desktest.Shown) bool { return l.Grid[1] > 100 }).Grid
			h.tapAt(grid[0]+40, grid[1]+40)
		}, says("Restored")},
	}
}

// gripAt is where the grip of the dividing line stands, of the picture's height from its top.
const gripAt = 0.72

// The line that divides two pictures moves by its grip alone. A drag elsewhere neither moves it nor sets
// a spot, not even along the line; a tap there does set one.
func TestWindowDividingLine(t *testing.T) {
	server, _, _ := desktest.ScreenWithPatches(t)
	w := desktest.OpenOn(t, server, desktest.WatchPatches, nil)
	h := &hands{Window: w}
	w.WaitFor("the picture", func(l desktest.Shown) bool { return !l.Bounds.Empty() })
	w.Key("ctrl+s")
	w.WaitFor("it kept", says("Kept as a still"))
	w.Key("d")
	divided := func(at float32) func(desktest.Shown) bool {
		return func(l desktest.Shown) bool { return l.Divided > at-0.02 && l.Divided < at+0.02 }
	}
	m := w.WaitFor("the line in the middle", func(l desktest.Shown) bool {
		return divided(0.5)(l) && l.Mirror[2] > 100 && l.Sentence == "No change in lightness"
	}).Mirror
	place := func(x, y float32) (float32, float32) { return m[0] + x*m[2], m[1] + y*m[3] }
	drag := func(x, y, toX, toY float32) {
		fx, fy := place(x, y)
		tx, ty := place(toX, toY)
		w.DragIn(fx, fy, tx, ty)
	}
	drag(0.5, gripAt, 0.75, gripAt)
	w.WaitFor("it moved by its grip", divided(0.75))
	drag(0.75, 0.2, 0.4, 0.2) // from the line, far above the grip
	drag(0.2, 0.5, 0.4, 0.7)
	x, y := h.At(desktest.Corner(desktest.LeftPatch))
	w.Do("mousemove", "--window", w.ID, x, y, "click", "1")
	l := w.WaitFor("the first spot", func(l desktest.Shown) bool { return len(l.Spots) > 0 })
	if !divided(0.75)(l) || len(l.Spots) != 1 || l.Spots[0].Colour != "#e2ab85" {
		t.Errorf("after drags elsewhere the line is at %g, and the spots are %v", l.Divided, l.Spots)
	}
	w.Quit()
}

// Every deed takes as many presses and drags as were promised, and no more, by a real pointer and real
// keys.
func TestWindowGestures(t *testing.T) {
	server := xvfbtest.Start(t, xvfbtest.Options{Width: 1024, Height: 860, WindowManager: true, Modest: true})
	painter := server.Painter()
	id := painter.Picture(desktest.Corner(image.Point{}), pot(desktest.ShadowSkin), "A painting")
	painter.Move(id, desktest.Corner(image.Point{}))
	w := desktest.OpenOn(t, server, `{"version": 1, "place": {"x": 600, "y": 40, "width": 380, "height": 760}}`, nil)
	screen := desktest.Screen(t, server)
	region := func(deed string, of image.Rectangle, take func(h *hands)) gesture {
		return gesture{deed, 3, 1, nil, func(h *hands) {
			h.tap("Source")
			h.tap("Choose a region")
			server.WaitFor("the desktop's picture", func() bool {
				out, _ := w.Tool("xdotool", "getactivewindow", "getwindowgeometry")
				return strings.Contains(out, "1024x860")
			})
			server.WaitFor("its words", func() bool { // in one of three places, where the screen is black
				return slices.ContainsFunc([]image.Point{{512, 36}, {560, 345}, {300, 720}}, func(at image.Point) bool {
					f, err := capture.ReadSquare(t.Context(), screen, at, 1)
					return err == nil && max(f.Pix[0], f.Pix[1], f.Pix[2]) > 20
				})
			})
			h.drags++
			at := func(p image.Point) []string { return []string{"mousemove", fmt.Sprint(p.X), fmt.Sprint(p.Y)} }
			w.Do(slices.Concat(at(of.Min), []string{"mousedown", "1"}, at(of.Min.Add(image.Pt(20, 20))), at(of.Max.Sub(image.Pt(50, 40))), at(of.Max), []string{"mouseup", "1"})...)
			take(h)
			server.WaitFor("the window again", func() bool {
				out, _ := w.Tool("xdotool", "search", "--onlyvisible", "--name", "^Tonedesk$")
				return strings.TrimSpace(out) == w.ID
			})
			w.Focus()
		}, func(l desktest.Shown) bool { return l.Event == "shown" && l.Bounds == of }}
	}
	byKey := region("choose a region", image.Rect(40, 60, 520, 380), func(h *hands) { h.key("Return") })
	byPen := region("choose a region by pen", image.Rect(30, 420, 430, 700), func(h *hands) {
		h.presses++
		w.Do("mousemove", "616", "738", "click", "1") // Watch this, below the frame
	})
	window := gesture{"follow a window", 3, 0, nil, func(h *hands) { h.tap("Source"); h.tap("Follow a window"); h.tap("A painting") },
		func(l desktest.Shown) bool { return l.Bounds == image.Rect(0, 0, 480, 320) && l.Menu == nil }}
	for _, g := range slices.Concat([]gesture{window, byPen, byKey}, watchGestures(), pictureGestures(), pageGestures(), stillGestures()) {
		h := &hands{Window: w}
		if g.before != nil {
			g.before(h)
			h.presses, h.drags = 0, 0
		}
		w.WaitFor(g.deed+": it not done yet", func(l desktest.Shown) bool { return !g.done(l) })
		g.does(h)
		w.WaitFor(g.deed, g.done)
		if h.presses > g.presses || h.drags > g.drags {
			t.Errorf("%s: %d presses and %d drags, want at most %d and %d", g.deed, h.presses, h.drags, g.presses, g.drags)
		}
	}
	w.Quit()
	if files, err := filepath.Glob(filepath.Join(w.Home, "*-sheet.pdf")); err != nil || len(files) != 1 {
		t.Errorf("exported is %v, %v", files, err)
	}
}
