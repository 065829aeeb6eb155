package live

import (
	"testing"
	"time"

	"app.tonedesk/analysis/families"
	"app.tonedesk/analysis/light"
)

// Of what was asked about the light the last is answered, once, of those local colours that count, where
// searches run.
func TestAskLight(t *testing.T) {
	now := time.Unix(1000, 0)
	s, log := searchAt(t, &now, func(Found) {})
	p := pixelsOf(form())
	found := families.Find(p, nil, families.DefaultRules())
	if len(found.List) == 0 {
		t.Fatal("nothing is found")
	}
	counts := make([]bool, len(found.List))
	var got []*light.Light
	s.AskLight(found, nil, counts, func(*light.Light) { t.Error("what is of no use any more is answered") })
	counts = append([]bool{true}, counts[1:]...)
	s.AskLight(found, nil, counts, func(l *light.Light) { got = append(got, l) })
	if len(got) != 0 {
		t.Fatal("answered where it was asked")
	}
	if !s.RunOnce() || s.RunOnce() || len(got) != 1 || len(got[0].LocalColours) != 1 || got[0].LocalColours[0].Family != 0 {
		t.Fatalf("%+v", got)
	}
	s.AskLight(found, nil, nil, func(*light.Light) {}) // a mistake of ours breaks nothing
	if s.RunOnce(); len(*log) != 1 {
		t.Errorf("logged: %v", *log)
	}
}
