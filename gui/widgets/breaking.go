package widgets

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
)

// breaking has Fyne break a text into lines of a width, in do, without shaping all that is left of
// it at each try: with 4,000 letters that takes seconds. What is far too wide to be a line is
// measured by known widths of letters, as far as that has to be known, and so is what consists of
// letters that never join, which for emoji costs the most; all else that could be a line is
// measured as ever, so that lines are as Fyne breaks them. Only where letters join to less than half
// of their widths (emoji of many parts) a line may be shorter than it could be. On the Fyne
// goroutine only.
func breaking(width float32, do func()) {
	app := fyne.CurrentApp()
	if _, already := app.(breakingApp); already || width <= 0 {
		do()
		return
	}
	fyne.SetCurrentApp(breakingApp{app, width}) // the only way to have Fyne measure otherwise
	defer fyne.SetCurrentApp(app)
	do()
}

// SetTheme changes the theme of an app whose window is so wide. Long texts are broken into lines anew.
func SetTheme(app fyne.App, th fyne.Theme, width float32) {
	breaking(width, func() { app.Settings().SetTheme(th) })
}

// asEver has everything measured exactly again, in do.
func asEver(do func()) {
	if app, is := fyne.CurrentApp().(breakingApp); is {
		fyne.SetCurrentApp(app.App)
		defer fyne.SetCurrentApp(app)
	}
	do()
}

// breakingApp is the app while it breaks lines of a width.
type breakingApp struct {
	fyne.App
	width float32
}

func (a breakingApp) Driver() fyne.Driver {
	d := breakingDriver{a.App.Driver(), a.width}
	if desk, ok := d.Driver.(desktop.Driver); ok {
		return struct {
			breakingDriver
			desktop.Driver
		}{d, desk}
	}
	return d
}

// breakingDriver measures what is far wider than a line by its letters.
type breakingDriver struct {
	fyne.Driver
	width float32
}

// RenderedTextSize returns how large a text is, and how far below its top it stands.
func (d breakingDriver) RenderedTextSize(text string, size float32, style fyne.TextStyle, source fyne.Resource) (fyne.Size, float32) {
	if source == nil && len(text) >= 16 {
		if wide, apart := d.letters(text, letterKind{size, style}); apart || wide > 2*d.width {
			one, base := d.Driver.RenderedTextSize("M", size, style, nil) // as high as any
			return fyne.NewSize(wide, one.Height), base
		}
	}
	return d.Driver.RenderedTextSize(text, size, style, source)
}

// letters adds up how wide each letter is by itself. apart: none joins another, so that the text is
// just so wide.
func (d breakingDriver) letters(text string, kind letterKind) (wide float32, apart bool) {
	known := letterWidths[kind]
	if known == nil || len(known.others) > mostWidths {
		known = &widths{others: map[rune]letterWidth{}}
		letterWidths[kind] = known
	}
	apart = true
	var end float32 // of letters that no typeface has the last counts once more
	for i, r := range text {
		if wide > 2*d.width { // enough to know; the rest is taken to be alike
			return wide * float32(len(text)) / float32(i), false
		}
		w := known.of(r, func(text string) float32 {
			one, _ := d.Driver.RenderedTextSize(text, kind.size, kind.style, nil)
			return one.Width
		})
		if w.end == 0 {
			wide += end
		}
		apart, end = apart && standsApart(r), w.end
		wide += w.wide
	}
	return wide + end, apart
}

// standsApart reports whether a letter joins none beside it that does so too: one of Unicode's pictures
// but for flags and skin tones (Unicode 15, U+1F000 to U+1FAFF).
func standsApart(r rune) bool {
	joins := '\U0001F1E6' <= r && r <= '\U0001F1FF' || '\U0001F3FB' <= r && r <= '\U0001F3FF'
	return '\U0001F000' <= r && r <= '\U0001FAFF' && !joins
}

// letterWidths are widths of single letters. They stay the same, since typefaces do.
var letterWidths = map[letterKind]*widths{}

// mostWidths is of how many letters beyond the first 1,024 widths are kept: our choice, 200 kB.
const mostWidths = 10_000

type letterKind struct {
	size  float32
	style fyne.TextStyle
}

// letterWidth is how wide a letter is. end: the toolkit (2.7.1, shapeCallback) counts so much more
// where the last of some letters stands that no typeface has; 0 for others.
type letterWidth struct{ wide, end float32 }

// widths are those of the letters of one kind.
type widths struct {
	first  [1024]float32 // of the first letters of Unicode plus one, 0 for not known yet
	others map[rune]letterWidth
}

func (w *widths) of(r rune, measure func(string) float32) letterWidth {
	if int(r) < len(w.first) {
		if w.first[r] == 0 {
			w.first[r] = measure(string(r)) + 1
		}
		return letterWidth{wide: w.first[r] - 1}
	}
	known, ok := w.others[r]
	if !ok {
		known.wide = measure(string(r))
		if standsApart(r) {
			one := known.wide
			known.wide = measure(string([]rune{r, r})) - one
			known.end = one - known.wide
		}
		w.others[r] = known
	}
	return known
}
