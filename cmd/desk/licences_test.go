package main

import (
	"debug/buildinfo"
	"os"
	"strings"
	"testing"

	"app.tonedesk/cmd/desk/desktest"
)

// What the built program itself says it is made of stands in THIRD_PARTY.md.
func TestLicencesOfAllThatIsBuiltIn(t *testing.T) {
	info, err := buildinfo.ReadFile(desktest.Program(t))
	if err != nil {
		t.Fatal(err)
	}
	listed, err := os.ReadFile("../../THIRD_PARTY.md")
	if err != nil {
		t.Fatal(err)
	}
	if len(info.Deps) == 0 {
		t.Error("the program names no modules")
	}
	for _, m := range info.Deps {
		if !strings.Contains(string(listed), "| "+m.Path+" · "+m.Version+" |") {
			t.Errorf("%s %s is missing", m.Path, m.Version)
		}
	}
}
