package stills

import (
	"encoding/json"
	"image"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"app.tonedesk/analysis/colour"
	_ "app.tonedesk/analysis/lawtest" // how many cases
	"app.tonedesk/gui/setup"
)

// What was said of local colours comes back from still.json as it was, in the still's pixels.
func TestLocalColoursComeBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		origin := image.Pt(rapid.IntRange(-5000, 5000).Draw(t, "x"), rapid.IntRange(-5000, 5000).Draw(t, "y"))
		side := func(name string) setup.Side {
			code := rapid.Uint32().Draw(t, name)
			at := image.Pt(rapid.IntRange(-100, 9000).Draw(t, name+" x"), rapid.IntRange(-100, 9000).Draw(t, name+" y"))
			return setup.Side{Colour: colour.RGB{R: uint8(code), G: uint8(code >> 8), B: uint8(code >> 16)}, At: at}
		}
		var list, want []setup.Judged
		for range rapid.IntRange(0, 8).Draw(t, "n") {
			j := setup.Judged{Track: 7, Kept: rapid.Bool().Draw(t, "kept"), Light: side("light"), Shadow: side("shadow")}
			list = append(list, j)
			j.Track, j.Light.At, j.Shadow.At = 0, j.Light.At.Sub(origin), j.Shadow.At.Sub(origin)
			want = append(want, j)
		}
		m := metaFor(1)
		m.Width, m.Height, m.LocalColours = 120, 90, LocalColoursOf(list, origin)
		text, err := metaFile{Meta: m}.encode()
		if err != nil {
			t.Fatal(err)
		}
		back, err := decodeMeta(text)
		if err != nil || !reflect.DeepEqual(back.Judged(), want) {
			t.Fatalf("%+v, %v, want %+v", back.Judged(), err, want)
		}
	})
}

// They can be kept in a still later, and taken out; nothing else of it changes. Stills from
// before have none.
func TestJudgeAStill(t *testing.T) {
	s := storeAt(t)
	id := keep(t, s, 1)
	before := fileText(t, filepath.Join(s.Folder(id), metaName))
	if strings.Contains(before, "local_colours") {
		t.Error("a still of which nothing was said tells of local colours")
	}
	if m, err := s.Meta(id); err != nil || m.Judged() != nil {
		t.Errorf("one from before has %+v, %v", m.Judged(), err)
	}
	list := LocalColoursOf([]setup.Judged{{Kept: true, Light: setup.Side{Colour: colour.RGB{R: 226, G: 171, B: 133}, At: image.Pt(3, 4)}}}, image.Point{})
	if err := s.Judge(id, list); err != nil {
		t.Fatal(err)
	}
	still, err := s.Open(id)
	if err != nil || !reflect.DeepEqual(still.Meta.LocalColours, list) {
		t.Fatalf("%+v, %v", still, err)
	}
	var fields struct {
		LocalColours []map[string]any `json:"local_colours"`
	}
	if err := json.Unmarshal([]byte(fileText(t, filepath.Join(s.Folder(id), metaName))), &fields); err != nil || len(fields.LocalColours) != 1 ||
		fields.LocalColours[0]["kept"] != true || !reflect.DeepEqual(fields.LocalColours[0]["light"], map[string]any{"colour": "#e2ab85", "x": 3.0, "y": 4.0}) {
		t.Errorf("%+v, %v", fields, err)
	}
	if err := s.Judge(id, nil); err != nil || fileText(t, filepath.Join(s.Folder(id), metaName)) != before {
		t.Errorf("taken out it is %s, %v", fileText(t, filepath.Join(s.Folder(id), metaName)), err)
	}
	if err := s.Judge("20260102-030405-abcdefghij", list); err == nil {
		t.Error("a still that isn't there takes them")
	}
}

// A file that names very many has no more of them followed than can be.
func TestManyLocalColours(t *testing.T) {
	m := Meta{LocalColours: make([]LocalColour, 10_000)}
	if n := len(m.Judged()); n != mostLocalColours {
		t.Errorf("%d are followed", n)
	}
}
