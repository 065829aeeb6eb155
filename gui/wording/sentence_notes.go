package wording

import (
	"math"
	"strconv"

	"app.tonedesk/analysis"
	"app.tonedesk/gui/language"
	"app.tonedesk/gui/stills/notes"
)

// SayPainted is the sentence on what is painted as light and as shadow on a still: the next
// step until both are there.
func SayPainted(m notes.Measured) Sentence {
	switch {
	case m.Light == nil && m.Shadow == nil:
		return Sentence{Title: language.Say("Paint the light, then the shadow"), Short: language.Say("Paint light, shadow"), Icon: IconLight}
	case m.Shadow == nil:
		return Sentence{Title: language.Say("Now paint the shadow"), Short: language.Say("Paint the shadow"), Icon: IconShadow}
	case m.Light == nil:
		return Sentence{Title: language.Say("Now paint the light"), Short: language.Say("Paint the light"), Icon: IconLight}
	}
	s := Sentence{Bars: []Bar{spotBar("", *m.Light), spotBar("", *m.Shadow)}}
	if analysis.AsPrinted(m.Tones) == 0 {
		s.Title, s.Short = language.Say("Light and shadow alike"), language.Say("Both alike")
		return s
	}
	s.Title = language.Say("Shadow %s", sayStepWay(m.Tones, -m.Tones))
	s.Short = language.Say("Shadow %s %s", Tenth(math.Abs(m.Tones)), direction(-m.Tones))
	if m.Tones > 0 {
		s.Right = sayStepOf(m.Tones).String()
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
var toolSteps = map[string][2]language.Words{
	IconSelect: {"Select a note", "Select a note"},
	"stroke":   {"Draw a stroke", "Draw a stroke"},
	"arrow":    {"Draw an arrow to its place", "Draw an arrow"},
	"ring":     {"Draw a ring round it", "Draw a ring"},
	"box":      {"Draw a box round it", "Draw a box"},
	"label":    {"Click where the label goes", "Place a label"},
	IconSpot:   {"Click a spot to note its value", "Note a spot"},
}

// toolNames are what the tools are called, by their icons' names.
var toolNames = map[string]language.Words{
	IconSelect: "Select", IconLight: "Light", IconShadow: "Shadow", "stroke": "Stroke", "arrow": "Arrow", "ring": "Ring",
	"box": "Box", "label": "Label", IconSpot: "Spot",
}

// ToolName is what the tool with an icon is called, or what it draws.
func ToolName(icon string) string {
	if words, ok := toolNames[icon]; ok {
		return words.String()
	}
	return Capitalised(icon)
}

// SayToolStep is a tool's next step, by the name of its icon. measured is what is painted so
// far: Light and Shadow lead on from there.
func SayToolStep(icon string, measured notes.Measured) Sentence {
	if icon == IconLight || icon == IconShadow {
		return SayPainted(measured)
	}
	words := toolSteps[icon]
	return Sentence{Title: words[0].String(), Short: words[1].String(), Icon: icon}
}

// SayNote is the sentence on the selected note: its number on the picture and what it shows, by
// the name of its tool's icon; of a spot, its value. For painted light and shadow it is
// SayPainted.
func SayNote(number int, icon string, shape notes.Shape, measured notes.Measured, fromWhite bool) Sentence {
	switch at := shape.(type) {
	case notes.Area:
		return SayPainted(measured)
	case notes.Spot:
		value := language.Say("value\u00a0%s", ValueSay(at.Reading.Value, fromWhite))
		return Sentence{Title: language.Say("Spot %s is %s", strconv.Itoa(number), value), Short: language.Say("Spot %s", value), Bars: []Bar{spotBar("", at.Reading)}}
	}
	title := ToolName(icon) + " " + strconv.Itoa(number)
	return Sentence{Title: title, Short: title, Icon: icon}
}
