package command

import (
	"image"
	"math"
	"slices"
	"strconv"
	"strings"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/gui/wording"
)

// badValue is the usageError of an option whose value can't be used.
func badValue(name, value, why, act string) error {
	return usageError{"use --" + name + " " + wording.Quote(value), why, act}
}

// choice returns the option's value as one of the numbers on offer, or otherwise if it
// was not given.
func (a arguments) choice(name string, offered []int, otherwise int) (int, error) {
	if !a.given(name) {
		return otherwise, nil
	}
	text := a.values[name]
	n, err := strconv.Atoi(text)
	if err != nil || !slices.Contains(offered, n) || text != strconv.Itoa(n) {
		words := make([]string, len(offered))
		for i, o := range offered {
			words[i] = strconv.Itoa(o)
		}
		last := len(words) - 1
		return 0, badValue(name, text, "it is not one of the numbers on offer",
			"choose "+strings.Join(words[:last], ", ")+" or "+words[last])
	}
	return n, nil
}

// tolerance returns --tolerance in L*, 0.5 to 5.
func (a arguments) tolerance() (float64, error) {
	if !a.given("tolerance") {
		return analysis.DefaultTolerance, nil
	}
	text := a.values["tolerance"]
	t, err := strconv.ParseFloat(text, 64)
	if err != nil || math.IsNaN(t) || t < analysis.MinTolerance || t > analysis.MaxTolerance {
		return 0, badValue("tolerance", text, "it is not a difference of lightness from 0.5 to 5", "write a number such as 2.0")
	}
	return t, nil
}

// ground returns --ground, white if it was not given.
func (a arguments) ground() (colour.RGB, error) {
	if !a.given("ground") {
		return colour.RGB{R: 255, G: 255, B: 255}, nil
	}
	c, err := colour.Parse(a.values["ground"])
	if err != nil {
		return c, badValue("ground", a.values["ground"], "it is not a colour", "write it as #rgb, #rrggbb or rgb(r g b)")
	}
	return c, nil
}

// path returns the option's value as a path, "" if it was not given.
func (a arguments) path(name string) (string, error) {
	path := a.values[name]
	if a.given(name) && path == "" {
		return "", badValue(name, path, "it names no file", "name a picture file")
	}
	return path, nil
}

// spots returns the places of --spots, written x,y;x,y.
func (a arguments) spots() ([]image.Point, error) {
	if !a.given("spots") {
		return nil, nil
	}
	places, ok := parseSpots(a.values["spots"])
	if !ok {
		return nil, badValue("spots", a.values["spots"], "they are not pixels of a picture", "write them as x,y;x,y in whole pixels from the top left")
	}
	return places, nil
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
