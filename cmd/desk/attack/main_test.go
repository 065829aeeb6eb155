package attack

import (
	"fmt"
	"iter"
	"math/rand/v2"
	"os"
	"strings"
	"sync"
	"sync/atomic"
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
func chance(seed uint64) *rand.Rand { return chanceOf(seed, 0) }

// chanceOf is that for one try of a seed, wherever it is made.
func chanceOf(seed uint64, try int) *rand.Rand { return rand.New(rand.NewPCG(seed, uint64(try))) }

// Attacks go on beside each other, so that a run is over in time. Each takes a slot; the monkey,
// which takes the longest, takes none, so that it begins at once. Our choice, for two cores.
var slots = make(chan struct{}, 3)

// beside has an attack wait for a slot among those that go on beside each other.
func beside(t *testing.T) {
	t.Helper()
	t.Parallel()
	slots <- struct{}{}
	t.Cleanup(func() { <-slots })
}

// tally counts the tries of one attack and how many of them failed. Any goroutine.
type tally struct {
	what          string
	began, last   time.Time // the newest try
	short         bool      // it had no time for all of it
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

// How long an attack begins new tries: our choices, so that a loaded machine has a table too, of fewer
// tries, in some twenty minutes. What begins late has a minute all the same.
const (
	attackMost  = 6 * time.Minute
	attackLeast = time.Minute
	allMost     = 18 * time.Minute
)

var allBegan = time.Now()

// late reports whether there is no time for another try, and notes it.
func (y *tally) late() bool {
	y.mu.Lock()
	defer y.mu.Unlock()
	most := max(attackLeast, min(attackMost, allMost-y.began.Sub(allBegan)))
	y.short = y.short || time.Since(y.began) > most
	return y.short
}

// rounds goes on as often as times says, as long as there is time.
func (y *tally) rounds(little, much int) iter.Seq[int] {
	var made atomic.Int64
	return y.share(&made, times(little, much))
}

// share goes on until n tries are made, by all who share the count, or there is no more time.
func (y *tally) share(made *atomic.Int64, n int) iter.Seq[int] {
	return func(yield func(int) bool) {
		for i := int(made.Add(1)) - 1; i < n; i = int(made.Add(1)) - 1 {
			if y.late() || !yield(i) {
				return
			}
		}
	}
}

// lanes has several go on at once in a long attack, each with a display and files of its own, and
// shares the tries among them: most of a try is waiting for the window.
func (y *tally) lanes(t *testing.T, little, much int, lane func(t *testing.T, tries iter.Seq[int])) {
	t.Helper()
	var made atomic.Int64
	var all sync.WaitGroup
	for i := range times(1, 3) {
		all.Go(func() {
			t.Run(fmt.Sprint("lane", i), func(t *testing.T) { lane(t, y.share(&made, times(little, much))) })
		})
	}
	all.Wait()
}

// try counts one try. A failure is the test's too.
func (y *tally) try(t *testing.T, failures ...string) {
	t.Helper()
	y.mu.Lock()
	defer y.mu.Unlock()
	y.tries++
	y.last = time.Now()
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
	fmt.Fprintln(w, "| attack\t| tries\t| failures\t| took\t| measured\t|")
	fmt.Fprintln(w, "| ---\t| ---\t| ---\t| ---\t| ---\t|")
	for _, y := range tallies {
		if y.short {
			y.measured = strings.TrimPrefix(y.measured+"; no time for more", "; ")
		}
		took := time.Duration(0)
		if y.tries > 0 {
			took = y.last.Sub(y.began)
		}
		fmt.Fprintf(w, "| %s\t| %d\t| %d\t| %.0f s\t| %s\t|\n", y.what, y.tries, y.failed, took.Seconds(), y.measured)
	}
}
