package wording

import (
	"math"
	"strconv"

	"app.tonedesk/analysis"
	"app.tonedesk/gui/stills/notes"
)

// SayPainted is the sentence on what is painted as light and as shadow on a still: the next
// step until both are there.
func SayPainted(m notes.Measured) Sentence {
	switch {
	case m.Light == nil && m.Shadow == nil:
		return Sentence{Title: "Paint the light, then the shadow", Short: "Paint light, shadow", Icon: IconLight}
	case m.Shadow == nil:
		return Sentence{Title: "Now paint the shadow", Short: "Paint the shadow", Icon: IconShadow}
	case m.Light == nil:
		return Sentence{Title: "Now paint the light", Short: "Paint the light", Icon: IconLight}
	}
	s := Sentence{Bars: []Bar{spotBar("", *m.Light), spotBar("", *m.Shadow)}}
	if analysis.AsPrinted(m.Tones) == 0 {
		s.Title, s.Short = "Light and shadow alike", "Both alike"
		return s
	}
	s.Title = "Shadow " + sayStepWay(m.Tones, -m.Tones)
	s.Short = "Shadow " + Tenth(math.Abs(m.Tones)) + " " + direction(-m.Tones)
	if m.Tones > 0 {
		s.Right = sayStepOf(m.Tones)
	}
	return s
}

// Names of the icons of the tools that draw notes.
const (
	IconSelect = "select"
	IconLight  = "light"
	IconShadow = "shadow"
)

// toolSteps says what to do with each tool, by its icon's name.
var toolSteps = map[string][2]string{
	IconSelect: {"Select a note", "Select a note"},
	"stroke":   {"Draw a stroke", "Draw a stroke"},
	"arrow":    {"Draw an arrow to its place", "Draw an arrow"},
	"ring":     {"Draw a ring round it", "Draw a ring"},
	"box":      {"Draw a box round it", "Draw a box"},
	"label":    {"Click where the label goes", "Place a label"},
	IconSpot:   {"Click a spot to note its value", "Note a spot"},
}

// SayToolStep is a tool's next step, by the name of its icon. measured is what is painted so
// far: Light and Shadow lead on from there.
func SayToolStep(icon string, measured notes.Measured) Sentence {
	if icon == IconLight || icon == IconShadow {
		return SayPainted(measured)
	}
	words := toolSteps[icon]
	return Sentence{Title: words[0], Short: words[1], Icon: icon}
}

// SayNote is the sentence on the selected note: its number on the picture and what it shows, by
// the name of its tool's icon; of a spot, its value. For painted light and shadow it is
// SayPainted.
func SayNote(number int, icon string, shape notes.Shape, measured notes.Measured, fromWhite bool) Sentence {
	switch at := shape.(type) {
	case notes.Area:
		return SayPainted(measured)
	case notes.Spot:
		value := "value" + Nbsp + ValueSay(at.Reading.Value, fromWhite)
		return Sentence{Title: "Spot " + strconv.Itoa(number) + " is " + value, Short: "Spot " + value, Bars: []Bar{spotBar("", at.Reading)}}
	}
	title := Capitalised(icon) + " " + strconv.Itoa(number)
	return Sentence{Title: title, Short: title, Icon: icon}
}
