package widgets

import (
	"image"
	"image/color"
	"image/draw"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"app.tonedesk/gui/settings"
)

// shutMirror is a mirror over which no time passes, with what it has put off, and two pictures.
func shutMirror(t *testing.T) (m *Mirror, due *[]func(), dark, light *image.RGBA) {
	test.NewTempApp(t)
	due = new([]func())
	m = NewMirror(MirrorActs{Resized: func() {}, Later: func(_ time.Duration, do func()) func() { *due = append(*due, do); return func() {} }})
	m.Flashes.Every = time.Hour
	m.Resize(fyne.NewSize(220, 170))
	dark, light = image.NewRGBA(image.Rect(0, 0, 200, 150)), image.NewRGBA(image.Rect(0, 0, 200, 150))
	paint(dark, 0)
	paint(light, 255)
	return m, due, dark, light
}

func paint(img *image.RGBA, v uint8) {
	draw.Draw(img, img.Rect, image.NewUniform(color.RGBA{v, v, v, 255}), image.Point{}, draw.Src)
}

// What is shown stays as it is while the next picture waits, whatever its painter paints into
// meanwhile, and of what waits the newest is shown.
func TestShutterKeepsWhatIsShown(t *testing.T) {
	m, due, dark, light := shutMirror(t)
	set := func(img *image.RGBA) { m.SetPicture(img, img, img.Rect, img.Rect, false) }
	set(dark)
	set(light)
	if m.Picture() != light || len(*due) != 0 {
		t.Fatal("one change waits")
	}
	set(dark)
	paint(light, 7)
	for name, shown := range map[string]*image.RGBA{"picture": m.Picture(), "small one": m.Other()} {
		if got := shown.Pix[0]; got != 255 || shown == light {
			t.Errorf("the %s shows %d while another one waits, want 255", name, got)
		}
	}
	set(light)
	if len(*due) != 1 {
		t.Errorf("it comes back %d times", len(*due))
	}
	m.Flashes.Every = 0
	if (*due)[0](); m.Picture() != light || m.Other() != light || m.Picture().Pix[0] != 7 {
		t.Error("what waited last is not shown")
	}
}

// All that covers the picture waits too.
func TestShutterMindsAllThatCovers(t *testing.T) {
	for name, change := range map[string]func(m *Mirror, img *image.RGBA, on bool){
		"overlay": func(m *Mirror, img *image.RGBA, on bool) {
			if !on {
				img = nil
			}
			m.SetOverlay(OverlayBefore, img)
		},
		"halves": func(m *Mirror, img *image.RGBA, on bool) {
			m.SetHalves(on)
			if on {
				m.SetBefore(img)
			}
		},
	} {
		m, due, dark, light := shutMirror(t)
		m.SetPicture(dark, nil, dark.Rect, dark.Rect, false)
		for i := range 4 {
			change(m, light, i%2 == 0)
		}
		if len(*due) != 1 {
			t.Errorf("%s: nothing waits", name)
		}
		m.Flashes.Every = 0
		if (*due)[0](); m.Overlay(OverlayBefore) != nil || m.Other() != nil || m.Halves() || m.sight != m.next {
			t.Errorf("%s: what waited last is not shown", name)
		}
	}
}

// An ordinary picture is shown without allocating anything for its measure.
func TestShutterAllocatesNothing(t *testing.T) {
	m, _, dark, light := shutMirror(t)
	paint(light, 20)
	m.SetPicture(dark, nil, dark.Rect, dark.Rect, false)
	if n := testing.AllocsPerRun(20, func() { m.next.picture = light; m.measure(&m.next) }); n != 0 {
		t.Errorf("%v allocations", n)
	}
}

// However often sources of other shapes are chosen, the mirror moves four times until it may
// again; then all lies where it should.
func TestPageMovesTheMirrorSeldom(t *testing.T) {
	test.NewTempApp(t).Settings().SetTheme(NewTheme(settings.ThemeDark, 100))
	later, mirror := 0, silentMirror()
	page, _ := pageOf(mirror)
	page.parts.Later = func(time.Duration) { later++ }
	shownIn(t, page, 320, 640)
	whole := image.NewRGBA(image.Rect(0, 0, 300, 300)) // stripes as high as it moves by
	paint(whole, 0)
	for y := 0; y < 300; y += 60 {
		paint(whole.SubImage(image.Rect(0, y, 300, y+30)).(*image.RGBA), 255)
	}
	mirror.SetPicture(whole, nil, whole.Rect, whole.Rect, false)
	mirror.Flashes.Every = time.Hour
	heights := []float32{mirror.Size().Height}
	for i := range 11 {
		page.SetProportion([]float32{0.6, 0.75}[i%2])
		if heights[len(heights)-1] != mirror.Size().Height {
			heights = append(heights, mirror.Size().Height)
		}
	}
	page.SetProportion(0.75)
	if page.Refresh(); len(heights) != 1+4 || later != 1 {
		t.Errorf("the mirror is %v high, and %d timers run", heights, later)
	}
	mirror.Flashes.Every = 0
	if page.Refresh(); mirror.Size().Height != heights[0] {
		t.Error("in the end the mirror is not where it should be")
	}
	mirror.Flashes.Every = time.Hour
	if page.Resize(fyne.NewSize(320, 500)); mirror.Size().Height == heights[0] {
		t.Error("another size of the window waits")
	}
}
