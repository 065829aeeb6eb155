package host

import (
	"cmp"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// entry is a folder or a file in a folder.
type entry struct {
	name   string
	folder bool
}

// listed returns the folders in a folder, and then the plain files whose names have one of some endings:
// without endings the folders alone. What is hidden by its name is left out. A link is what it leads
// to; a pipe or a device is no file, for it would hang who opens it.
func listed(folder string, endings []string) ([]entry, error) {
	all, err := os.ReadDir(folder)
	if err != nil {
		return nil, fmt.Errorf("list a folder: %w", err)
	}
	var list []entry
	for _, e := range all {
		name, kind := e.Name(), e.Type()
		if strings.HasPrefix(name, ".") {
			continue
		}
		if kind&os.ModeSymlink != 0 {
			info, err := os.Stat(filepath.Join(folder, name))
			if err != nil {
				continue // it leads nowhere
			}
			kind = info.Mode().Type()
		}
		file := kind.IsRegular() && slices.Contains(endings, strings.ToLower(filepath.Ext(name)))
		if kind.IsDir() || file {
			list = append(list, entry{name, kind.IsDir()})
		}
	}
	slices.SortStableFunc(list, func(a, b entry) int {
		if a.folder != b.folder {
			return map[bool]int{true: -1, false: 1}[a.folder]
		}
		return cmp.Compare(strings.ToLower(a.name), strings.ToLower(b.name))
	})
	return list, nil
}

// waysFrom are the folders that are offered in one: itself, all that it lies in, the user's own, and
// the drives where there are any.
func waysFrom(folder, home string) []string {
	ways := []string{folder}
	add := func(path string) {
		if path != "" && !slices.Contains(ways, path) {
			ways = append(ways, path)
		}
	}
	for at := folder; at != filepath.Dir(at); at = filepath.Dir(at) {
		add(filepath.Dir(at))
	}
	add(home)
	for _, drive := range drives() {
		add(drive)
	}
	return ways
}

// folderName is what a folder is called in a list.
func folderName(path string) string {
	if filepath.Dir(path) == path { // the topmost, or a drive
		return path
	}
	return filepath.Base(path)
}
