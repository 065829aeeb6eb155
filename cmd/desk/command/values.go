package command

import (
	"image"
	"math"
	"slices"
	"strconv"
	"strings"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/gui/wording"
)

// The readers of options leave alone what they would set where the option was not given.
// Their errors are usageErrors.

// badValue is the usageError of an option whose value can't be used.
func badValue(name, value string, why, act wording.Phrase) error {
	return usageError{wording.On("use %s", "--"+name+" "+value), why, act}
}

// oneOf sets v to what the option's value stands for.
func oneOf[T any](a arguments, name string, v *T, words map[string]T, why, act wording.Phrase) error {
	if !a.given(name) {
		return nil
	}
	found, ok := words[a.values[name]]
	if !ok {
		return badValue(name, a.values[name], why, act)
	}
	*v = found
	return nil
}

// oneNumberOf sets v to the option's value, one of the numbers that act offers.
func (a arguments) oneNumberOf(name string, v *int, offered []int, act wording.Phrase) error {
	words := map[string]int{}
	for _, n := range offered {
		words[strconv.Itoa(n)] = n
	}
	return oneOf(a, name, v, words, "it is not one of the numbers on offer", act)
}

// number is an option whose value is a number within limits.
type number struct {
	name     string
	value    *float64 // what it sets
	from, to float64
	why, act wording.Phrase // of the usageError
}

func (a arguments) number(n number) error {
	if !a.given(n.name) {
		return nil
	}
	text := a.values[n.name]
	v, err := strconv.ParseFloat(text, 64)
	if err != nil || math.IsNaN(v) || v < n.from || v > n.to {
		return badValue(n.name, text, n.why, n.act)
	}
	*n.value = v
	return nil
}

// colour sets c to the option's value.
func (a arguments) colour(name string, c *colour.RGB) error {
	if !a.given(name) {
		return nil
	}
	read, err := colour.Parse(a.values[name])
	if err != nil {
		return badValue(name, a.values[name], "it is not a colour", "write it as #rgb, #rrggbb or rgb(r g b)")
	}
	*c = read
	return nil
}

// file sets path to the option's value; the words in not name no file.
func (a arguments) file(name string, path *string, act wording.Phrase, not ...string) error {
	*path = a.values[name]
	if a.given(name) && slices.Contains(not, *path) {
		return badValue(name, *path, "it names no file", act)
	}
	return nil
}

// spots sets places to those of an option, written x,y;x,y.
func (a arguments) spots(name string, places *[]image.Point) error {
	if !a.given(name) {
		return nil
	}
	read, ok := parseSpots(a.values[name])
	if !ok {
		return badValue(name, a.values[name], "they are not pixels of a picture", "write them as x,y;x,y in whole pixels from the top left")
	}
	*places = read
	return nil
}

// parseSpots reads places written x,y;x,y, in whole pixels from 0. Spaces may stand
// around a number, and a semicolon at the end.
func parseSpots(text string) ([]image.Point, bool) {
	var places []image.Point
	for word := range strings.SplitSeq(strings.TrimSuffix(strings.TrimSpace(text), ";"), ";") {
		across, down, ok := strings.Cut(word, ",")
		x, okX := parsePixel(across)
		y, okY := parsePixel(down)
		if !ok || !okX || !okY {
			return nil, false
		}
		places = append(places, image.Pt(x, y))
	}
	return places, true
}

// parsePixel reads a whole number of pixels from 0.
func parsePixel(text string) (int, bool) {
	n, err := strconv.ParseUint(strings.TrimSpace(text), 10, 31)
	return int(n), err == nil
}
