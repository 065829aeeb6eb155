//go:build unix

package host

import (
	"os"
	"path/filepath"
	"slices"
	"syscall"
	"testing"
)

// Folders and plain files are offered alone, each by name: a pipe would hang who opens it. A link is
// what it leads to.
func TestListed(t *testing.T) {
	dir := t.TempDir()
	at := func(name string) string { return filepath.Join(dir, name) }
	for _, err := range []error{
		os.WriteFile(at("b.PNG"), nil, 0o600), os.WriteFile(at("A.png"), nil, 0o600), os.WriteFile(at("a.txt"), nil, 0o600),
		os.WriteFile(at(".hidden.png"), nil, 0o600), os.Mkdir(at("week"), 0o700), os.Mkdir(at("Folder.png"), 0o700), os.Mkdir(at(".folder"), 0o700),
		syscall.Mkfifo(at("pipe.png"), 0o600), os.Symlink(at("b.PNG"), at("link.png")), os.Symlink(at("week"), at("linked")),
		os.Symlink(at("pipe.png"), at("linkedpipe.png")), os.Symlink(at("gone"), at("nowhere.png")),
	} {
		if err != nil {
			t.Fatal(err)
		}
	}
	folders := []entry{{"Folder.png", true}, {"linked", true}, {"week", true}}
	files := []entry{{"A.png", false}, {"b.PNG", false}, {"link.png", false}}
	if got, err := listed(dir, []string{".png"}); err != nil || !slices.Equal(got, slices.Concat(folders, files)) {
		t.Errorf("listed is %v, %v", got, err)
	}
	if got, err := listed(dir, nil); err != nil || !slices.Equal(got, folders) {
		t.Errorf("of folders alone listed is %v, %v", got, err)
	}
	if _, err := listed(at("gone"), nil); err == nil {
		t.Error("a folder that isn't there is listed")
	}
}

// From a folder the ways lead to all that it lies in, and home, none of them twice.
func TestWaysFrom(t *testing.T) {
	for from, want := range map[string][]string{
		"/home/kim/art/week": {"/home/kim/art/week", "/home/kim/art", "/home/kim", "/home", "/"},
		"/media/stick":       {"/media/stick", "/media", "/", "/home/kim"},
		"/":                  {"/", "/home/kim"},
	} {
		if got := waysFrom(from, "/home/kim"); !slices.Equal(got, want) {
			t.Errorf("from %s they are %v", from, got)
		}
	}
}
