package lawtest

import (
	"flag"
	"os/exec"
	"slices"
	"strings"
	"testing"
)

// A few cases are the same every time.
func TestSeed(t *testing.T) {
	if seed := flag.Lookup("rapid.seed"); !Long() && seed.DefValue == seed.Value.String() {
		t.Errorf("rapid's seed is %s", seed.Value)
	}
}

// Every nth from the first on, or all.
func TestSome(t *testing.T) {
	list, want := []int{1, 2, 3, 4, 5, 6, 7}, []int{1, 4, 7}
	if Long() {
		want = list
	}
	if got := Some(list, 3); !slices.Equal(got, want) {
		t.Errorf("%v, want %v", got, want)
	}
}

// No package tries laws whose cases are chance in every run.
func TestImported(t *testing.T) {
	const ours, rapid = "app.tonedesk/analysis/lawtest", "pgregory.net/rapid"
	if _, err := exec.LookPath("go"); err != nil {
		t.Skip("there is no go command on the system that this was built for")
	}
	list := exec.Command("go", "list", "-f", `{{.ImportPath}} {{join .TestImports " "}} {{join .XTestImports " "}}`, "app.tonedesk/...")
	out, err := list.Output()
	if err != nil {
		t.Fatalf("go list: %v", err)
	}
	seen := 0
	for line := range strings.Lines(string(out)) {
		imports := strings.Fields(line)
		if slices.Contains(imports, rapid) {
			seen++
			if !slices.Contains(imports, ours) {
				t.Errorf("the tests of %s import %s and not %s", imports[0], rapid, ours)
			}
		}
	}
	if seen == 0 {
		t.Error("no tests import rapid: the list is wrong")
	}
}
