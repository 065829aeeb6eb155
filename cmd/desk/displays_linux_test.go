package main

import (
	"context"
	"image/color"
	"math"
	"strings"
	"testing"
	"time"

	"github.com/jezek/xgb/xproto"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/profile"
	"app.tonedesk/capture/xconn"
	"app.tonedesk/capture/xvfbtest"
	"app.tonedesk/cmd/desk/desktest"
)

// What the desktop keeps as a display's profile is what the screen is read in, and the chip says so;
// none and a damaged one are refused in a sentence, and the display is read in sRGB. Sources of the
// lightness of the fullest red: display_spaces_to_lab.csv (P3, CSS4, CIE15), and SRGB with CIE15.
func TestScreenIsReadInItsDisplaysProfile(t *testing.T) {
	const inP3, inSRGB = 54.966557, 53.2371
	server, painter, id := desktest.ScreenWithPatches(t)
	painter.Repaint(id, desktest.Patches(color.NRGBA{R: 255, A: 255}, desktest.ShadowSkin))
	settings := strings.Replace(desktest.WatchPatches, "{", `{"display_colours": {"screen": {"in": "profile"}}, `, 1)
	w := desktest.OpenOn(t, server, settings, nil)
	w.WaitFor("that there is no profile", func(l desktest.Shown) bool {
		return !l.Bounds.Empty() && strings.Contains(l.Message, "read in sRGB: the desktop keeps no colour profile")
	})
	w.Click(desktest.Corner(desktest.LeftPatch))
	is := func(lightness float64) func(desktest.Shown) bool {
		return func(l desktest.Shown) bool {
			return len(l.Spots) == 1 && math.Abs(l.Spots[0].Lightness-lightness) < 0.01
		}
	}
	w.WaitFor("it in sRGB", is(inSRGB))
	keepProfile(t, server, "_ICC_PROFILE", profile.Write(colour.DisplayP3))
	l := w.WaitFor("it in Display P3", func(l desktest.Shown) bool {
		return is(inP3)(l) && strings.HasPrefix(l.Line, "Display P3, ")
	})
	if l.Spots[0].Colour != "#ff0000" {
		t.Errorf("the spot's code is %s", l.Spots[0].Colour)
	}
	keepProfile(t, server, "_ICC_PROFILE", []byte("nothing that could be a profile"))
	w.WaitFor("that it is damaged", func(l desktest.Shown) bool {
		return is(inSRGB)(l) && strings.Contains(l.Message, "its profile is damaged") && !strings.Contains(l.Line, "P3")
	})
	w.Quit()
}

// keepProfile has a screen's root window keep a profile, as a desktop does.
func keepProfile(t *testing.T, server *xvfbtest.Server, name string, data []byte) {
	t.Helper()
	ctx, cancel := context.WithTimeout(t.Context(), 10*time.Second)
	defer cancel()
	c, err := xconn.Acquire(ctx, server.Display)
	if err != nil {
		t.Fatal(err)
	}
	defer c.Release()
	atom, err := xproto.InternAtom(c.X, false, uint16(len(name)), name).Reply()
	if err != nil {
		t.Fatal(err)
	}
	if err := xproto.ChangePropertyChecked(c.X, xproto.PropModeReplace, c.Screen.Root, atom.Atom, xproto.AtomCardinal, 8, uint32(len(data)), data).Check(); err != nil {
		t.Fatal(err)
	}
}
