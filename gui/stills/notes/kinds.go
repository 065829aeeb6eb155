package notes

import (
	"encoding/json"
	"fmt"
	"reflect"
)

// kind is one kind of note.
type kind struct {
	name   string
	shape  reflect.Type
	fields []string // names of its JSON fields
}

// kinds by name, and by type.
var (
	kindByName = map[string]kind{}
	kindByType = map[reflect.Type]kind{}
)

// register makes a kind known by its name in JSON.
func register(name string, zero Shape) {
	k := kind{name: name, shape: reflect.TypeOf(zero)}
	for i := range k.shape.NumField() {
		k.fields = append(k.fields, k.shape.Field(i).Tag.Get("json"))
	}
	kindByName[name], kindByType[k.shape] = k, k
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
