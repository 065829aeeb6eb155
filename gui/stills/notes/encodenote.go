package notes

import (
	"bytes"
	"encoding/json"
	"fmt"
	"maps"
	"reflect"
	"slices"
	"strings"
)

// MarshalJSON writes a note as one object: its ID, kind and text, what its shape has, and
// what another program added. A note that this program doesn't understand is written as it
// was read.
func (n Note) MarshalJSON() ([]byte, error) {
	if n.raw != nil {
		return compact(n.raw)
	}
	k, ok := findKind(func(k kind) bool { return k.shape == reflect.TypeOf(n.Shape) })
	if !ok {
		return nil, fmt.Errorf("note of no kind: %T", n.Shape)
	}
	shape, err := plainJSON(n.Shape)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", k.name, err)
	}
	head := struct {
		ID   string `json:"id"`
		Kind string `json:"kind"`
		Text string `json:"text,omitempty"`
	}{n.ID, k.name, n.Text}
	b, err := plainJSON(head)
	if err != nil {
		return nil, err
	}
	b = append(b[:len(b)-1], ',')
	b = append(b, shape[1:len(shape)-1]...)
	for _, name := range slices.Sorted(maps.Keys(n.unknown)) {
		field, err := plainJSON(map[string]json.RawMessage{name: n.unknown[name]})
		if err != nil {
			return nil, err
		}
		b = append(append(b, ','), field[1:len(field)-1]...)
	}
	return append(b, '}'), nil
}

// plainJSON writes v on one line, its text as it is read.
func plainJSON(v any) ([]byte, error) {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	if err := e.Encode(v); err != nil {
		return nil, err
	}
	return bytes.TrimSuffix(b.Bytes(), []byte("\n")), nil
}

func compact(text []byte) ([]byte, error) {
	var b bytes.Buffer
	err := json.Compact(&b, text)
	return b.Bytes(), err
}

// decodeNote reads one note. One that this program doesn't understand, or that makes no
// sense, keeps its JSON and nothing else.
func decodeNote(text json.RawMessage) Note {
	var head struct{ ID, Kind, Text string }
	var fields map[string]json.RawMessage
	if json.Unmarshal(text, &head) != nil || json.Unmarshal(text, &fields) != nil {
		return Note{raw: text}
	}
	k, known := findKind(func(k kind) bool { return k.name == head.Kind })
	if !known {
		return Note{ID: head.ID, raw: text}
	}
	shape, err := k.decode(text)
	if err != nil {
		return Note{ID: head.ID, raw: text}
	}
	maps.DeleteFunc(fields, func(name string, _ json.RawMessage) bool { return k.has(name) })
	n := Note{ID: head.ID, Shape: shape, Text: head.Text}
	if len(fields) > 0 {
		n.unknown = fields
	}
	return n
}

// has reports whether a name is that of a field of this kind of note, as encoding/json
// compares names.
func (k kind) has(name string) bool {
	same := func(field string) bool { return strings.EqualFold(field, name) }
	return slices.ContainsFunc([]string{"id", "kind", "text"}, same) || slices.ContainsFunc(k.fields, same)
}
