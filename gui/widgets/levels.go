package widgets

import "app.tonedesk/gui/settings"

// levels are the lightnesses (L*) of a ground's greys. Text, quiet text and line keep the
// contrast WCAG 2.2 asks for (success criteria 1.4.3: text 4.5 to 1; 1.4.11: outlines 3
// to 1) on ground, panel, button, input and selection.
type levels struct {
	ground, panel float64
	text, quiet   float64
	line          float64 // focus outline, sentence, marks
	onText        float64 // text on a surface in the text's own grey
	button        float64
	input         float64 // where something is typed
	selection     float64 // behind selected text
	faint         float64 // lines between things, buttons that can't be pressed
	disabled      float64
	mass          float64 // histogram, scroll bars, borders of inputs
	touch         float64 // laid thinly over what the pointer is on
}

// levelsOf returns a ground's greys, of the default ground for one that it doesn't know.
func levelsOf(g settings.Ground) levels {
	switch g {
	case settings.GroundMiddle:
		return levels{
			ground: 60, panel: 65, text: 5, quiet: 15, line: 0, onText: 90,
			button: 72, input: 70, selection: 78, faint: 55, disabled: 40, mass: 33, touch: 100,
		}
	case settings.GroundLight:
		return levels{
			ground: 86, panel: 92, text: 10, quiet: 36, line: 0, onText: 95,
			button: 98, input: 97, selection: 80, faint: 80, disabled: 58, mass: 55, touch: 30,
		}
	}
	return levels{
		ground: 25, panel: 30, text: 90, quiet: 75, line: 97, onText: 12,
		button: 34, input: 21, selection: 42, faint: 34, disabled: 55, mass: 62, touch: 100,
	}
}
