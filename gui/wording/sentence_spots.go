package wording

import (
	"math"

	"app.tonedesk/analysis"
	"app.tonedesk/gui/language"
)

// Spans of tones that the words on a distance tell apart, as printed, limits included (common
// practice, no source).
const (
	readsFrom = 2.0 // a shadow this many tones darker reads as a shadow
	readsTo   = 3.0
)

// SayPair is the sentence of a pair of spots with the names a and b, with a line below it.
// That tells first what misleads: how a grey layer would show the pair.
func SayPair(p analysis.Pair, a, b string) Sentence {
	s := pairSentence(p, a, b)
	s.Below, s.BelowShort = SayPairMeaning(p), pairStep(p).String()
	if remark := SayRemark(p.LayerGreyRemark()); remark != "" {
		s.Below, s.BelowShort = remark, shortRemark(p.LayerGreyRemark())
	}
	return s
}

// SayPairInLine is the sentence of a pair where it has one line only.
func SayPairInLine(p analysis.Pair, a, b string) Sentence {
	s := pairSentence(p, a, b)
	s.Right = pairStep(p).String()
	return s
}

// pairSentence is what both have in common. The direction is b's, seen from a.
func pairSentence(p analysis.Pair, a, b string) Sentence {
	s := Sentence{Title: language.Say("Same lightness"), Short: language.Say("Same lightness"), Bars: []Bar{spotBar(a, p.A), spotBar(b, p.B)}}
	if p.Verdict != analysis.Same {
		step := sayStepWay(p.Tones, p.LightnessDifference)
		s.Title, s.Short = language.Say("%s is %s", b, step), b+" "+step
	}
	return s
}

// sayStepWay says how far and which way: "2.5 tones darker". What is there is never said to
// be nought; way is the difference whose sign counts.
func sayStepWay(tones, way float64) string {
	apart := math.Abs(tones)
	if analysis.AsPrinted(apart) == 0 {
		return language.Say("under\u00a0%s\u00a0tones %s", Tenth(0.1), direction(way))
	}
	return language.Say("%s\u00a0tones %s", Tenth(apart), direction(way))
}

// SayPairMeaning says what the distance of a pair means in the trade. It describes and
// doesn't judge.
func SayPairMeaning(p analysis.Pair) string {
	switch p.Verdict {
	case analysis.Same:
		if d := math.Abs(p.LightnessDifference); analysis.AsPrinted(d) != 0 {
			return language.Say("Lightness differs by %s", Tenth(d))
		}
		return language.Say("No difference in lightness")
	case analysis.Close:
		return language.Say("Close: half a tone or less")
	}
	step := pairStep(p)
	switch sayStepOf(p.Tones) {
	case stepSoft:
		return language.Say("Under two tones: %s", step)
	case stepStrong:
		return language.Say("Over three tones: %s", step)
	}
	return language.Say("Two to three tones: %s", step)
}

// Words on a distance.
const (
	stepSoft   language.Words = "a soft step"
	stepReads  language.Words = "reads"
	stepStrong language.Words = "a strong step"
)

// narrowStep says the same where there is little room.
func narrowStep(step language.Words) language.Words {
	switch step {
	case stepSoft:
		return "soft"
	case stepStrong:
		return "strong"
	}
	return step
}

// sayStepOf puts a distance in tones into one word or three, whichever way it goes.
func sayStepOf(tones float64) language.Words {
	switch apart := analysis.AsPrinted(math.Abs(tones)); {
	case apart < readsFrom:
		return stepSoft
	case apart > readsTo:
		return stepStrong
	}
	return stepReads
}

// pairStep says what a pair's distance means in a few words; "" for a pair that is the same.
func pairStep(p analysis.Pair) language.Words {
	switch step := sayStepOf(p.Tones); {
	case p.Verdict == analysis.Same:
		return ""
	case p.Verdict == analysis.Close:
		return "close"
	case step != stepReads:
		return step
	case p.LightnessDifference > 0:
		return "a light that reads"
	}
	return "a shadow that reads"
}

// SayRemark says how a grey layer would mislead about a pair, "" where it wouldn't.
func SayRemark(r analysis.Remark) string {
	switch r {
	case analysis.ShowsDifference:
		return language.Say("A grey layer shows a difference here")
	case analysis.HidesDifference:
		return language.Say("A grey layer hides this difference")
	}
	return ""
}

func shortRemark(r analysis.Remark) string {
	if r == analysis.ShowsDifference {
		return language.Say("A grey layer misleads")
	}
	return language.Say("A grey layer hides it")
}

// SayOneSpot is the sentence of the only spot, by its name.
func SayOneSpot(name string, s analysis.Spot, fromWhite bool) Sentence {
	value := language.Say("value\u00a0%s", ValueSay(s.Value, fromWhite))
	return Sentence{
		Title: language.Say("%s is %s¦value", name, value), Short: name + " " + value, Bars: []Bar{spotBar(name, s)},
		Below: language.Say("A second click compares with it"), BelowShort: language.Say("Click to compare"),
	}
}
