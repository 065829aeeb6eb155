package widgets

import (
	"testing"

	"fyne.io/fyne/v2"
	"golang.org/x/image/font/sfnt"

	"app.tonedesk/gui/settings"
	"app.tonedesk/gui/wording"
)

// The bundled fonts have every sign the figures and sentences use: a missing one would show
// as a box, or be borrowed from another font in another width.
func TestSignsAreInTheFonts(t *testing.T) {
	for _, style := range []fyne.TextStyle{{}, {Bold: true}, {Monospace: true}} {
		font, err := sfnt.Parse(NewTheme(settings.ThemeDark, 100).Font(style).Content())
		if err != nil {
			t.Fatal(err)
		}
		signs := wording.Unknown + "×" + wording.Nbsp + "0123456789.,%<·#“”…"
		if style.Monospace { // minus stands in columns of figures only: the other font lacks it
			signs += "−"
		}
		for _, sign := range signs {
			if glyph, err := font.GlyphIndex(nil, sign); err != nil || glyph == 0 {
				t.Errorf("%+v has no %q: %v", style, sign, err)
			}
		}
	}
}
