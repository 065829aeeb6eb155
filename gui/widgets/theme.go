package widgets

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/gui/settings"
)

// Colours of our own, beside those of Fyne's theme package. All are greys, as every colour
// of the window is that is not the picture or a swatch: colour around a picture changes how
// the picture is seen.
const (
	// ColorNamePanel lies under a group of things that belong together; Fyne's own
	// ColorNameBackground is the ground between the panels.
	ColorNamePanel fyne.ThemeColorName = "tonedeskPanel"
	// ColorNameQuiet is for labels and notes, which stay behind the figures.
	ColorNameQuiet fyne.ThemeColorName = "tonedeskQuiet"
	// ColorNameFocusLine is the outline of what has the keyboard's focus; it is also for
	// the sentence and for the marks on the spread.
	ColorNameFocusLine fyne.ThemeColorName = "tonedeskFocusLine"
	// ColorNameMass fills the histogram.
	ColorNameMass fyne.ThemeColorName = "tonedeskMass"
)

// Lengths in Fyne units (a display pixel at scale 1).
const (
	// Step is the one step of spacing; other gaps are multiples or halves of it.
	Step float32 = 8
	// TextSize, SmallSize and SentenceSize are the only sizes of type.
	TextSize     float32 = 13
	SmallSize    float32 = 11
	SentenceSize float32 = 22
	// Radius rounds the corners of panels and buttons.
	Radius float32 = 4
	// FocusWidth is the width of the outline of what has the keyboard's focus.
	FocusWidth float32 = 2
)

// NewTheme returns the theme for a ground. The system's wish for light or dark does not
// matter: the ground is the painter's choice.
func NewTheme(g settings.Ground) fyne.Theme {
	return &neutral{levels: levelsOf(g), base: theme.DefaultTheme()}
}

// IsThemeOf reports whether a theme is the one for a ground.
func IsThemeOf(th fyne.Theme, g settings.Ground) bool {
	n, ok := th.(*neutral)
	return ok && n.levels == levelsOf(g)
}

// neutral is Fyne's theme with greys for colours and our sizes.
type neutral struct {
	levels
	base fyne.Theme // fonts, icons (which Fyne tints by our colours) and the sizes we keep
}

// Color returns the grey for a name; names that Fyne may add later get the text's grey, so
// that no hue slips in.
func (t *neutral) Color(name fyne.ThemeColorName, _ fyne.ThemeVariant) color.Color {
	switch name {
	case theme.ColorNameBackground, theme.ColorNameScrollBarBackground:
		return grey(t.ground)
	case ColorNamePanel, theme.ColorNameHeaderBackground, theme.ColorNameMenuBackground,
		theme.ColorNameOverlayBackground:
		return grey(t.panel)
	case theme.ColorNameButton:
		return grey(t.button)
	case theme.ColorNameDisabledButton, theme.ColorNameSeparator:
		return grey(t.faint)
	case theme.ColorNameInputBackground:
		return grey(t.input)
	case theme.ColorNameInputBorder, theme.ColorNameScrollBar, ColorNameMass:
		return grey(t.mass)
	case theme.ColorNameSelection:
		return grey(t.selection)
	case theme.ColorNameDisabled:
		return grey(t.disabled)
	case ColorNameQuiet, theme.ColorNamePlaceHolder:
		return grey(t.quiet)
	case ColorNameFocusLine, theme.ColorNameHyperlink:
		return grey(t.line)
	case theme.ColorNameForegroundOnPrimary, theme.ColorNameForegroundOnError,
		theme.ColorNameForegroundOnSuccess, theme.ColorNameForegroundOnWarning:
		return grey(t.onText)
	case theme.ColorNameHover:
		return veil(t.touch, 0x12)
	case theme.ColorNameFocus:
		return veil(t.touch, 0x18)
	case theme.ColorNamePressed:
		return veil(t.touch, 0x1c)
	case theme.ColorNameShadow:
		return veil(0, 0x60)
	}
	return grey(t.text) // foreground, primary, error, success, warning
}

// Size returns the length for a name.
func (t *neutral) Size(name fyne.ThemeSizeName) float32 {
	switch name {
	case theme.SizeNamePadding, theme.SizeNameInnerPadding, theme.SizeNameScrollBar:
		return Step
	case theme.SizeNameText, theme.SizeNameSubHeadingText:
		return TextSize
	case theme.SizeNameCaptionText:
		return SmallSize
	case theme.SizeNameHeadingText:
		return SentenceSize
	case theme.SizeNameInlineIcon:
		return 2 * Step
	case theme.SizeNameLineSpacing, theme.SizeNameScrollBarSmall:
		return Step / 2
	case theme.SizeNameInputRadius, theme.SizeNameSelectionRadius, theme.SizeNameScrollBarRadius:
		return Radius
	}
	return t.base.Size(name)
}

// Font returns Fyne's bundled fonts; their figures all have one width.
func (t *neutral) Font(style fyne.TextStyle) fyne.Resource { return t.base.Font(style) }

// Icon returns Fyne's icons, which are drawn in this theme's greys.
func (t *neutral) Icon(name fyne.ThemeIconName) fyne.Resource { return t.base.Icon(name) }

// grey returns the opaque grey nearest to a lightness (L*).
func grey(lightness float64) color.Color {
	v := colour.GreyOf(lightness)
	return color.NRGBA{R: v, G: v, B: v, A: 0xff}
}

// veil is a grey of the given lightness that lets through what is below; alpha 255 would
// let nothing through.
func veil(lightness float64, alpha uint8) color.Color {
	v := colour.GreyOf(lightness)
	return color.NRGBA{R: v, G: v, B: v, A: alpha}
}
