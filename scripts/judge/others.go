package main

import (
	"fmt"
	"io/fs"
	"path/filepath"
	"strings"

	"app.tonedesk/analysis/drawingtest"
	"app.tonedesk/analysis/families"
	"app.tonedesk/analysis/scenetest"
)

// otherFolders are those of the package that the drawings with truths are mostly from.
var otherFolders = []string{"animals", "buildings", "food", "people", "plants", "transportation"}

// otherStability says how stable what is found is on some of the package's drawings that have no
// truth here, and on scenes by chance of seeds that weights are fitted on: what is tried out is tried on
// these, so that the figures of all that is judged stay judges.
func otherStability(f *families.Finder, truths string, each int) error {
	known, err := filepath.Glob(filepath.Join(truths, "*.json"))
	if err != nil {
		return err
	}
	judged := map[string]bool{}
	for _, name := range known {
		judged[strings.TrimSuffix(filepath.Base(name), ".json")] = true
	}
	steady, n := newStability(f), 0
	for _, folder := range otherFolders {
		err = filepath.WalkDir(filepath.Join(drawingtest.Folder, folder), func(path string, d fs.DirEntry, err error) error {
			if err != nil || d.IsDir() || filepath.Ext(path) != ".svg" || judged[strings.TrimSuffix(d.Name(), ".svg")] {
				return err
			}
			if n++; n%each != 0 {
				return nil
			}
			p, err := drawingtest.Render(path, [...]string{"#ffffff", "#c8ccd0", "#7a7470"}[n/each%3])
			if err == nil { // not all can be rendered
				steady.add(p)
			}
			return nil
		})
		if err != nil {
			return err
		}
	}
	fmt.Print("STABILITY, other drawings\n", steady)
	steady = newStability(f)
	for seed := range 10 {
		steady.add(scenetest.Random(scenetest.FirstOpen + seed).Pixels())
	}
	fmt.Print("STABILITY, scenes by chance of other seeds\n", steady)
	return nil
}
