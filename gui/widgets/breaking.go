package widgets

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
)

// breaking has Fyne break a text into lines of a width, in do, without shaping all that is left of
// it at each try: with 4,000 letters that takes seconds. What is far too wide to be a line is
// measured by known widths of letters, as far as that has to be known, and so is what consists of
// letters that are spaced in pairs at most; all else that could be a line is measured as ever, so that
// lines are as Fyne breaks them. Only where letters join to less than half of their widths (emoji of
// many parts) a line may be shorter than it could be; and all may in a text of many letters that join,
// or that are new (loose): those are measured by their letters, whatever they do. On the Fyne goroutine
// only.
func breaking(width float32, loose bool, do func()) {
	app := fyne.CurrentApp()
	if outer, already := app.(breakingApp); already {
		if outer.loose == loose {
			do()
			return
		}
		app, width = outer.App, outer.width
		defer fyne.SetCurrentApp(outer)
	} else {
		defer fyne.SetCurrentApp(app)
	}
	if width <= 0 {
		do()
		return
	}
	left := mostNew
	fyne.SetCurrentApp(breakingApp{app, width, loose, &left}) // the only way to have Fyne measure otherwise
	do()
}

// SetTheme changes the theme of an app whose window is so wide. Long texts are broken into lines anew.
func SetTheme(app fyne.App, th fyne.Theme, width float32) {
	breaking(width, false, func() { app.Settings().SetTheme(th) })
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
	loose bool
	left  *int // letters that may still be measured, if it is loose
}

func (a breakingApp) Driver() fyne.Driver {
	d := breakingDriver{a.App.Driver(), a}
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
	of breakingApp
}

// RenderedTextSize returns how large a text is, and how far below its top it stands. What isn't set as
// longer texts are is measured as ever.
func (d breakingDriver) RenderedTextSize(text string, size float32, style fyne.TextStyle, source fyne.Resource) (fyne.Size, float32) {
	if source == nil && len(text) >= 16 && size == theme.TextSize() && style == (fyne.TextStyle{}) {
		w := widthsOf(size)
		if w.left = nil; d.of.loose {
			w.left = d.of.left
		}
		wide, known := w.text(text, 2*d.of.width, func(text string) float32 {
			some, _ := d.Driver.RenderedTextSize(text, size, style, nil)
			return some.Width
		})
		if known || d.of.loose || wide > 2*d.of.width {
			one, base := d.Driver.RenderedTextSize("M", size, style, nil) // as high as any
			return fyne.NewSize(wide, one.Height), base
		}
	}
	return d.Driver.RenderedTextSize(text, size, style, source)
}
