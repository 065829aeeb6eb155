package notes

import (
	"bytes"
	"errors"
	"reflect"
	"strings"
	"testing"
	"unicode/utf8"

	"pgregory.net/rapid"

	"app.tonedesk/gui/stills/ink"
)

// What is written down is read again, note for note.
func TestEncodeAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		list := rapid.SliceOfN(rapid.Custom(someNote), 0, 6).Draw(t, "notes")
		text, err := Document{Notes: list}.Encode()
		if err != nil {
			t.Fatal(err)
		}
		d, err := Decode(text)
		if err != nil {
			t.Fatalf("%v: %s", err, text)
		}
		again, err := d.Encode()
		if err != nil || !bytes.Equal(text, again) {
			t.Fatalf("%v:\n%s\nbecomes\n%s", err, text, again)
		}
		for i, n := range list {
			s, isSpot := n.Shape.(Spot)
			if isSpot { // of its reading, what is written is what counts
				s.Reading = d.Notes[i].Shape.(Spot).Reading
				n.Shape = s
			}
			if !reflect.DeepEqual(n, d.Notes[i]) {
				t.Fatalf("%+v becomes %+v", n, d.Notes[i])
			}
		}
	})
}

// A newer program's fields and kinds survive our changes; a newer version is refused.
func TestForeignFieldsSurvive(t *testing.T) {
	const text = `{"version": 1, "paper": {"grain": 3}, "notes": [
		{"id": "a", "kind": "ring", "from": [1, 2], "to": [3, 4], "width": 2, "dash": [4, 2]},
		{"id": "b", "kind": "spiral", "turns": 5},
		{"id": "c", "kind": "ring", "from": "here"},
		17
	]}`
	d, err := Decode([]byte(text))
	if err != nil {
		t.Fatal(err)
	}
	l := NewList(d.Notes)
	for _, n := range l.All() {
		l.Replace(n.Moved(ink.Pt(10, 0)).WithText("moved"), "")
	}
	out, err := d.With(l.All()).Encode()
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{
		`"paper": {"grain":3}`,
		`{"id":"a","kind":"ring","text":"moved","from":[11,2],"to":[13,4],"width":2,"dash":[4,2]}`,
		`{"id":"b","kind":"spiral","turns":5}`,
		`{"id":"c","kind":"ring","from":"here"}`,
		"\n17\n",
	} {
		if !strings.Contains(string(out), want) {
			t.Errorf("%s is not in\n%s", want, out)
		}
	}
	if d.Notes[1].Known() || d.Notes[2].Known() || d.Notes[3].Known() || !d.Notes[0].Known() {
		t.Error("which notes are understood is wrong")
	}
	if got := (View{Scale: 1, Pixel: 1}).Marks(d.Notes[1:]); len(got) != 0 {
		t.Errorf("what is not understood draws %v", got)
	}
}

func TestDecodeRefuses(t *testing.T) {
	for text, want := range map[string]error{
		`{"version": 2, "notes": []}`:   ErrNewer,
		`{"version": 1}`:                ErrDamaged,
		`{"notes": []}`:                 ErrDamaged,
		`{"version": 0, "notes": []}`:   ErrDamaged,
		`{"version": "1", "notes": []}`: ErrDamaged,
		`[]`:                            ErrDamaged,
		`null`:                          ErrDamaged,
		``:                              ErrDamaged,
		`{"version": 1, "notes": [`:     ErrDamaged,
		`{"version": 1, "notes": {}}`:   ErrDamaged,
	} {
		if _, err := Decode([]byte(text)); !errors.Is(err, want) {
			t.Errorf("%q gives %v, want %v", text, err, want)
		}
	}
}

// Shapes that can't be drawn are kept but not shown, so that no drawing meets one.
func TestShapesThatCannotBeDrawn(t *testing.T) {
	for _, fields := range []string{
		`"kind": "stroke", "points": [], "width": 2`,
		`"kind": "stroke", "points": [[1, 2]], "width": 0`,
		`"kind": "stroke", "points": [[1, 2], [1e300, 0]], "width": 2`,
		`"kind": "stroke", "points": [[1]], "width": 2`,
		`"kind": "ring", "from": [1, 1], "to": [2, 2], "width": 1e9`,
		`"kind": "area", "side": "dusk", "points": [[1, 1]], "width": 9`,
		`"kind": "label", "at": [1, 1], "size": -4`,
		`"kind": "spot", "at": [1, 1], "reading": {"colour": "mauve"}`,
	} {
		d, err := Decode([]byte(`{"version": 1, "notes": [{` + fields + `}]}`))
		if err != nil || d.Notes[0].Known() {
			t.Errorf("%s: %v, known %v", fields, err, d.Notes[0].Known())
		}
	}
}

// Whatever lies in the notes file: it is read or refused, and what is read can be drawn,
// moved, written and read again to the same.
func FuzzDecode(f *testing.F) {
	f.Add([]byte(`{"version": 1, "notes": [{"id": "a", "kind": "ring", "from": [1, 2], "to": [3, 4], "width": 2, "Width": 3}]}`))
	f.Add([]byte(`{"version": 1, "x": [1], "notes": [{"kind": "area", "side": "light", "points": [[1, 2], [3, 4]], "width": 9}, {"kind": "label", "at": [0, 0], "size": 12, "text": "\ud800"}]}`))
	f.Add([]byte(`{"version": 1, "notes": [{"kind": "spot", "at": [1, 1], "reading": {"colour": "#aabbcc"}}, {"kind": "stroke", "points": [[1, 1], [1, 1]], "width": 1}, {"kind": "arrow", "from": [0, 0], "to": [9, 9], "width": 1}]}`))
	f.Fuzz(func(t *testing.T, text []byte) {
		d, err := Decode(text)
		if err != nil {
			if !errors.Is(err, ErrDamaged) && !errors.Is(err, ErrNewer) {
				t.Fatalf("%v is no word for %q", err, text)
			}
			return
		}
		v := View{Scale: 0.5, Pixel: 1}
		v.Marks(d.Notes)
		out, err := d.Encode()
		if err != nil {
			t.Fatalf("%q can be read, not written: %v", text, err)
		}
		again, err := Decode(out)
		if err != nil || len(again.Notes) != len(d.Notes) {
			t.Fatalf("%q becomes %q: %v", text, out, err)
		}
		for i, n := range d.Notes {
			if n.Known() != again.Notes[i].Known() || n.Known() && !writtenAlike(n, again.Notes[i]) {
				t.Fatalf("note %d of %q becomes another in %q", i+1, text, out)
			}
			n.Moved(ink.Pt(3, 4))
		}
	})
}

// writtenAlike reports whether two notes are written down alike.
func writtenAlike(a, b Note) bool {
	x, errX := a.MarshalJSON()
	y, errY := b.MarshalJSON()
	return errX == nil && errY == nil && string(x) == string(y)
}

// Of a text that is too long the beginning is shown, and all of it is written back, whatever
// becomes of the beginning.
func TestLongTextStaysWhole(t *testing.T) {
	long := strings.Repeat("ä", MostText) + "and the rest"
	d, err := Decode([]byte(`{"version": 1, "notes": [{"id": "a", "kind": "label", "at": [1, 2], "size": 9, "text": "` + long + `"}]}`))
	if err != nil || utf8.RuneCountInString(d.Notes[0].Text) != MostText {
		t.Fatalf("%d letters are shown, %v", utf8.RuneCountInString(d.Notes[0].Text), err)
	}
	for shown, want := range map[string]string{d.Notes[0].Text: long, "short ": "short and the rest"} {
		text, err := d.With([]Note{d.Notes[0].WithText(shown)}).Encode()
		if err != nil || !strings.Contains(string(text), `"text":"`+want+`"`) {
			t.Errorf("%.20q is written as %.200s, %v", shown, text, err)
		}
	}
}
