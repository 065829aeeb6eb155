package wording

import (
	"math"

	"app.tonedesk/gui/language"
	"app.tonedesk/gui/stills/notes"
)

// SayTakeTool is the sentence on a picture without notes: marked says that it is a still already.
func SayTakeTool(marked bool) Sentence {
	if marked {
		return Sentence{Title: language.Say("Take a tool to mark it"), Short: language.Say("Take a tool"), Icon: IconSelect}
	}
	return Sentence{Title: language.Say("Take a tool to mark it"), Short: language.Say("Take a tool"), Right: language.Say("it is kept first"), Icon: IconSelect}
}

// SayReading is the reading of a note in a row of the list: of a spot its value, of
// painted shadow how far it is from the light; "" for none.
func SayReading(shape notes.Shape, measured notes.Measured, fromWhite bool) string {
	switch at := shape.(type) {
	case notes.Spot:
		return language.Say("value\u00a0%s", ValueSay(at.Reading.Value, fromWhite))
	case notes.Area:
		if at.Side != notes.Shadow || measured.Light == nil || measured.Shadow == nil {
			return ""
		}
		return SayTones(math.Abs(measured.Tones))
	}
	return ""
}

// SayWordless is the sentence on a selected note that says nothing yet, by the name of its tool's
// icon.
func SayWordless(icon string) Sentence {
	tool := ToolName(icon)
	return Sentence{Title: language.Say("%s without words", tool), Short: tool, Icon: icon}
}
