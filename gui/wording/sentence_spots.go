package wording

import (
	"math"

	"app.tonedesk/analysis"
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
	s.Below, s.BelowShort = SayPairMeaning(p), pairStep(p)
	if remark := SayRemark(p.LayerGreyRemark()); remark != "" {
		s.Below, s.BelowShort = remark, shortRemark(p.LayerGreyRemark())
	}
	return s
}

// SayPairInLine is the sentence of a pair where it has one line only.
func SayPairInLine(p analysis.Pair, a, b string) Sentence {
	s := pairSentence(p, a, b)
	s.Right = pairStep(p)
	return s
}

// pairSentence is what both have in common. The direction is b's, seen from a.
func pairSentence(p analysis.Pair, a, b string) Sentence {
	s := Sentence{Title: "Same lightness", Short: "Same lightness", Bars: []Bar{spotBar(a, p.A), spotBar(b, p.B)}}
	if p.Verdict != analysis.Same {
		step := sayStepWay(p.Tones, p.LightnessDifference)
		s.Title, s.Short = b+" is "+step, b+" "+step
	}
	return s
}

// sayStepWay says how far and which way: "2.5 tones darker". What is there is never said to
// be nought; way is the difference whose sign counts.
func sayStepWay(tones, way float64) string {
	figure := Tenth(math.Abs(tones))
	if figure == "0.0" {
		figure = "under" + Nbsp + "0.1"
	}
	return figure + Nbsp + "tones " + direction(way)
}

// SayPairMeaning says what the distance of a pair means in the trade. It describes and
// doesn't judge.
func SayPairMeaning(p analysis.Pair) string {
	switch p.Verdict {
	case analysis.Same:
		if d := Tenth(math.Abs(p.LightnessDifference)); d != "0.0" {
			return "Lightness differs by " + d
		}
		return "No difference in lightness"
	case analysis.Close:
		return "Close: half a tone or less"
	}
	span := map[string]string{stepSoft: "Under two tones: ", stepStrong: "Over three tones: "}[sayStepOf(p.Tones)]
	if span == "" {
		span = "Two to three tones: "
	}
	return span + pairStep(p)
}

// Words on a distance.
const (
	stepSoft   = "a soft step"
	stepReads  = "reads"
	stepStrong = "a strong step"
)

// sayStepOf puts a distance in tones into one word or three, whichever way it goes.
func sayStepOf(tones float64) string {
	switch apart := analysis.AsPrinted(math.Abs(tones)); {
	case apart < readsFrom:
		return stepSoft
	case apart > readsTo:
		return stepStrong
	}
	return stepReads
}

// pairStep says what a pair's distance means in a few words; "" for a pair that is the same.
func pairStep(p analysis.Pair) string {
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
		return "A grey layer shows a difference here"
	case analysis.HidesDifference:
		return "A grey layer hides this difference"
	}
	return ""
}

func shortRemark(r analysis.Remark) string {
	if r == analysis.ShowsDifference {
		return "A grey layer misleads"
	}
	return "A grey layer hides it"
}

// SayOneSpot is the sentence of the only spot, by its name.
func SayOneSpot(name string, s analysis.Spot, fromWhite bool) Sentence {
	value := "value" + Nbsp + ValueSay(s.Value, fromWhite)
	return Sentence{
		Title: name + " is " + value, Short: name + " " + value, Bars: []Bar{spotBar(name, s)},
		Below: "A second click compares with it", BelowShort: "Click to compare",
	}
}
