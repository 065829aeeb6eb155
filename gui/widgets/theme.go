package widgets

import (
	"image/color"
	"slices"

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

// lightnesses are the L* of the window's greys on the dark, the middle and the light ground.
// Text, quiet text and the focus line keep the contrast WCAG 2.2 asks for (success criteria
// 1.4.3: text 4.5 to 1; 1.4.11: outlines 3 to 1) on ground, panel, button, input and selection.
var lightnesses = map[fyne.ThemeColorName][3]float64{
	theme.ColorNameBackground:          {25, 60, 86},
	theme.ColorNameScrollBarBackground: {25, 60, 86},
	ColorNamePanel:                     {30, 65, 92},
	theme.ColorNameHeaderBackground:    {30, 65, 92},
	theme.ColorNameMenuBackground:      {30, 65, 92},
	theme.ColorNameOverlayBackground:   {30, 65, 92},
	theme.ColorNameForeground:          {90, 5, 10},
	ColorNameQuiet:                     {75, 15, 36},
	theme.ColorNamePlaceHolder:         {75, 15, 36},
	ColorNameFocusLine:                 {97, 0, 0},
	theme.ColorNameHyperlink:           {97, 0, 0},
	theme.ColorNameForegroundOnPrimary: {12, 90, 95}, // text on a surface in the text's own grey
	theme.ColorNameForegroundOnError:   {12, 90, 95},
	theme.ColorNameForegroundOnSuccess: {12, 90, 95},
	theme.ColorNameForegroundOnWarning: {12, 90, 95},
	theme.ColorNameButton:              {34, 72, 98},
	theme.ColorNameInputBackground:     {21, 70, 97},
	theme.ColorNameSelection:           {42, 78, 80}, // behind selected text
	theme.ColorNameDisabledButton:      {34, 55, 80},
	theme.ColorNameSeparator:           {34, 55, 80},
	theme.ColorNameDisabled:            {55, 40, 58},
	ColorNameMass:                      {62, 33, 55},
	theme.ColorNameInputBorder:         {62, 33, 55},
	theme.ColorNameScrollBar:           {62, 33, 55},
	theme.ColorNameHover:               {100, 100, 30},
	theme.ColorNameFocus:               {100, 100, 30},
	theme.ColorNamePressed:             {100, 100, 30},
	theme.ColorNameShadow:              {0, 0, 0},
}

// veils are the alphas of the greys that are laid thinly over something; all others are opaque.
var veils = map[fyne.ThemeColorName]uint8{
	theme.ColorNameHover:   0x12,
	theme.ColorNameFocus:   0x18,
	theme.ColorNamePressed: 0x1c,
	theme.ColorNameShadow:  0x60,
}

// lengths are the sizes that aren't Fyne's.
var lengths = map[fyne.ThemeSizeName]float32{
	theme.SizeNamePadding:         Step,
	theme.SizeNameInnerPadding:    Step,
	theme.SizeNameScrollBar:       Step,
	theme.SizeNameText:            TextSize,
	theme.SizeNameSubHeadingText:  TextSize,
	theme.SizeNameCaptionText:     SmallSize,
	theme.SizeNameHeadingText:     SentenceSize,
	theme.SizeNameInlineIcon:      2 * Step,
	theme.SizeNameLineSpacing:     Step / 2,
	theme.SizeNameScrollBarSmall:  Step / 2,
	theme.SizeNameInputRadius:     Radius,
	theme.SizeNameSelectionRadius: Radius,
	theme.SizeNameScrollBarRadius: Radius,
}

// neutral is Fyne's theme with greys for colours and our sizes.
type neutral struct {
	fyne.Theme     // fonts, icons (which Fyne tints by our colours) and the sizes we keep
	ground     int // index into the lightnesses of a colour
}

// NewTheme returns the theme for a ground, the dark one for a ground that it doesn't know. The
// system's choice of light or dark does not matter: the ground is the painter's choice.
func NewTheme(g settings.Ground) fyne.Theme {
	return neutral{Theme: theme.DefaultTheme(), ground: max(slices.Index(settings.Grounds(), g), 0)}
}

// IsThemeOf reports whether a theme is the one for a ground.
func IsThemeOf(th fyne.Theme, g settings.Ground) bool { return th == NewTheme(g) }

// Color returns the grey for a name; names that Fyne may add later get the text's grey, so
// that no hue slips in.
func (t neutral) Color(name fyne.ThemeColorName, _ fyne.ThemeVariant) color.Color {
	on, ok := lightnesses[name]
	if !ok { // primary, error, success, warning
		on = lightnesses[theme.ColorNameForeground]
	}
	alpha, ok := veils[name]
	if !ok {
		alpha = 0xff
	}
	v := colour.GreyOf(on[t.ground])
	return color.NRGBA{R: v, G: v, B: v, A: alpha}
}

// Size returns the length for a name.
func (t neutral) Size(name fyne.ThemeSizeName) float32 {
	if length, ok := lengths[name]; ok {
		return length
	}
	return t.Theme.Size(name)
}
