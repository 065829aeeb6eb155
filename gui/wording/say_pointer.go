package wording

import (
	"slices"

	"app.tonedesk/analysis"
	"app.tonedesk/gui/language"
	"app.tonedesk/gui/native"
)

// SayFromA says how far what lies under the pointer is from spot A, in tones, as values are counted:
// "−2.5 from A".
func SayFromA(under, a analysis.Spot, fromWhite bool) string {
	return language.Say("%s from\u00a0A", SayValueDifference(a, under, fromWhite))
}

// SayAtPointer is the line beside the pointer: lightness, value, and the tones from spot A if there is
// one.
func SayAtPointer(under analysis.Spot, a *analysis.Spot, fromWhite bool) string {
	if a != nil {
		return atPointer(Tenth(under.Lightness), ValueSay(under.Value, fromWhite), SayValueDifference(*a, under, fromWhite))
	}
	return atPointer(Tenth(under.Lightness), ValueSay(under.Value, fromWhite), "")
}

// WidestAtPointer is a line of SayAtPointer that needs as much room as any.
func WidestAtPointer(fromA bool) string {
	if fromA {
		return atPointer(Tenth(100), Tenth(10), Signed(-10, 1))
	}
	return atPointer(Tenth(100), Tenth(10), "")
}

func atPointer(lightness, value, fromA string) string {
	if fromA == "" {
		return language.Say("%s  value %s", lightness, value)
	}
	return language.Say("%s  value %s  %s tones from A", lightness, value, fromA)
}

// chipReasons are why nothing can be shown beside the pointer.
var chipReasons = []reason{
	{native.ErrOtherDisplay, "another display than this window's is watched", "read in the strip under the picture instead"},
	{native.ErrUnsupported, "there is no way to do it on this system", "read in the strip under the picture instead"},
	{native.ErrRefused, "this display offers no way to let clicks through", "read in the strip under the picture instead"},
}

// ExplainChip says why nothing is shown beside the pointer.
func ExplainChip(err error) string {
	return explain("show the reading beside the pointer", err, slices.Concat(chipReasons, reasons))
}
