package main

import (
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"app.tonedesk/cmd/desk/desktest"
)

// said returns what a pattern finds first in a file of the repository.
func said(t *testing.T, pattern, file string) string {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(root, file))
	if err != nil {
		t.Fatal(err)
	}
	m := regexp.MustCompile(pattern).FindSubmatch(text)
	if m == nil {
		t.Fatalf("%s has no %s", file, pattern)
	}
	return string(m[1])
}

// The program, FyneApp.toml and the changelog are of one version, and what is no package says so.
func TestVersion(t *testing.T) {
	e := desktest.Run(t, "", "--version")
	e.PlainErrors(t, 0)
	number := said(t, `(?m)^\s*Version = "(.+)"$`, "FyneApp.toml")
	if want := "Tonedesk " + number + "-dev\n"; e.Out != want && !desktest.Foreign() || !strings.HasPrefix(e.Out, "Tonedesk "+number) || e.Code != 0 {
		t.Errorf("it says %q, want %q; code %d", e.Out, want, e.Code)
	}
	if said(t, `(?:## \[|will be )(\d[^\]\s]*)[\].]`, "CHANGELOG.md") != number {
		t.Errorf("the changelog does not begin with %s", number)
	}
	e = desktest.Run(t, "", "--version", "more")
	if e.PlainErrors(t, 1); e.Code != 2 || e.Out != "" {
		t.Errorf("with a word more: code %d, %q", e.Code, e.Out)
	}
}

// Desktop entry, AppStream and FyneApp.toml offer the same kinds of files. That these are what is
// read is tested in capture.
func TestPackagesOfferTheSameFiles(t *testing.T) {
	const entry = "scripts/package/app.tonedesk.desktop"
	want := strings.Split(strings.TrimSuffix(said(t, `(?m)^MimeType=(.*)$`, entry), ";"), ";")
	slices.Sort(want)
	words := regexp.MustCompile(`image/\w+`)
	for name, text := range map[string]string{
		"FyneApp.toml": said(t, `(?m)^MimeTypes = \[(.*)\]$`, "FyneApp.toml"),
		"AppStream":    said(t, `(?s)<provides>(.*)</provides>`, "scripts/package/app.tonedesk.desk.metainfo.xml"),
	} {
		got := words.FindAllString(text, -1)
		if slices.Sort(got); !slices.Equal(got, want) {
			t.Errorf("%s offers %v, the desktop entry %v", name, got, want)
		}
	}
	if icon := said(t, `(?m)^Icon=(.*)$`, entry); icon != appID {
		t.Errorf("the icon is %s, the program's name %s", icon, appID)
	}
}
