package notes

import (
	"encoding/json"
	"fmt"
	"reflect"
	"slices"
	"strings"

	"app.tonedesk/gui/stills/ink"
)

// kind is one kind of note.
type kind struct {
	name   string // in JSON
	shape  reflect.Type
	fields []string // names of a note's JSON fields
}

// kinds lists the kinds of notes. A new one is a file kind_name.go and its line here.
var kinds = []kind{
	kindOf("stroke", Stroke{}),
	kindOf("arrow", Arrow{}),
	kindOf("ring", Ring{}),
	kindOf("box", Box{}),
	kindOf("label", Label{}),
	kindOf("spot", Spot{}),
	kindOf("area", Area{}),
}

func kindOf(name string, zero Shape) kind {
	k := kind{name, reflect.TypeOf(zero), []string{"id", "kind", "text"}}
	for i := range k.shape.NumField() {
		k.fields = append(k.fields, k.shape.Field(i).Tag.Get("json"))
	}
	return k
}

// decode reads a shape of this kind out of a note's JSON.
func (k kind) decode(text []byte) (Shape, error) {
	shape := reflect.New(k.shape)
	if err := json.Unmarshal(text, shape.Interface()); err != nil {
		return nil, err
	}
	s := shape.Elem().Interface().(Shape)
	if !s.fine() {
		return nil, fmt.Errorf("%s that can't be drawn", k.name)
	}
	return s, nil
}

// has reports whether a name is that of a field of this kind of note, as encoding/json
// compares names.
func (k kind) has(name string) bool {
	return slices.ContainsFunc(k.fields, func(field string) bool { return strings.EqualFold(field, name) })
}

// mapped returns where at takes points, in a slice of their own.
func mapped(points []ink.Point, at func(ink.Point) ink.Point) []ink.Point {
	to := make([]ink.Point, len(points))
	for i, p := range points {
		to[i] = at(p)
	}
	return to
}

// finePoints reports whether there are points, and all can be drawn.
func finePoints(points []ink.Point) bool {
	return len(points) > 0 && !slices.ContainsFunc(points, func(p ink.Point) bool { return !p.Fine() })
}

// Limits of widths and text sizes, in still pixels.
const (
	leastWidth = 0.05
	mostWidth  = 10_000
)

// fineWidth reports whether a width or a size of text can be drawn.
func fineWidth(w float64) bool { return w >= leastWidth && w <= mostWidth }
