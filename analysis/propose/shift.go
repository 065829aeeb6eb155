package propose

import (
	"math"

	"app.tonedesk/analysis/families"
)

// The hue shift of a shadow: the first tone turns a hue the most, each further one by a part
// of the one before (our choice: skin turns by about 20, 32 and 40 degrees after one, two
// and three tones).
const (
	fullShift = 135.0 // degrees by which a Turn of 1 turns skin at the first tone
	taper     = 0.6   // of the tone before
)

// SkinShift returns by how many degrees skin turns in the shadow at the first tone, for a Turn
// of 0 to 1. It stands for the setting, whose own number says little.
func SkinShift(turn float64) float64 { return fullShift * turn }

// tapered returns how many first tones of hue shift so many tones make.
func tapered(tones float64) float64 { return (1 - math.Pow(taper, tones)) / (1 - taper) }

// strength is how far a hue shifts beside skin, whose strength is 1. Between two of them it
// runs straight.
type strength struct{ hue, share float64 }

// fallingShift and risingShift are the strengths of hues that turn downwards, as from yellow
// to red, and upwards, as from green to blue (our choice). Yellow turns so far that three
// tones of it end in red-brown; that red, green and teal keep their names for two tones
// (families' limits of names: 359, 126, 169 degrees) lets them shift by less, the nearer they
// are to a limit: a share of 1/56 per degree is six tenths of the way to it at two tones. At
// 125.5 degrees the way that warm light leads turns round, so that both begin there at 0.
var (
	fallingShift = []strength{
		{-1, 0}, {55, 1}, {110, 1.5}, {125.5, 0}, {126, 0}, {150, 0.43}, {169, 0},
		{197, 0.5}, {350, 0.5}, {359, 0},
	}
	risingShift = []strength{{-1, 0.5}, {125.5, 0.5}, {125.6, 0}, {141, 0.5}, {169, 0}, {180, 0.5}, {359, 0.5}}
)

// strengthAt returns the strength of a hue in [-1, 359).
func strengthAt(table []strength, hue float64) float64 {
	for i := 1; i < len(table); i++ {
		if p, q := table[i-1], table[i]; hue <= q.hue {
			return p.share + (hue-p.hue)/(q.hue-p.hue)*(q.share-p.share)
		}
	}
	return table[len(table)-1].share
}

// shadowShift returns how far a hue turns in the shadow so many tones darker, in degrees:
// never farther than to the shadow's hue.
func shadowShift(hue, shadow, turn, tones float64) float64 {
	way, table := wayToShadow(hue, shadow), risingShift
	if way < 0 {
		table = fallingShift
	}
	at := hue
	if at >= 359 {
		at -= 360
	}
	shift := SkinShift(turn) * strengthAt(table, at) * tapered(tones)
	return math.Copysign(min(shift, math.Abs(way)), way)
}

// Hues of Oklch, in degrees, between which the trade turns warm colours downwards through
// red (common practice, no source).
const (
	warmFrom = 0.0
	warmTo   = 125.0
)

// wayToShadow returns the way, in degrees, that a hue turns on its way to the shadow's: warm
// hues, from 0 to 125, turn downwards, through red; all others the shorter way. So yellow
// goes by orange and red-brown, never by green. Where the shadow is itself no cool
// hue (180 to 360), that way would lead all round the circle: the shorter way, there too.
func wayToShadow(hue, shadow float64) float64 {
	if hue >= warmFrom && hue <= warmTo && shadow >= 180 {
		return shadow - 360 - hue
	}
	return families.TurnBetween(hue, shadow)
}

// What happens to a colour toward the light: it keeps more of its own hue than toward the
// shadow, and pales (common practice, no source).
const (
	lightTurnMost = 15.0 // degrees per tone
	lightTurn     = 0.25 // of the way to the light's hue, per tone, by the default setting
	lightLoss     = 0.1  // of saturation per tone, beside what a shadow gains
)

// wayToLight returns the way that a hue turns on its way into the light, whose hue is across
// the circle from the shadow's: always the other way than into the shadow. Where that would
// lead more than half round, the hue stays.
func wayToLight(hue, shadow float64) float64 {
	way := families.TurnBetween(hue, shadow+180)
	if back := wayToShadow(hue, shadow); way*back > 0 {
		return 0
	}
	return way
}
