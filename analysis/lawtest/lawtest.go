package lawtest

import (
	"flag"
	"os"
	"testing"

	_ "pgregory.net/rapid" // its flags have to be there before they are set
)

// Long reports whether many cases are wanted.
func Long() bool { return os.Getenv("TONEDESK_LONG") == "1" }

// rapid tries 100 cases of seeds by chance where it is told nothing. What stands on the
// command line counts more than this.
func init() {
	name, value := "rapid.seed", "1"
	if Long() {
		name, value = "rapid.checks", "5000"
	}
	if err := flag.Set(name, value); err != nil {
		panic(err)
	}
}

// Times returns how many cases to try: few, or many in a long run.
func Times(few, many int) int {
	if Long() {
		return many
	}
	return few
}

// Least is what a test may ask for that asks for n of something in the cases of a law: go test -short
// has rapid try a fifth of them.
func Least(n int) int {
	if testing.Short() {
		return n / 5
	}
	return n
}

// Some returns every nth of a list from its first on, and all of it in a long run. A share
// that a test asks of all it asks of some too.
func Some[T any](list []T, n int) []T {
	if Long() {
		return list
	}
	var some []T
	for i := 0; i < len(list); i += n {
		some = append(some, list[i])
	}
	return some
}

// SkipRaced skips a test in which no goroutines meet, where the race detector watches: it
// finds nothing there and takes ten times as long. make test runs every test without it too.
func SkipRaced(t testing.TB) {
	t.Helper()
	if raced {
		t.Skip("no goroutines meet here")
	}
}
