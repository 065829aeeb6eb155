package settings

import (
	"encoding/json"
	"reflect"
	"strings"
	"testing"
)

// What can't be the colours of a display is left out, and the rest comes back as it was.
func TestColoursOfDisplays(t *testing.T) {
	s := Defaults().WithColours("Pen display", Colours{In: ColoursFile, File: "/home/p.icc"}).WithColours("", Colours{In: "Display P3"})
	data, err := json.Marshal(s.ShownIn)
	if err != nil {
		t.Fatal(err)
	}
	var back map[string]Colours
	if err := json.Unmarshal(data, &back); err != nil || !reflect.DeepEqual(confineShownIn(back), s.ShownIn) || len(back) != 2 {
		t.Errorf("%s comes back as %v, %v", data, back, err)
	}
	if got := s.ColoursOf("another").In; got != "Display P3" {
		t.Errorf("another display has %q", got)
	}
	odd := map[string]Colours{
		"a": {In: "ProofRGB"}, "b": {In: ColoursFile}, "c": {In: ColoursFile, File: "a\x00b"}, strings.Repeat("x", 300): {In: "sRGB"}, "line\nbreak\x00": {In: "sRGB"},
	}
	if got := confineShownIn(odd); got != nil {
		t.Errorf("of what can't be, %v is left", got)
	}
	if got := confineShownIn(map[string]Colours{"d": {In: "sRGB", File: "/x"}}); got["d"] != (Colours{In: "sRGB"}) {
		t.Errorf("a file that isn't meant stays: %v", got)
	}
}
