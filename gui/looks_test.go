package gui

import (
	"image"
	"testing"

	"fyne.io/fyne/v2"

	"app.tonedesk/analysis/lawtest"
	"app.tonedesk/gui/guitest"
	"app.tonedesk/gui/settings"
	"app.tonedesk/gui/setup"
)

// look of the window as its master holds it.
type goldenLook struct {
	name          string
	page          string
	ground        settings.Theme
	width, height float32
	percent       int // of the text's plain size
	then          func(t *testing.T, d *Desk, demo *image.NRGBA)
}

// goldenLooks are the window about the demo painting: every page narrow, the least window, a wide
// one, each theme and large text.
var goldenLooks = []goldenLook{
	{"first_dark_380", settings.PageWatch, settings.ThemeDark, 380, 760, 100, nothingChosen},
	{"watch_dark_380", settings.PageWatch, settings.ThemeDark, 380, 760, 100, pairOfSpots},
	{"watch_light_320", settings.PageWatch, settings.ThemeLight, 320, 480, 100, pairOfSpots},
	{"watch_middle_wide", settings.PageWatch, settings.ThemeMiddle, 1100, 760, 100, fiveSpots},
	{"watch_dark_150", settings.PageWatch, settings.ThemeDark, 380, 760, 150, pairOfSpots},
	{"structure_dark_320", settings.PageStructure, settings.ThemeDark, 320, 480, 100, localColours},
	{"structure_middle_380", settings.PageStructure, settings.ThemeMiddle, 380, 760, 100, localColours},
	{"light_light_380", settings.PageStructure, settings.ThemeLight, 380, 760, 100, lightDirection},
	{"focus_dark_380", settings.PageStructure, settings.ThemeDark, 380, 760, 100, focusOnTheFace},
	{"colours_dark_380", settings.PageColours, settings.ThemeDark, 380, 760, 100, pairOfSpots},
	{"colours_light_150", settings.PageColours, settings.ThemeLight, 380, 760, 150, pairOfSpots},
	{"kept_light_380", settings.PageStills, settings.ThemeLight, 380, 760, 100, keptOne},
	{"notes_dark_380", settings.PageStills, settings.ThemeDark, 380, 760, 100, markedUp},
	{"compare_middle_380", settings.PageStills, settings.ThemeMiddle, 380, 760, 100, compared},
	{"watch_contrast_380", settings.PageWatch, settings.ThemeContrast, 380, 760, 100, pairOfSpots},
	{"settings_dark_200", settings.PageWatch, settings.ThemeDark, 380, 760, 200, settingsOpen},
}

// Each look is that of its master, but for a pixel in 500 that differs by more than 8 of 255
// (guitest.AssertPicture): enough for a still's time of day, too little for a word.
// `make goldens` draws the masters anew; they are to be looked at before they are kept.
func TestLooks(t *testing.T) {
	lawtest.SkipRaced(t)
	demo := demoPainting(t)
	for _, look := range goldenLooks {
		t.Run(look.name, func(t *testing.T) {
			s := settings.Defaults()
			s.Page, s.Theme, s.Width, s.Height, s.TextPercent = look.page, look.ground, look.width, look.height, look.percent
			d := newTestDesk(t, s)
			d.see(t, demo)
			look.then(t, d, demo)
			d.Mirror.MouseOut()
			d.Window.Canvas().Unfocus()
			guitest.AssertPicture(t, look.name, d.Window.Canvas().Capture())
		})
	}
}

// The places of the demo painting that spots are put on: cheek in light and in shadow, hair, a hill,
// the sun.
var demoPlaces = []image.Point{{540, 471}, {682, 395}, {940, 432}, {100, 760}, {235, 350}}

func nothingChosen(_ *testing.T, d *Desk, _ *image.NRGBA) {
	d.apply(setup.Setup{Source: setup.Source{Kind: setup.SourceNothing}})
	showFirstStart(d)
}

func pairOfSpots(t *testing.T, d *Desk, demo *image.NRGBA) { putSpots(t, d, demo, 2) }

func fiveSpots(t *testing.T, d *Desk, demo *image.NRGBA) { putSpots(t, d, demo, 5) }

func putSpots(t *testing.T, d *Desk, demo *image.NRGBA, n int) {
	t.Helper()
	for i, at := range demoPlaces[:n] {
		mod := fyne.KeyModifier(0)
		if i > 1 {
			mod = fyne.KeyModifierShift
		}
		press(d.Mirror, at, mod)
		d.see(t, demo)
	}
	d.see(t, demo)
}

func localColours(t *testing.T, d *Desk, demo *image.NRGBA) {
	d.searchNow(t)
	d.see(t, demo)
}

// lightDirection shows the foot of the page, and from where the light comes.
func lightDirection(t *testing.T, d *Desk, demo *image.NRGBA) {
	d.TypedRune('i')
	localColours(t, d, demo)
	for range 3 {
		d.scrollPage(pageTurn)
	}
}

func focusOnTheFace(t *testing.T, d *Desk, demo *image.NRGBA) {
	localColours(t, d, demo)
	marked(t, d, demo, image.Pt(590, 350))
}

func keptOne(t *testing.T, d *Desk, demo *image.NRGBA) {
	pairOfSpots(t, d, demo)
	d.stills.keep(false)
	d.see(t, demo)
	d.Messages.Note("")
}

// markedUp opens a new still with an arrow, a ring, and painted light and shadow.
func markedUp(t *testing.T, d *Desk, demo *image.NRGBA) {
	p := openNewStill(t, d, demo)
	p.choose(partNotes)
	for _, mark := range []struct {
		tool     int
		from, to image.Point
	}{{2, image.Pt(930, 150), image.Pt(800, 260)}, {3, image.Pt(420, 560), image.Pt(780, 660)}, {7, image.Pt(940, 570), image.Pt(1090, 560)}, {8, image.Pt(930, 615), image.Pt(1080, 605)}} {
		d.marker.setTool(mark.tool)
		drag(d.Mirror, mark.from, mark.to)
	}
	d.see(t, demo)
}

// compared shows the painting beside a still of itself without its lights.
func compared(t *testing.T, d *Desk, demo *image.NRGBA) {
	d.stills.keep(false)
	d.see(t, demo)
	darker := image.NewNRGBA(demo.Rect)
	for i, v := range demo.Pix {
		darker.Pix[i] = v
		if i%4 != 3 && i/4%demo.Rect.Dx() > demo.Rect.Dx()/2 {
			darker.Pix[i] = v / 2
		}
	}
	d.see(t, darker)
	d.page().(*stillsPage).choose(partCompare)
	d.see(t, darker)
	d.see(t, darker)
}

func settingsOpen(_ *testing.T, d *Desk, _ *image.NRGBA) { d.openPanel(panelSettings) }
