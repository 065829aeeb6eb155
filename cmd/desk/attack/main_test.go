package attack

import (
	"fmt"
	"iter"
	"math/rand/v2"
	"os"
	"strings"
	"sync"
	"testing"
	"text/tabwriter"
	"time"

	"app.tonedesk/cmd/desk/desktest"
)

// long reports whether as much is to be tried as twenty minutes allow.
func long() bool { return os.Getenv("TONEDESK_ATTACK") == "1" }

// times returns how much to try: little, or much in a long attack.
func times(little, much int) int {
	if long() {
		return much
	}
	return little
}

// chance returns numbers by chance, the same ones every time for a seed.
func chance(seed uint64) *rand.Rand { return rand.New(rand.NewPCG(seed, 0)) }

// tally counts the tries of one attack and how many of them failed. Any goroutine.
type tally struct {
	what          string
	began         time.Time
	short         bool // it had no time for all of it
	mu            sync.Mutex
	tries, failed int
	measured      string // beside the numbers, in words
}

// tallies are all attacks, in the order in which they began.
var (
	talliesMu sync.Mutex
	tallies   []*tally
)

func newTally(what string) *tally {
	talliesMu.Lock()
	defer talliesMu.Unlock()
	tallies = append(tallies, &tally{what: what, began: time.Now()})
	return tallies[len(tallies)-1]
}

// attackMost is how long one attack begins new tries: our choice, so that a loaded machine has a
// table too, of fewer tries.
const attackMost = 6 * time.Minute

// late reports whether there is no time for another try, and notes it.
func (y *tally) late() bool {
	y.mu.Lock()
	defer y.mu.Unlock()
	y.short = y.short || time.Since(y.began) > attackMost
	return y.short
}

// rounds goes on as often as times says, as long as there is time.
func (y *tally) rounds(little, much int) iter.Seq[int] {
	return func(yield func(int) bool) {
		for i := range times(little, much) {
			if y.late() || !yield(i) {
				return
			}
		}
	}
}

// try counts one try. A failure is the test's too.
func (y *tally) try(t *testing.T, failures ...string) {
	t.Helper()
	y.mu.Lock()
	defer y.mu.Unlock()
	y.tries++
	if len(failures) > 0 {
		y.failed++
	}
	for _, f := range failures {
		t.Errorf("%s: %s", y.what, f)
	}
}

// measure notes what was measured on the way.
func (y *tally) measure(format string, args ...any) {
	y.mu.Lock()
	defer y.mu.Unlock()
	y.measured = fmt.Sprintf(format, args...)
}

func TestMain(m *testing.M) {
	code := desktest.Main(m)
	if long() {
		table()
	}
	os.Exit(code)
}

// table prints what was tried and what failed, as DEVELOPERS.md keeps it.
func table() {
	w := tabwriter.NewWriter(os.Stdout, 0, 0, 1, ' ', 0)
	defer w.Flush()
	fmt.Fprintln(w, "| attack\t| tries\t| failures\t| measured\t|")
	fmt.Fprintln(w, "| ---\t| ---\t| ---\t| ---\t|")
	for _, y := range tallies {
		if y.short {
			y.measured = strings.TrimPrefix(y.measured+"; no time for more", "; ")
		}
		fmt.Fprintf(w, "| %s\t| %d\t| %d\t| %s\t|\n", y.what, y.tries, y.failed, y.measured)
	}
}
