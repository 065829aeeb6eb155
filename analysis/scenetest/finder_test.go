package scenetest

import (
	"fmt"
	"os"
	"strings"
	"testing"

	"app.tonedesk/analysis/families"
)

// Says how the finder fares: SCENETEST_REPORT is "open" or "held out". Held-out scenes are
// only summed up, so that nothing can be tuned on them.
func TestReport(t *testing.T) {
	which := os.Getenv("SCENETEST_REPORT")
	if which == "" {
		t.Skip("SCENETEST_REPORT asks for nothing")
	}
	finder := families.NewFinder()
	defer finder.Close()
	sum := func(name string, scenes int, paint func(i int) *Scene) {
		var tally Tally
		for i := range scenes {
			s := paint(i)
			finder.Take(s.Pixels(), nil)
			tally.Add(s, finder.Find(families.DefaultRules()))
		}
		if which == "open" {
			fmt.Println(strings.Join(tally.Faults, "\n"))
		}
		fmt.Printf("#### %s: %s\n", name, &tally)
	}
	if which == "open" {
		names := Names()
		sum("named", len(names), func(i int) *Scene { return Named(names[i]) })
	}
	first, last := FirstHeldOut, LastHeldOut
	if which == "open" {
		first, last = FirstOpen, LastOpen
	}
	sum(which+" seeds", last-first+1, func(i int) *Scene { return Random(first + i) })
	for _, kind := range Kinds() {
		sum(kind, last-first+1, func(i int) *Scene { return Kind(kind, first+i) })
	}
}
