package portal

import (
	"bytes"
	"encoding/binary"
	"image"
	"testing"

	"github.com/godbus/dbus/v5"
)

// streamList is what a portal lists as streams.
type streamList []struct {
	Node  uint32
	About map[string]dbus.Variant
}

func oneStream(node uint32, about map[string]dbus.Variant) streamList {
	return streamList{{node, about}}
}

// Where a shared screen lies, as the portal says it: two numbers each (XDP, Start).
func TestPlaceOfAStream(t *testing.T) {
	type pair struct{ X, Y int32 }
	about := func(more ...any) map[string]dbus.Variant {
		all := map[string]dbus.Variant{"source_type": dbus.MakeVariant(uint32(monitors)), "position": dbus.MakeVariant(pair{-1920, 40}), "size": dbus.MakeVariant(pair{1920, 1080})}
		for i := 0; i+1 < len(more); i += 2 {
			all[more[i].(string)] = dbus.MakeVariant(more[i+1])
		}
		return all
	}
	placed := image.Rect(-1920, 40, 0, 1120)
	for name, tt := range map[string]struct {
		about map[string]dbus.Variant
		want  image.Rectangle
	}{
		"a screen":                {about(), placed},
		"a window":                {about("source_type", uint32(windows)), image.Rectangle{}},
		"a virtual screen":        {about("source_type", uint32(4)), image.Rectangle{}},
		"nothing told":            {nil, image.Rectangle{}},
		"a place of another type": {about("position", "left"), image.Rectangle{}},
		"three numbers":           {about("size", struct{ A, B, C int32 }{1, 2, 3}), image.Rectangle{}},
		"unsigned numbers":        {about("size", struct{ A, B uint32 }{1, 2}), image.Rectangle{}},
		"no size":                 {about("size", pair{0, 1080}), image.Rectangle{}},
		"too far away":            {about("position", pair{-1 << 31, 0}), image.Rectangle{}},
	} {
		_, body := wireOf(t, uint32(0), map[string]dbus.Variant{"streams": dbus.MakeVariant(oneStream(7, tt.about))})
		got, err := firstOf(answerOf(t, "ua{sv}", body).results["streams"])
		if err != nil || got.node != 7 || got.at != tt.want {
			t.Errorf("%s: %+v, %v; want %v", name, got, err, tt.want)
		}
	}
}

// wireOf is values as they go over a bus: their signature and bytes.
func wireOf(t testing.TB, values ...any) (signature string, body []byte) {
	t.Helper()
	m := signalOf(dbus.SignatureOf(values...))
	m.Body = values
	var b bytes.Buffer
	if err := m.EncodeTo(&b, binary.LittleEndian); err != nil {
		t.Fatal(err)
	}
	length := binary.LittleEndian.Uint32(b.Bytes()[4:])
	return dbus.SignatureOf(values...).String(), b.Bytes()[b.Len()-int(length):]
}

const asked = object + "/request/s/t"

func signalOf(signature dbus.Signature) *dbus.Message {
	m := &dbus.Message{Type: dbus.TypeSignal, Headers: map[dbus.HeaderField]dbus.Variant{
		dbus.FieldPath: dbus.MakeVariant(asked), dbus.FieldInterface: dbus.MakeVariant(requestName), dbus.FieldMember: dbus.MakeVariant("Response"),
	}}
	if signature.String() != "" {
		m.Headers[dbus.FieldSignature] = dbus.MakeVariant(signature)
	}
	return m
}

// parsed is a signature. The library (5.1.0) breaks down at an entry of nothing, "a{}", which no bus
// passes on: it checks every message.
func parsed(signature string) (s dbus.Signature, ok bool) {
	defer func() { _ = recover() }()
	s, err := dbus.ParseSignature(signature)
	return s, err == nil
}

// answerOf has a bus hear the bytes of a portal's answer, as the library decodes them; nil where they are
// no message.
func answerOf(t testing.TB, signature string, body []byte) *answer {
	t.Helper()
	s, ok := parsed(signature)
	if !ok || !sound(signature, body) {
		return nil
	}
	var b bytes.Buffer
	if err := signalOf(s).EncodeTo(&b, binary.LittleEndian); err != nil {
		return nil
	}
	binary.LittleEndian.PutUint32(b.Bytes()[4:], uint32(len(body)))
	b.Write(body)
	m, err := dbus.DecodeMessage(&b)
	if err != nil {
		return nil
	}
	heard := &bus{owner: ":1.1", answers: map[dbus.ObjectPath]chan answer{}}
	heard.ended = func(dbus.ObjectPath, error) {}
	signals := make(chan *dbus.Signal, 1)
	signals <- &dbus.Signal{Sender: heard.owner, Path: asked, Name: requestName + ".Response", Body: m.Body}
	close(signals)
	heard.listen(signals)
	a := <-heard.answersTo(asked)
	return &a
}

// Whatever a portal answers, it is a session's name, a stream in a place that can be, and keys with
// words, or an error.
func FuzzAnswers(f *testing.F) {
	type pair struct{ X, Y int32 }
	for _, results := range []map[string]dbus.Variant{
		{"session_handle": dbus.MakeVariant(string(asked))},
		{"session_handle": dbus.MakeVariant(asked)},
		{"restore_token": dbus.MakeVariant("one"), "streams": dbus.MakeVariant(oneStream(41, map[string]dbus.Variant{
			"source_type": dbus.MakeVariant(uint32(1)), "position": dbus.MakeVariant(pair{1920, 0}), "size": dbus.MakeVariant(pair{1920, 1080}),
		}))},
		{"shortcuts": dbus.MakeVariant([]bound{{"freeze", map[string]dbus.Variant{"trigger_description": dbus.MakeVariant("Ctrl+1")}}})},
	} {
		signature, body := wireOf(f, uint32(0), results)
		if !sound(signature, body) {
			f.Errorf("%v is refused", results)
		}
		f.Add(signature, body)
	}
	signature, body := wireOf(f, "no number", []string{"nothing"})
	if !sound(signature, body) {
		f.Error("a message that is sound is refused")
	}
	f.Add(signature, body)
	f.Fuzz(func(t *testing.T, signature string, body []byte) {
		a := answerOf(t, signature, body)
		if a == nil {
			return
		}
		if path, err := handle(a.results["session_handle"]); err == nil && !path.IsValid() {
			t.Errorf("a session called %q", path)
		}
		if s, err := firstOf(a.results["streams"]); err == nil && !s.at.Empty() && !s.at.In(image.Rect(-mostSide, -mostSide, 2*mostSide, 2*mostSide)) || err != nil && s != (shown{}) {
			t.Errorf("%+v, %v", s, err)
		}
		keys, err := keysOf(a.results["shortcuts"].Value())
		for id, words := range keys {
			if words == "" || err != nil {
				t.Errorf("%q is called %q, %v", id, words, err)
			}
		}
	})
}
