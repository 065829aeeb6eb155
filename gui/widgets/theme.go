package widgets

import (
	"image/color"
	"slices"
	"sync"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/gui/settings"
	"app.tonedesk/gui/typeface"
)

// Colours of our own, beside those of Fyne's theme package. All are greys, as every colour
// of the window is that is not the picture or a swatch: colour around a picture changes how
// the picture is seen. Fyne's ColorNameBackground is the ground between the panels, its
// ColorNameInputBackground the well: entries, lists, segments, the source chip.
const (
	// ColorNamePanel lies under a group of things that belong together.
	ColorNamePanel fyne.ThemeColorName = "tonedeskPanel"
	// ColorNameRaised is a button, ColorNamePointed one under the pointer, ColorNameOn one that
	// is on.
	ColorNameRaised  fyne.ThemeColorName = theme.ColorNameButton
	ColorNamePointed fyne.ThemeColorName = "tonedeskPointed"
	ColorNameOn      fyne.ThemeColorName = "tonedeskOn"
	// ColorNameQuiet is for labels and notes, which stay behind the figures; on what is raised
	// it is ColorNameQuietRaised.
	ColorNameQuiet       fyne.ThemeColorName = "tonedeskQuiet"
	ColorNameQuietRaised fyne.ThemeColorName = "tonedeskQuietRaised"
	// ColorNameOff is for what can't be pressed now.
	ColorNameOff fyne.ThemeColorName = theme.ColorNameDisabled
	// ColorNameFocusLine is the outline of what has the keyboard's focus; it is also for
	// the sentence, for all text on what is on, and for the marks on the spread.
	ColorNameFocusLine fyne.ThemeColorName = "tonedeskFocusLine"
	// ColorNameHairline goes round a group of swatches, so that none vanishes in the panel;
	// ColorNameRule parts the groups of a menu.
	ColorNameHairline fyne.ThemeColorName = "tonedeskHairline"
	ColorNameRule     fyne.ThemeColorName = theme.ColorNameSeparator
	// ColorNameChip is under the words that lie on the picture, which are in ColorNameChipText:
	// the same on every ground, as the picture is.
	ColorNameChip     fyne.ThemeColorName = "tonedeskChip"
	ColorNameChipText fyne.ThemeColorName = "tonedeskChipText"
	// ColorNameChipRaised is a button there, ColorNameChipPointed one under the pointer,
	// ColorNameChipEdge the line around what lies there, ColorNameChipLine the outline of focus.
	ColorNameChipRaised  fyne.ThemeColorName = "tonedeskChipRaised"
	ColorNameChipPointed fyne.ThemeColorName = "tonedeskChipPointed"
	ColorNameChipEdge    fyne.ThemeColorName = "tonedeskChipEdge"
	ColorNameChipLine    fyne.ThemeColorName = "tonedeskChipLine"
	// ColorNameEdge goes round panels, buttons and wells in high contrast; on the other grounds
	// it is nothing.
	ColorNameEdge fyne.ThemeColorName = "tonedeskEdge"
	// ColorNameMass fills the histogram.
	ColorNameMass fyne.ThemeColorName = "tonedeskMass"
)

// Lengths in Fyne units (a display pixel at scale 1) that stay when the text grows.
const (
	// Step is the one step of spacing; other gaps are multiples or halves of it.
	Step float32 = 8
	// Radius rounds the corners of panels and buttons.
	Radius float32 = 4
	// FocusWidth is the width of the outline of what has the keyboard's focus, and FocusGap how far
	// it is from it.
	FocusWidth float32 = 2
	FocusGap   float32 = 3
)

// Lengths that grow with the text.

// TextSize is the size of type; SmallSize that of what is quiet, SentenceSize that of the sentence.
func TextSize() float32     { return 13 * textScale() }
func SmallSize() float32    { return 12 * textScale() }
func SentenceSize() float32 { return 22 * textScale() }

// Row is the height of a row and of a button: no target for a pen is smaller.
func Row() float32 { return round(4 * Step * textScale()) }

// IconSize is a pictogram's on a button, SmallIcon that in a row.
func IconSize() float32  { return round(20 * textScale()) }
func SmallIcon() float32 { return round(2 * Step * textScale()) }

// textScale is by how much the text is larger than its plain size, 1 to 2, as the theme of now
// has it.
func textScale() float32 {
	if app := fyne.CurrentApp(); app != nil {
		if th, ok := app.Settings().Theme().(neutral); ok {
			return th.text
		}
	}
	return 1
}

// round keeps a length to whole units: what lies between pixels is blurred.
func round(v float32) float32 { return float32(int(v + 0.5)) }

// lightnesses are the L* of the window's greys on the dark, the middle and the light ground, and in
// high contrast. Text, quiet text and the focus line keep the contrast WCAG 2.2 asks for (success
// criteria 1.4.3: text 4.5 to 1; 1.4.11: outlines 3 to 1) on ground, panel, button, input and
// selection; in high contrast text has 7 to 1 (1.4.6), and so have outlines (our choice).
var lightnesses = map[fyne.ThemeColorName][4]float64{
	theme.ColorNameBackground:          {25, 60, 90, 4},
	theme.ColorNameScrollBarBackground: {25, 60, 90, 4},
	ColorNamePanel:                     {30, 65, 95, 8},
	theme.ColorNameHeaderBackground:    {30, 65, 95, 8},
	theme.ColorNameMenuBackground:      {22, 68, 97, 8},
	theme.ColorNameOverlayBackground:   {22, 68, 97, 8},
	theme.ColorNameForeground:          {90, 5, 10, 100},
	ColorNameQuiet:                     {75, 15, 30, 92},
	ColorNameQuietRaised:               {82, 9, 26, 94},
	theme.ColorNamePlaceHolder:         {75, 15, 30, 92},
	ColorNameFocusLine:                 {97, 0, 0, 100},
	theme.ColorNameHyperlink:           {97, 0, 0, 100},
	theme.ColorNameForegroundOnPrimary: {12, 90, 95, 0}, // text on a surface in the text's own grey
	theme.ColorNameForegroundOnError:   {12, 90, 95, 0},
	theme.ColorNameForegroundOnSuccess: {12, 90, 95, 0},
	theme.ColorNameForegroundOnWarning: {12, 90, 95, 0},
	ColorNameRaised:                    {36, 58, 88, 18},
	ColorNamePointed:                   {41, 55, 84, 26},
	ColorNameOn:                        {43, 52, 79, 32},
	theme.ColorNameInputBackground:     {19, 72, 99, 0},
	theme.ColorNameSelection:           {42, 78, 80, 32}, // behind selected text
	theme.ColorNameDisabledButton:      {36, 58, 88, 18},
	ColorNameRule:                      {38, 56, 84, 70},
	ColorNameOff:                       {55, 40, 62, 65},
	ColorNameHairline:                  {45, 45, 72, 75},
	ColorNameEdge:                      {0, 0, 0, 75},
	theme.ColorNameInputBorder:         {45, 45, 72, 75},
	ColorNameMass:                      {62, 33, 55, 75},
	theme.ColorNameScrollBar:           {45, 45, 72, 75},
	ColorNameChip:                      {12, 12, 12, 4},
	ColorNameChipText:                  {90, 90, 90, 100},
	ColorNameChipRaised:                {36, 36, 36, 18},
	ColorNameChipPointed:               {41, 41, 41, 26},
	ColorNameChipEdge:                  {45, 45, 45, 75},
	ColorNameChipLine:                  {97, 97, 97, 100},
	theme.ColorNameHover:               {100, 0, 0, 100},
	theme.ColorNameFocus:               {100, 0, 0, 100},
	theme.ColorNamePressed:             {100, 0, 0, 100},
	theme.ColorNameShadow:              {0, 0, 0, 0},
}

// veils are the alphas of the greys that are laid thinly over something; all others are opaque.
var veils = map[fyne.ThemeColorName]uint8{
	theme.ColorNameHover:   0x0d,
	theme.ColorNameFocus:   0x0d,
	theme.ColorNamePressed: 0x0d,
	theme.ColorNameShadow:  0x60,
}

// lengths are the sizes that aren't Fyne's, at the text's plain size.
var lengths = map[fyne.ThemeSizeName]float32{
	theme.SizeNamePadding:         Step,
	theme.SizeNameInnerPadding:    Step,
	theme.SizeNameScrollBar:       Step / 2,
	theme.SizeNameLineSpacing:     Step / 2,
	theme.SizeNameScrollBarSmall:  Step / 2,
	theme.SizeNameInputRadius:     Radius,
	theme.SizeNameSelectionRadius: Radius,
	theme.SizeNameScrollBarRadius: Radius / 2,
}

// textLengths are those that grow with the text.
var textLengths = map[fyne.ThemeSizeName]float32{
	theme.SizeNameText:           13,
	theme.SizeNameSubHeadingText: 13,
	theme.SizeNameCaptionText:    12,
	theme.SizeNameHeadingText:    22,
	theme.SizeNameInlineIcon:     2 * Step,
}

// typefaces are the toolkit's, plain and bold, with the signs that figures need. They are completed
// in place: the toolkit falls back on its own, and would read and keep each twice.
var typefaces = sync.OnceValue(func() [2]fyne.Resource {
	of := [2]fyne.Resource{theme.DefaultTextFont(), theme.DefaultTextBoldFont()}
	for i, carried := range of {
		whole, err := typeface.Complete(carried.Content())
		if err != nil { // another toolkit's: it borrows the signs from the system
			fyne.LogError("the typeface "+carried.Name()+" stays without a minus", err)
			continue
		}
		if its, is := carried.(*fyne.StaticResource); is {
			its.StaticContent = whole
		} else {
			of[i] = fyne.NewStaticResource(carried.Name(), whole)
		}
	}
	return of
})

// neutral is Fyne's theme with greys for colours, our sizes and signs for figures.
type neutral struct {
	fyne.Theme         // other fonts, icons (which Fyne tints by our colours) and the sizes we keep
	ground     int     // index into the lightnesses of a colour
	text       float32 // by how much the text is larger
}

// NewTheme returns the theme for a ground, the dark one for a ground that it doesn't know, with
// text of so many percent of its plain size, 100 to 200. The system's choice of light or dark
// does not matter: the ground is the painter's choice.
func NewTheme(g settings.Theme, percent int) fyne.Theme {
	return neutral{Theme: theme.DefaultTheme(), ground: max(slices.Index(settings.Themes(), g), 0), text: float32(percent) / 100}
}

// IsTheme reports whether a theme is the one for a ground and a size of text.
func IsTheme(th fyne.Theme, g settings.Theme, percent int) bool { return th == NewTheme(g, percent) }

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
	if name == ColorNameEdge && settings.Themes()[t.ground] != settings.ThemeContrast {
		return color.Transparent
	}
	v := colour.GreyOf(on[t.ground])
	return color.NRGBA{R: v, G: v, B: v, A: alpha}
}

// Font returns the typeface for a style.
func (t neutral) Font(style fyne.TextStyle) fyne.Resource {
	switch {
	case style.Italic, style.Monospace, style.Symbol:
		return t.Theme.Font(style)
	case style.Bold:
		return typefaces()[1]
	}
	return typefaces()[0]
}

// Size returns the length for a name.
func (t neutral) Size(name fyne.ThemeSizeName) float32 {
	if length, ok := lengths[name]; ok {
		return length
	}
	if length, ok := textLengths[name]; ok {
		return length * t.text
	}
	return t.Theme.Size(name)
}
