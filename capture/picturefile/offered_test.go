package picturefile

import (
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// File managers offer the program for every format that is read, and for no other. Each
// format's name is its media type's (IANA's registry; OpenRaster, Baseline, for its own).
func TestOfferedFormatsAreRead(t *testing.T) {
	entry, err := os.ReadFile("../../scripts/package/app.tonedesk.desktop")
	if err != nil {
		t.Fatal(err)
	}
	line := regexp.MustCompile(`(?m)^MimeType=(.*);$`).FindSubmatch(entry)
	if line == nil {
		t.Fatal("the desktop entry offers nothing")
	}
	got := strings.Split(string(line[1]), ";")
	var want []string
	for _, f := range pictureFormats {
		want = append(want, "image/"+f.name)
	}
	slices.Sort(got)
	slices.Sort(want)
	if !slices.Equal(got, want) {
		t.Errorf("the desktop entry offers %v, read are %v", got, want)
	}
}
