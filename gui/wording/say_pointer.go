package wording

import (
	"slices"

	"app.tonedesk/analysis"
	"app.tonedesk/gui/native"
)

// SayFromA says how far what lies under the pointer is from spot A, in tones, as values are counted:
// "−2.5 from A".
func SayFromA(under, a analysis.Spot, fromWhite bool) string {
	return SayValueDifference(a, under, fromWhite) + " from" + Nbsp + "A"
}

// SayAtPointer is the line beside the pointer: lightness, value, and the tones from spot A if there is
// one.
func SayAtPointer(under analysis.Spot, a *analysis.Spot, fromWhite bool) string {
	words := Tenth(under.Lightness) + "  value " + ValueSay(under.Value, fromWhite)
	if a != nil {
		words += "  " + SayValueDifference(*a, under, fromWhite) + " tones from A"
	}
	return words
}

// WidestAtPointer is a line of SayAtPointer that needs as much room as any.
func WidestAtPointer(fromA bool) string {
	if fromA {
		return "100.0  value 10.0  " + Signed(-10, 1) + " tones from A"
	}
	return "100.0  value 10.0"
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
