package stills

import (
	"image"
	"reflect"
	"testing"

	"app.tonedesk/gui/setup"
)

// Where the eye should go is kept in a still in its own pixels, but for what is lost, and taken out
// again; of a still from elsewhere no more places are read than there can be.
func TestFocusOfStill(t *testing.T) {
	places := []setup.Place{{At: image.Pt(103, 54)}, {At: image.Pt(7, 7), Moved: true}, {At: image.Pt(120, 60)}}
	list := FocusOf(places, image.Pt(100, 50))
	if want := []PlaceAt{{3, 4}, {20, 10}}; !reflect.DeepEqual(list, want) {
		t.Fatalf("%+v", list)
	}
	s := storeAt(t)
	id := keep(t, s, 1)
	before, err := s.Meta(id)
	if err != nil || before.Marked() != nil {
		t.Fatalf("%+v, %v", before.Marked(), err)
	}
	if err := s.Focus(id, list); err != nil {
		t.Fatal(err)
	}
	m, err := s.Meta(id)
	if got := m.Marked(); err != nil || len(got) != 2 || got[0].At != image.Pt(3, 4) || got[1].At != image.Pt(20, 10) {
		t.Errorf("%+v, %v", got, err)
	}
	if err := s.Focus(id, nil); err != nil {
		t.Fatal(err)
	}
	if after, _ := s.Meta(id); !reflect.DeepEqual(after, before) {
		t.Errorf("taken out it is %+v, was %+v", after, before)
	}
	if n := len((Meta{Focus: make([]PlaceAt, 1000)}).Marked()); n != setup.MaxFocus {
		t.Errorf("%d places", n)
	}
}
