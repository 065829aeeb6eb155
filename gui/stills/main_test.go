package stills

import (
	"bufio"
	"context"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"app.tonedesk/analysis/lawtest"
	"app.tonedesk/gui/stills/ink"
	"app.tonedesk/gui/stills/notes"
)

// childFolder names, in the environment of a copy of this test program, the folder in which
// it keeps stills until it is killed.
const childFolder = "TONEDESK_TEST_STILLS"

func TestMain(m *testing.M) {
	if dir := os.Getenv(childFolder); dir != "" {
		if id := os.Getenv(childMarks); id != "" {
			markForEver(dir, id)
		}
		keepForEver(dir)
	}
	os.Exit(m.Run())
}

// keepForEver keeps stills, marks them, deletes and restores some, and says on standard
// output what is done, a line each. A still's name is the seed of its picture.
func keepForEver(dir string) {
	fmt.Println("begun")
	s := New(Folders{Data: dir})
	seed, err := strconv.Atoi(os.Getenv(childFolder + "_SEED"))
	for ; err == nil; seed++ {
		var id string
		if id, err = s.Keep(noise(seed), metaFor(seed), notesFor(1)); err != nil {
			break
		}
		fmt.Printf("kept %s %d\n", id, seed)
		var still *Still
		if still, err = s.Mark(id); err != nil {
			break
		}
		if err = s.SaveNotes(still, append(still.Notes.Notes, notesFor(2)...)); err != nil {
			break
		}
		still.Close()
		fmt.Printf("noted %s 3\n", id)
		if seed%3 == 0 {
			if err = s.Delete(id); err == nil {
				err = s.Restore(id)
			}
		}
	}
	fmt.Println("failed", err)
	os.Exit(1)
}

func notesFor(n int) []notes.Note {
	var list []notes.Note
	for i := range n {
		list = append(list, notes.New(notes.Ring{From: ink.Point{X: 1, Y: float64(i)}, To: ink.Point{X: 90, Y: 60}, Width: 2}, "ring"))
	}
	return list
}

// A program that keeps stills is killed at 40 random moments, or at 200. Everything that it
// said it had done is there, whole; what it was about is there whole, or not at all, or
// still in the trash; nothing is damaged.
func TestKilledAtAnyMoment(t *testing.T) {
	lawtest.SkipRaced(t)
	times := lawtest.Times(40, 200)
	dir := filepath.Join(t.TempDir(), "stills")
	said := map[string]int{} // notes by ID
	seeds := map[string]int{}
	for run := range times {
		killOnce(t, dir, run, said, seeds)
		s := New(Folders{Data: dir})
		for id := range trashed(t, s) {
			if err := s.Restore(id); err != nil {
				t.Fatalf("run %d: %v", run, err)
			}
		}
	}
	s := New(Folders{Data: dir})
	list, problems, err := s.List()
	if err != nil || len(problems) > 0 {
		t.Fatalf("%v, %v", problems, err)
	}
	there := map[string]bool{}
	for _, e := range list {
		there[e.ID] = true
		seed, err := strconv.Atoi(e.Name)
		if err != nil {
			t.Fatal(err)
		}
		checkStill(t, s, e.ID, seed, max(1, said[e.ID]))
	}
	for id := range seeds {
		if !there[id] {
			t.Errorf("still %s, which was kept, is not there", id)
		}
	}
	if len(seeds) < times/2 {
		t.Errorf("only %d stills were kept in %d runs: the test sees too little", len(seeds), times)
	}
}

// trashed returns what is in the trash.
func trashed(t *testing.T, s *Store) map[string]bool {
	t.Helper()
	trash, err := s.Trash()
	if err != nil {
		t.Fatal(err)
	}
	all := map[string]bool{}
	for _, e := range trash {
		all[e.ID] = true
	}
	return all
}

// killOnce starts the program and kills it at a random moment.
func killOnce(t *testing.T, dir string, run int, said, seeds map[string]int) {
	t.Helper()
	ctx, kill := context.WithCancel(context.Background())
	defer kill()
	child := exec.CommandContext(ctx, os.Args[0])
	child.Env = append(os.Environ(), childFolder+"="+dir, fmt.Sprintf("%s_SEED=%d", childFolder, run*100000))
	out, err := child.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := child.Start(); err != nil {
		t.Fatal(err)
	}
	// Killed some time after some line: the first says that it has begun.
	after, wait := rand.IntN(5), time.Duration(rand.IntN(12_000))*time.Microsecond
	lines := bufio.NewReader(out)
	for n := 0; ; n++ {
		line, err := lines.ReadString('\n')
		if err != nil {
			break // the last line may be cut
		}
		if n == after {
			defer time.AfterFunc(wait, kill).Stop()
		}
		var id string
		var count int
		switch {
		case line == "begun\n":
		case scan(line, "kept", &id, &count):
			seeds[id] = count
		case scan(line, "noted", &id, &count):
			said[id] = count
		default:
			t.Fatalf("run %d: %s", run, line)
		}
	}
	_ = child.Wait() // killed
}

func scan(line, word string, id *string, n *int) bool {
	if !strings.HasPrefix(line, word+" ") {
		return false
	}
	_, err := fmt.Sscanf(line, word+" %s %d\n", id, n)
	return err == nil
}

// checkStill fails unless the still is whole.
func checkStill(t *testing.T, s *Store, id string, seed, leastNotes int) {
	t.Helper()
	still, err := s.Open(id)
	if err != nil || still.Trouble != nil {
		t.Fatalf("%v, %v", err, still)
	}
	want := noise(seed)
	for y := range want.Height {
		got, row := still.Picture.Pix[y*still.Picture.Stride:], want.Pix[y*want.Stride:]
		if string(got[:4*want.Width]) != string(row[:4*want.Width]) {
			t.Fatalf("row %d of still %s is not what was kept", y, id)
		}
	}
	if n := len(still.Notes.Notes); n < leastNotes {
		t.Fatalf("still %s has %d notes, want %d at least", id, n, leastNotes)
	}
	if still.Meta.Notes.Count != len(still.Notes.Notes) {
		t.Errorf("still %s says it has %d notes, and has %d", id, still.Meta.Notes.Count, len(still.Notes.Notes))
	}
}
