package notes

import (
	"encoding/json"
	"fmt"
	"reflect"
	"slices"
)

// kind is one kind of note.
type kind struct {
	name   string // in JSON
	shape  reflect.Type
	fields []string // names of its JSON fields
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
	k := kind{name: name, shape: reflect.TypeOf(zero)}
	for i := range k.shape.NumField() {
		k.fields = append(k.fields, k.shape.Field(i).Tag.Get("json"))
	}
	return k
}

// findKind returns the kind that is meant, and whether there is one.
func findKind(meant func(kind) bool) (kind, bool) {
	if i := slices.IndexFunc(kinds, meant); i >= 0 {
		return kinds[i], true
	}
	return kind{}, false
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

// finePoints reports whether there are points, and all can be drawn.
func finePoints(points []Point) bool {
	for _, p := range points {
		if !p.Fine() {
			return false
		}
	}
	return len(points) > 0
}

// Limits of widths and text sizes, in still pixels.
const (
	leastWidth = 0.05
	mostWidth  = 10_000
)

// fineWidth reports whether a width or a size of text can be drawn.
func fineWidth(w float64) bool { return w >= leastWidth && w <= mostWidth }
