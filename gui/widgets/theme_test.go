package widgets

import (
	"encoding/csv"
	"image/color"
	"math"
	"os"
	"strconv"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/theme"
	"golang.org/x/image/font/sfnt"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/gui/guitest"
	"app.tonedesk/gui/settings"
)

var allColorNames = []fyne.ThemeColorName{
	ColorNamePanel, ColorNameQuiet, ColorNameFocusLine, ColorNameMass, ColorNameEdge,
	ColorNameChip, ColorNameChipText, ColorNameChipRaised, ColorNameChipPointed, ColorNameChipEdge, ColorNameChipLine,
	theme.ColorNameBackground, theme.ColorNameButton, theme.ColorNameDisabledButton,
	theme.ColorNameDisabled, theme.ColorNameError, theme.ColorNameFocus,
	theme.ColorNameForeground, theme.ColorNameForegroundOnError,
	theme.ColorNameForegroundOnPrimary, theme.ColorNameForegroundOnSuccess,
	theme.ColorNameForegroundOnWarning, theme.ColorNameHeaderBackground,
	theme.ColorNameHover, theme.ColorNameHyperlink, theme.ColorNameInputBackground,
	theme.ColorNameInputBorder, theme.ColorNameMenuBackground,
	theme.ColorNameOverlayBackground, theme.ColorNamePlaceHolder, theme.ColorNamePressed,
	theme.ColorNamePrimary, theme.ColorNameScrollBar, theme.ColorNameScrollBarBackground,
	theme.ColorNameSelection, theme.ColorNameSeparator, theme.ColorNameShadow,
	theme.ColorNameSuccess, theme.ColorNameWarning,
	theme.ColorRed, theme.ColorBlue, "a name Fyne may add one day",
}

func TestThemeHasNoHue(t *testing.T) {
	for _, g := range append(settings.Themes(), "unknown") {
		for _, name := range allColorNames {
			for _, variant := range []fyne.ThemeVariant{theme.VariantDark, theme.VariantLight} {
				r, gr, b, _ := NewTheme(g, 100).Color(name, variant).RGBA()
				if r != gr || gr != b {
					t.Errorf("%s %s: red %d, green %d, blue %d differ", g, name, r, gr, b)
				}
			}
		}
	}
}

// The lightness of the greys, as chosen, within half a step of 8-bit grey (an 8-bit step is
// up to 0.51 L*).
func TestThemeLightness(t *testing.T) {
	tests := []struct {
		ground settings.Theme
		name   fyne.ThemeColorName
		want   float64
	}{
		{settings.ThemeDark, theme.ColorNameBackground, 25},
		{settings.ThemeDark, ColorNamePanel, 30},
		{settings.ThemeDark, theme.ColorNameForeground, 90},
		{settings.ThemeDark, ColorNameQuiet, 75},
		{settings.ThemeDark, ColorNameFocusLine, 97},
		{settings.ThemeMiddle, theme.ColorNameBackground, 60},
		{settings.ThemeMiddle, ColorNamePanel, 65},
		{settings.ThemeMiddle, theme.ColorNameForeground, 5},
		{settings.ThemeMiddle, ColorNameQuiet, 15},
		{settings.ThemeMiddle, ColorNameFocusLine, 0},
		{settings.ThemeContrast, theme.ColorNameBackground, 4},
		{settings.ThemeContrast, theme.ColorNameForeground, 100},
		{settings.ThemeContrast, ColorNameEdge, 75},
		{"unknown", theme.ColorNameBackground, 25},
	}
	for _, tt := range tests {
		got := colour.Lightness(wcagLuminance(NewTheme(tt.ground, 100).Color(tt.name, theme.VariantDark)))
		if math.Abs(got-tt.want) > 0.26 {
			t.Errorf("%s %s: lightness %.2f, want %g", tt.ground, tt.name, got, tt.want)
		}
	}
}

func TestThemeContrast(t *testing.T) {
	const text, outline = 4.5, 3           // WCAG 2.2, success criteria 1.4.3 and 1.4.11
	const highText, highOutline = 7.0, 7.0 // 1.4.6; for outlines our choice
	surfaces := []fyne.ThemeColorName{
		theme.ColorNameBackground, ColorNamePanel, theme.ColorNameInputBackground,
	}
	tests := []struct {
		name  fyne.ThemeColorName
		least float64
		on    []fyne.ThemeColorName
	}{
		{theme.ColorNameForeground, text, append(surfaces, theme.ColorNameButton, theme.ColorNameSelection)},
		{ColorNameQuiet, text, surfaces},
		{theme.ColorNamePlaceHolder, text, surfaces},
		{ColorNameFocusLine, text, append(surfaces, theme.ColorNameButton)},
		{theme.ColorNameHyperlink, text, surfaces},
		{ColorNameChipText, text, []fyne.ThemeColorName{ColorNameChip, ColorNameChipRaised, ColorNameChipPointed}},
		{theme.ColorNameForegroundOnPrimary, text, []fyne.ThemeColorName{theme.ColorNamePrimary}},
		{theme.ColorNameForegroundOnError, text, []fyne.ThemeColorName{theme.ColorNameError}},
		{theme.ColorNameForegroundOnSuccess, text, []fyne.ThemeColorName{theme.ColorNameSuccess}},
		{theme.ColorNameForegroundOnWarning, text, []fyne.ThemeColorName{theme.ColorNameWarning}},
		{ColorNameQuietRaised, text, []fyne.ThemeColorName{ColorNameRaised}},
		{ColorNameFocusLine, text, []fyne.ThemeColorName{ColorNamePointed, ColorNameOn}},
		{theme.ColorNameForeground, text, []fyne.ThemeColorName{ColorNamePointed, theme.ColorNameMenuBackground}},
		{ColorNameQuiet, text, []fyne.ThemeColorName{theme.ColorNameMenuBackground}},
		{ColorNameChipText, text, []fyne.ThemeColorName{ColorNameChip}},
		{ColorNameMass, outline, []fyne.ThemeColorName{ColorNamePanel}},
	}
	edges := []fyne.ThemeColorName{ColorNameEdge, ColorNameHairline, ColorNameRule, theme.ColorNameInputBorder, theme.ColorNameScrollBar}
	for _, g := range settings.Themes() {
		th := NewTheme(g, 100)
		text, high := text, g == settings.ThemeContrast
		if high {
			text = highText
			for _, edge := range edges {
				for _, on := range append(surfaces, theme.ColorNameMenuBackground) {
					if got := wcagContrast(th.Color(edge, 0), th.Color(on, 0)); got < highOutline {
						t.Errorf("%s: %s on %s: contrast %.2f, want at least %g", g, edge, on, got, highOutline)
					}
				}
			}
		} else if _, _, _, alpha := th.Color(ColorNameEdge, 0).RGBA(); alpha != 0 {
			t.Errorf("%s: what things stand on has edges", g)
		}
		for _, tt := range tests {
			least := tt.least
			if high {
				least = highText
			}
			for _, on := range tt.on {
				got := wcagContrast(th.Color(tt.name, 0), th.Color(on, 0))
				if got < least {
					t.Errorf("%s: %s on %s: contrast %.2f, want at least %g", g, tt.name, on, got, least)
				}
			}
		}
		for _, veil := range []fyne.ThemeColorName{theme.ColorNameHover, theme.ColorNameFocus, theme.ColorNamePressed} {
			for _, below := range []fyne.ThemeColorName{theme.ColorNameButton, ColorNamePanel, theme.ColorNameBackground} {
				under := laidOver(th.Color(veil, 0), th.Color(below, 0))
				if got := wcagContrast(th.Color(theme.ColorNameForeground, 0), under); got < text {
					t.Errorf("%s: text on %s under %s: contrast %.2f", g, below, veil, got)
				}
			}
		}
	}
}

// The formula the other tests lean on, checked against worked values (see the file's head
// for their source).
func TestContrastFormula(t *testing.T) {
	f, err := os.Open("testdata/wcag_contrast.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	rows, err := r.ReadAll()
	if err != nil || len(rows) < 2 {
		t.Fatalf("%d rows, %v", len(rows), err)
	}
	for _, row := range rows[1:] {
		want, err := strconv.ParseFloat(row[5], 64)
		if err != nil {
			t.Fatal(err)
		}
		got := wcagContrast(hexColor(t, row[1]), hexColor(t, row[2]))
		if math.Abs(got-want) > 1e-5 {
			t.Errorf("%s: contrast of %s and %s = %.6f, want %.6f", row[0], row[1], row[2], got, want)
		}
	}
}

func TestFiguresHaveOneWidth(t *testing.T) {
	test.NewTempApp(t).Settings().SetTheme(NewTheme(settings.ThemeDark, 100))
	for _, style := range []fyne.TextStyle{{}, {Bold: true}, {Monospace: true}} {
		want := fyne.MeasureText("0", SentenceSize(), style).Width
		for _, d := range "123456789" {
			if got := fyne.MeasureText(string(d), SentenceSize(), style).Width; got != want {
				t.Errorf("%+v: %c is %g wide, 0 is %g", style, d, got, want)
			}
		}
	}
}

// No sign is borrowed from a typeface of the system's: the signs of figures are as wide as the plus or
// in the typeface at least, so that words and figures stand on one line and evenly everywhere.
func TestTypefaceHasTheSignsOfFigures(t *testing.T) {
	test.NewTempApp(t).Settings().SetTheme(NewTheme(settings.ThemeDark, 100))
	for _, style := range []fyne.TextStyle{{}, {Bold: true}} {
		f, err := sfnt.Parse(theme.Current().Font(style).Content())
		if err != nil {
			t.Fatal(err)
		}
		for _, sign := range "\u2212\u2192\u00d7\u00b0\u2026\u2013\u00b7\u00a0" {
			if number, err := f.GlyphIndex(nil, sign); number == 0 || err != nil {
				t.Errorf("%+v: %U is not in the typeface", style, sign)
			}
		}
		plus := fyne.MeasureText("+", SentenceSize(), style).Width
		if minus := fyne.MeasureText("\u2212", SentenceSize(), style).Width; minus != plus {
			t.Errorf("%+v: the minus is %g wide, the plus %g", style, minus, plus)
		}
	}
}

// A sheet of Fyne's icons and of every sign the sentences use is drawn without any hue.
func TestIconsAreNeutral(t *testing.T) {
	test.NewTempApp(t).Settings().SetTheme(NewTheme(settings.ThemeDark, 100))
	sheet := container.NewGridWithColumns(8)
	for _, icon := range []fyne.Resource{
		theme.ErrorIcon(), theme.WarningIcon(), theme.ConfirmIcon(), theme.ColorChromaticIcon(),
		theme.ColorPaletteIcon(), theme.BrokenImageIcon(), theme.FileImageIcon(), theme.SettingsIcon(),
	} {
		img := canvas.NewImageFromResource(icon)
		img.SetMinSize(fyne.NewSquareSize(24))
		sheet.Add(img)
	}
	w := test.NewTempWindow(t, sheet)
	guitest.AssertNeutral(t, w.Canvas().Capture())
}

// wcagLuminance and wcagContrast: WCAG 2.2 (W3C Recommendation, 2023), "relative luminance"
// and "contrast ratio". Written out here, apart from the package's own formulas.
func wcagLuminance(c color.Color) float64 {
	n := color.NRGBAModel.Convert(c).(color.NRGBA)
	linear := func(v uint8) float64 {
		s := float64(v) / 255
		if s <= 0.04045 {
			return s / 12.92
		}
		return math.Pow((s+0.055)/1.055, 2.4)
	}
	return 0.2126*linear(n.R) + 0.7152*linear(n.G) + 0.0722*linear(n.B)
}

func wcagContrast(a, b color.Color) float64 {
	ya, yb := wcagLuminance(a), wcagLuminance(b)
	return (max(ya, yb) + 0.05) / (min(ya, yb) + 0.05)
}

// laidOver returns an opaque grey under a veil.
func laidOver(veil, under color.Color) color.Color {
	v, u := color.NRGBAModel.Convert(veil).(color.NRGBA), color.NRGBAModel.Convert(under).(color.NRGBA)
	mix := uint8(math.Round((float64(v.R)*float64(v.A) + float64(u.R)*(255-float64(v.A))) / 255))
	return color.NRGBA{R: mix, G: mix, B: mix, A: 255}
}

func hexColor(t *testing.T, s string) color.Color {
	t.Helper()
	n, err := strconv.ParseUint(s[1:], 16, 32)
	if err != nil {
		t.Fatal(err)
	}
	return color.NRGBA{R: uint8(n >> 16), G: uint8(n >> 8), B: uint8(n), A: 255}
}
