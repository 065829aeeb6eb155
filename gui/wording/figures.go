package wording

import (
	"cmp"
	"math"
	"slices"
	"strconv"
	"time"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/views"
	"app.tonedesk/gui/language"
)

const (
	Nbsp    = "\u00a0" // keeps a number and its unit on one line
	minus   = "\u2212" // as wide as the figures, unlike the hyphen
	Unknown = "\u2013" // stands where there is no number
	times   = "\u00d7" // between width and height
)

// Tenth returns v with one decimal, as everything measured is shown, so that live readings
// keep their width; a dash where there is no number. It never says minus nought, and it
// rounds as the limits do, which compare the number as printed.
func Tenth(v float64) string { return figure(analysis.AsPrinted(v), 1) }

// Whole returns v rounded to a whole number, a dash where there is no number.
func Whole(v float64) string { return figure(math.Round(v), 0) }

// figure writes a number that is rounded already.
func figure(v float64, decimals int) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return Unknown
	}
	s := language.Number(math.Abs(v), decimals)
	if v < 0 {
		return minus + s
	}
	return s
}

// Percent returns a share, 0 to 1, in whole percent. What is there but rounds to nought is
// said to be under one.
func Percent(share float64) string {
	switch {
	case math.IsNaN(share) || math.IsInf(share, 0):
		return Unknown
	case share > 0 && share < 0.005:
		return "<1" + Nbsp + "%"
	}
	return Whole(100*share) + Nbsp + "%"
}

// GroupShares returns the shares of groups in whole percent that add up to 100: those that
// were cut most by rounding down get what is left (the method of the largest remainder).
func GroupShares(groups []analysis.Group) []string {
	words, whole, left := make([]string, len(groups)), make([]int, len(groups)), 100
	order := make([]int, len(groups))
	rest := func(i int) float64 { return 100*groups[i].Share - float64(whole[i]) }
	for i, g := range groups {
		order[i], whole[i] = i, int(100*g.Share)
		left -= whole[i]
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(rest(b), rest(a)) })
	for _, i := range order[:max(0, min(left, len(order)))] {
		whole[i]++
	}
	for i, g := range groups {
		if words[i] = strconv.Itoa(whole[i]) + Nbsp + "%"; whole[i] == 0 {
			words[i] = Percent(min(g.Share, 0.004)) // not none, where there is a little
		}
	}
	return words
}

// ValueSay returns a value with one decimal, counted from white if so set: then white is 0
// and black 10.
func ValueSay(value float64, fromWhite bool) string {
	if fromWhite {
		value = colour.FromWhite(value)
	}
	return Tenth(value)
}

// HueSay returns a hue in degrees, without the sign, a dash for a neutral, which has none.
func HueSay(hue *float64) string {
	if hue == nil {
		return Unknown
	}
	return Tenth(math.Mod(analysis.AsPrinted(*hue), 360)) // 359.96 rounds to where the circle begins again
}

// SayTones returns a difference of value with its unit.
func SayTones(tones float64) string { return language.Say("%s\u00a0tones", Tenth(tones)) }

// direction says where a difference of lightness or value goes.
func direction(difference float64) string {
	if difference < 0 {
		return language.Say("darker")
	}
	return language.Say("lighter")
}

// SayKnob says where a knob stands: "Strength 2 % of the longer side".
func SayKnob(k views.Knob, at float64) string {
	words := language.Name(k.Name) + Nbsp + language.Number(math.Round(at*100)/100, -1)
	if k.Unit != "" {
		words += Nbsp + language.Name(k.Unit)
	}
	return words
}

// SayKnobShort says the same where there is little room: "5 steps".
func SayKnobShort(k views.Knob, at float64) string {
	if k.Name == "Bands" {
		return language.Say("%s\u00a0steps", strconv.FormatFloat(at, 'f', 0, 64))
	}
	return SayKnob(k, at)
}

// Age returns a time span in words. It gets coarser as the span grows, so that a
// counter doesn't draw the eye: seconds up to ten, then tens of seconds, minutes, hours.
func Age(d time.Duration) string {
	switch {
	case d < time.Second:
		return language.Say("under 1\u00a0s")
	case d < 10*time.Second:
		return language.Say("%s\u00a0s", strconv.Itoa(int(d/time.Second)))
	case d < time.Minute:
		return language.Say("%s\u00a0s", strconv.Itoa(int(d/(10*time.Second))*10))
	case d < time.Hour:
		return language.Say("%s\u00a0min", strconv.Itoa(int(d/time.Minute)))
	}
	return language.Say("%s\u00a0h", strconv.Itoa(int(d/time.Hour)))
}

// SizeSay returns a picture's size in pixels.
func SizeSay(width, height int) string {
	return strconv.Itoa(width) + Nbsp + times + Nbsp + strconv.Itoa(height)
}

// RateSay returns how often a source is asked, in frames a second, "10 a second"; 0 is for as often as
// it pays.
func RateSay(perSecond float64) string {
	if perSecond == 0 {
		return language.Say("automatic")
	}
	return language.Say("%s\u00a0a\u00a0second", language.Number(math.Round(10*perSecond)/10, -1))
}

// SayCounted says how much of a picture is counted, a share in [0, 1]; "" where that is all of
// it or unknown. What is not all of it is never 100 %.
func SayCounted(share float64) string {
	if !(share < 1) {
		return ""
	}
	return language.Say("%s counted", Percent(min(share, 0.99)))
}

// SayWorkspace asks about a workspace around the canvas that takes up a part of what is watched,
// a share in [0, 1] of a region or of a picture.
func SayWorkspace(part float64, region bool) string {
	if region {
		return language.Say("A plain frame, %s of the region. Leave it out?", Percent(part))
	}
	return language.Say("A plain frame, %s of the picture. Leave it out?", Percent(part))
}

// SayStrip says what stands below a picture that is the last one of a source that is lost, or of which a
// part would be left out, a share in [0, 1]: from the longest words to the shortest; "" for nothing.
func SayStrip(lost bool, part float64) (words [3]string) {
	switch {
	case lost:
		words[0] = language.Say("the last picture")
	case part > 0:
		left := Percent(1 - part)
		words[0], words[1] = language.Say("%s would be counted", left), left
	}
	return words
}
