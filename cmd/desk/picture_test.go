package main

import (
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// The picture of the rooms in DEVELOPERS.md: its nodes are folders with all below them that
// no other node has, its arrows the imports, but for those that a longer way shows anyway.
func TestThePictureIsTrue(t *testing.T) {
	text, err := os.ReadFile(filepath.Join(root, "DEVELOPERS.md"))
	if err != nil {
		t.Fatal(err)
	}
	_, picture, _ := strings.Cut(string(text), "```mermaid\n")
	picture, _, ok := strings.Cut(picture, "```")
	if !ok {
		t.Fatal("DEVELOPERS.md has no picture")
	}
	nodes, drawn := readPicture(picture)
	if want := reduced(arrowsBetween(t, nodes)); !slices.Equal(drawn, want) {
		t.Errorf("DEVELOPERS.md draws\n%s\nbut the code has\n%s", strings.Join(drawn, "\n"), strings.Join(want, "\n"))
	}
}

var (
	nodeLine  = regexp.MustCompile(`(\w+)\["?([\w/ ]+?)"?\]`)
	arrowLine = regexp.MustCompile(`^\s*(\w+) --> ([\w &]+)$`)
)

// readPicture returns the folders that are drawn and the arrows, "from --> to", in order.
func readPicture(picture string) (nodes, arrows []string) {
	names := map[string]string{}
	for _, m := range nodeLine.FindAllStringSubmatch(picture, -1) {
		names[m[1]] = m[2]
		nodes = append(nodes, m[2])
	}
	for line := range strings.Lines(picture) {
		if m := arrowLine.FindStringSubmatch(strings.TrimRight(line, "\n")); m != nil {
			for _, to := range strings.Split(m[2], " & ") {
				arrows = append(arrows, names[m[1]]+" --> "+names[strings.TrimSpace(to)])
			}
		}
	}
	slices.Sort(arrows)
	return nodes, arrows
}

// arrowsBetween returns which folders import which, for tests' equipment left out.
func arrowsBetween(t *testing.T, nodes []string) map[string]map[string]bool {
	of := func(pkg string) (best string) {
		for _, n := range nodes {
			if under(pkg, n) && len(n) > len(best) {
				best = n
			}
		}
		return best
	}
	arrows := map[string]map[string]bool{}
	for _, r := range roomsOn(t, "linux") {
		from := of(r.path)
		if equipment(r.path) || under(r.path, "scripts") || under(r.path, "cmd/desk/testdata") {
			continue
		}
		if from == "" {
			t.Errorf("%s is not in the picture", r.path)
			continue
		}
		if arrows[from] == nil {
			arrows[from] = map[string]bool{}
		}
		for _, i := range r.imports {
			if to := of(i); strings.HasPrefix(i, module+"/") && to != from {
				arrows[from][to] = true
			}
		}
	}
	return arrows
}

// reduced returns the arrows that no longer way shows anyway, in order.
func reduced(arrows map[string]map[string]bool) (all []string) {
	var reaches func(from, to string) bool
	reaches = func(from, to string) bool {
		for next := range arrows[from] {
			if next == to || reaches(next, to) {
				return true
			}
		}
		return false
	}
	for from, tos := range arrows {
		for to := range tos {
			longer := slices.ContainsFunc(slices.Collect(maps.Keys(tos)), func(by string) bool { return by != to && reaches(by, to) })
			if !longer {
				all = append(all, from+" --> "+to)
			}
		}
	}
	slices.Sort(all)
	return all
}

// The folder list in DEVELOPERS.md has a line for each folder of code: a newcomer reads the
// rooms from it.
func TestTheFolderListIsWhole(t *testing.T) {
	text, err := os.ReadFile(filepath.Join(root, "DEVELOPERS.md"))
	if err != nil {
		t.Fatal(err)
	}
	var listed []string
	for _, m := range regexp.MustCompile("`([\\w/]+)/`").FindAllStringSubmatch(tableLines(string(text)), -1) {
		listed = append(listed, m[1])
	}
	rooms := roomsOn(t, "linux")
	for _, r := range rooms {
		own := func(folder string) bool {
			return folder == r.path || slices.Contains([]string{"analysis/internal", "assets", "scripts", "cmd/desk"}, folder) && under(r.path, folder)
		}
		if !slices.ContainsFunc(listed, own) {
			t.Errorf("%s is not in the folder list", r.path)
		}
	}
	for _, folder := range listed {
		if _, err := os.Stat(filepath.Join(root, folder)); err != nil {
			t.Errorf("the folder list has %s: %v", folder, err)
		}
	}
}

// tableLines returns the lines that begin a row of a table with a folder.
func tableLines(text string) string {
	var rows strings.Builder
	for line := range strings.Lines(text) {
		if strings.HasPrefix(line, "| `") {
			first, _, _ := strings.Cut(line[1:], "|")
			rows.WriteString(first)
		}
	}
	return rows.String()
}
