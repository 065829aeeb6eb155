package notes

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"maps"
	"reflect"
	"slices"
)

// Version is the layout of the notes that this program writes. Notes with a higher one come
// from a newer program and are never written over.
const Version = 1

// Limits of what is read as notes: far beyond what a hand draws.
const (
	MaxBytes = 64 << 20
	mostKept = 100_000 // notes of one still
)

var (
	// ErrDamaged: the bytes are no notes.
	ErrDamaged = errors.New("notes are damaged")
	// ErrNewer: the notes are a newer program's.
	ErrNewer = errors.New("notes of a newer version")
)

// Document is the notes of a still as they are written down, with what newer programs added
// to it.
type Document struct {
	Notes   []Note
	unknown map[string]json.RawMessage
}

// Encode writes the document as JSON, a note a line.
func (d Document) Encode() ([]byte, error) {
	var b bytes.Buffer
	fmt.Fprintf(&b, "{\n\"version\": %d,\n", Version)
	for _, name := range slices.Sorted(maps.Keys(d.unknown)) {
		key, err := json.Marshal(name)
		if err != nil {
			return nil, err
		}
		fmt.Fprintf(&b, "%s: ", key)
		if err := json.Compact(&b, d.unknown[name]); err != nil {
			return nil, err
		}
		b.WriteString(",\n")
	}
	b.WriteString("\"notes\": [")
	for i, n := range d.Notes {
		text, err := n.MarshalJSON()
		if err != nil {
			return nil, fmt.Errorf("note %d: %w", i+1, err)
		}
		if i > 0 {
			b.WriteByte(',')
		}
		b.WriteByte('\n')
		b.Write(text)
	}
	b.WriteString("\n]\n}\n")
	return b.Bytes(), nil
}

// Decode reads a document. What of it this program doesn't understand is kept and written
// back. The error wraps ErrDamaged, or ErrNewer where the version says so.
func Decode(text []byte) (Document, error) {
	if len(text) > MaxBytes {
		return Document{}, fmt.Errorf("%d bytes: %w", len(text), ErrDamaged)
	}
	var raw map[string]json.RawMessage
	if err := json.Unmarshal(text, &raw); err != nil || raw == nil {
		return Document{}, fmt.Errorf("%w: no JSON object", ErrDamaged)
	}
	var version int
	if err := json.Unmarshal(raw["version"], &version); err != nil || version < 1 {
		return Document{}, fmt.Errorf("%w: no version", ErrDamaged)
	}
	if version > Version {
		return Document{}, fmt.Errorf("version %d, known up to %d: %w", version, Version, ErrNewer)
	}
	var list []json.RawMessage
	if err := json.Unmarshal(raw["notes"], &list); err != nil || len(list) > mostKept {
		return Document{}, fmt.Errorf("%w: no list of notes", ErrDamaged)
	}
	delete(raw, "version")
	delete(raw, "notes")
	d := Document{Notes: make([]Note, len(list)), unknown: raw}
	seen := map[string]bool{}
	for i, text := range list {
		d.Notes[i] = decodeNote(text)
		if id := &d.Notes[i].ID; *id == "" || seen[*id] {
			*id = newID()
		}
		seen[d.Notes[i].ID] = true
	}
	return d, nil
}

// With returns the document with other notes.
func (d Document) With(notes []Note) Document {
	d.Notes = notes
	return d
}

// MarshalJSON writes a note as one object: its ID, kind and text, what its shape has, and
// what another program added. A note that this program doesn't understand is written as it
// was read.
func (n Note) MarshalJSON() ([]byte, error) {
	if n.raw != nil {
		return plainJSON(n.raw)
	}
	i := slices.IndexFunc(kinds, func(k kind) bool { return k.shape == reflect.TypeOf(n.Shape) })
	if i < 0 {
		return nil, fmt.Errorf("note of no kind: %T", n.Shape)
	}
	parts := []any{struct {
		ID   string `json:"id"`
		Kind string `json:"kind"`
		Text string `json:"text,omitempty"`
	}{n.ID, kinds[i].name, n.Text + n.rest}, n.Shape}
	if n.unknown != nil {
		parts = append(parts, n.unknown)
	}
	var b []byte
	for _, part := range parts {
		text, err := plainJSON(part)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", kinds[i].name, err)
		}
		b = append(append(b, ','), text[1:len(text)-1]...) // without its braces
	}
	b[0] = '{'
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

// decodeNote reads one note. One that this program doesn't understand, or that makes no
// sense, keeps its JSON and nothing else.
func decodeNote(text json.RawMessage) Note {
	var head struct{ ID, Kind, Text string }
	var fields map[string]json.RawMessage
	if json.Unmarshal(text, &head) != nil || json.Unmarshal(text, &fields) != nil {
		return Note{raw: text}
	}
	i := slices.IndexFunc(kinds, func(k kind) bool { return k.name == head.Kind })
	if i < 0 {
		return Note{ID: head.ID, raw: text}
	}
	shape, err := kinds[i].decode(text)
	if err != nil {
		return Note{ID: head.ID, raw: text}
	}
	maps.DeleteFunc(fields, func(name string, _ json.RawMessage) bool { return kinds[i].has(name) })
	n := Note{ID: head.ID, Shape: shape}
	n.Text, n.rest = cutText(head.Text)
	if len(fields) > 0 {
		n.unknown = fields
	}
	return n
}
