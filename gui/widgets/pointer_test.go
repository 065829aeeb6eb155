package widgets

import (
	"fmt"
	"image"
	"math"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"

	"app.tonedesk/gui/settings"
)

// heardMirror is a mirror of 364 x 282 with a picture of its size, and what it told its owner.
func heardMirror(t *testing.T) (m *Mirror, heard *[]string, hold *func()) {
	test.NewTempApp(t).Settings().SetTheme(NewTheme(settings.ThemeDark, 100))
	heard, hold = new([]string), new(func())
	hear := func(format string, of ...any) { *heard = append(*heard, fmt.Sprintf(format, of...)) }
	m = NewMirror(MirrorActs{
		Click: func(_ image.Point, add bool) { hear("click %v", add) }, Drag: func(image.Rectangle, bool) { hear("area") },
		Carry: func(int, image.Point, bool) { hear("carry") }, Select: func(int) { hear("select") },
		Look: func(image.Point, bool) {}, Resized: func() { hear("view") }, Menu: func(fyne.Position) {}, Keys: &heardKeys{},
		Later: func(after time.Duration, do func()) func() {
			if after == 500*time.Millisecond {
				*hold = do
			}
			return func() { *hold = nil }
		},
	})
	shownIn(t, m, 364, 282)
	picture := image.NewRGBA(image.Rect(0, 0, 364, 282))
	m.SetPicture(picture, nil, picture.Rect, picture.Rect, false)
	*heard = nil
	return m, heard, hold
}

// drag presses at a place, goes by so much, and lets go.
func dragBy(m *Mirror, by fyne.Delta, mod fyne.KeyModifier) {
	e := &desktop.MouseEvent{Button: desktop.MouseButtonPrimary, Modifier: mod}
	e.Position = fyne.NewPos(180, 140)
	m.MouseDown(e)
	m.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: e.Position.AddXY(by.DX, by.DY)}, Dragged: by})
	m.MouseUp(e)
	m.DragEnd()
}

// What a press becomes: of all of the picture an area is measured, an enlarged one is dragged, but
// with Alt or where an area is asked for; what slips up to 8 is a tap.
func TestGestures(t *testing.T) {
	enlarge := func(m *Mirror) {
		m.SetPicture(m.picture, nil, m.bounds, image.Rect(90, 70, 272, 211), false)
	}
	for name, tt := range map[string]struct {
		before func(m *Mirror)
		by     fyne.Delta
		mod    fyne.KeyModifier
		want   string
	}{
		"a tap":                           {by: fyne.NewDelta(0, 0), want: "click false"},
		"a tap with Shift":                {mod: fyne.KeyModifierShift, want: "click true"},
		"a tap that slips":                {by: fyne.NewDelta(5, 5), want: "click false"},
		"a tap that slips by 8":           {by: fyne.NewDelta(0, 8), want: "click false"},
		"a drag":                          {by: fyne.NewDelta(9, 0), want: "area"},
		"a tap that slips, enlarged":      {before: enlarge, by: fyne.NewDelta(5, 5), want: "click false"},
		"a drag, enlarged":                {before: enlarge, by: fyne.NewDelta(20, 10), want: "view"},
		"a drag with Alt, enlarged":       {before: enlarge, by: fyne.NewDelta(20, 10), mod: fyne.KeyModifierAlt, want: "area"},
		"a drag for what is asked for":    {before: func(m *Mirror) { enlarge(m); m.Ask("Drag over an area") }, by: fyne.NewDelta(20, 10), want: "area"},
		"a tap on a spot that slips":      {before: spotInTheMiddle, by: fyne.NewDelta(5, 5), want: "select"},
		"a drag of a spot, also enlarged": {before: func(m *Mirror) { spotInTheMiddle(m); enlarge(m) }, by: fyne.NewDelta(20, 10), want: "select carry carry"},
	} {
		m, heard, _ := heardMirror(t)
		if tt.before != nil {
			tt.before(m)
		}
		*heard = nil
		dragBy(m, tt.by, tt.mod)
		if got := fmt.Sprint(*heard); got != "["+tt.want+"]" {
			t.Errorf("%s: %s, want %s", name, got, tt.want)
		}
	}
}

func spotInTheMiddle(m *Mirror) {
	m.SetMarks([]Mark{{Name: "A", At: m.Fit().pixelAt(fyne.NewPos(180, 140))}})
}

// pixelAt is the pixel under a place.
func (f Fit) pixelAt(p fyne.Position) image.Point {
	at, _ := f.source(p)
	return at
}

// An enlarged picture goes with the pointer: the pixel that was pressed stays under it.
func TestDragPans(t *testing.T) {
	m, _, _ := heardMirror(t)
	part := image.Rect(90, 70, 272, 211)
	m.SetPicture(m.picture, nil, m.bounds, part, false)
	dragBy(m, fyne.NewDelta(40, -20), 0)
	scale := float32(part.Dx()) / m.Fit().Size.Width // of a unit, in pixels
	want := part.Add(image.Pt(-int(40*scale+0.5), int(20*scale+0.5)))
	if d := m.View().Min.Sub(want.Min); m.View().Size() != part.Size() || max(d.X, -d.X) > 1 || max(d.Y, -d.Y) > 1 {
		t.Errorf("dragged, %v is asked for, want %v to a pixel", m.View(), want)
	}
}

// Held for half a second a press adds a spot, once; what moves or is let go does not.
func TestLongPress(t *testing.T) {
	for name, tt := range map[string]struct {
		do   func(m *Mirror, hold func())
		want string
	}{
		"held": {func(m *Mirror, hold func()) { hold(); m.end() }, "[click true]"},
		"dragged": {func(m *Mirror, hold func()) {
			m.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(220, 140)}})
			hold()
			m.end()
		}, "[area]"},
		"released": {func(m *Mirror, hold func()) { m.end(); hold() }, "[click false]"},
	} {
		m, heard, hold := heardMirror(t)
		e := &desktop.MouseEvent{Button: desktop.MouseButtonPrimary}
		e.Position = fyne.NewPos(180, 140)
		m.MouseDown(e)
		tt.do(m, *hold)
		if got := fmt.Sprint(*heard); got != tt.want {
			t.Errorf("%s: %s, want %s", name, got, tt.want)
		}
	}
}

// A spot that no longer holds is a ring of dashes: in its ring there is light and none, eight times.
func TestMovedSpotIsDashed(t *testing.T) {
	const side = 56
	img, changes, was := dashedRing(side, side, 1.0/8), 0, false
	for i := range 720 {
		x, y := onCircle(side/2, side*7/16, float64(i)/2)
		_, _, _, a := img.At(int(x), int(y)).RGBA()
		if light := a > 0x8000; light != was {
			changes, was = changes+1, light
		}
	}
	if changes < 15 || changes > 17 { // 8 dashes begin and end; at the start one may do so twice
		t.Errorf("light and dark change %d times around the ring", changes)
	}
}

// onCircle is the point of a circle around a middle at an angle, in degrees.
func onCircle(middle, radius, angle float64) (x, y float64) {
	sin, cos := math.Sincos(angle * math.Pi / 180)
	return middle + radius*cos, middle + radius*sin
}
