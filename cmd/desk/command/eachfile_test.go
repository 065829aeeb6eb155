package command

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"
	"strings"
	"sync"
	"sync/atomic"
	"testing"

	"pgregory.net/rapid"

	_ "app.tonedesk/analysis/lawtest" // the same cases every time

	"app.tonedesk/capture/memory"
	"app.tonedesk/gui/mistake"
)

// each runs eachFile over so many names that are no files, and returns what came out.
func each(count int, work fileWork) (out, said string, code int) {
	var o, e bytes.Buffer
	c := &call{Streams: Streams{Out: &o, Err: &e}, out: bufio.NewWriter(&o)}
	for i := range count {
		c.operands = append(c.operands, fmt.Sprint("no file ", i))
	}
	c.eachFile(work)
	return o.String(), e.String(), c.code
}

// Files are reported in their order, each once, whichever is done first; one that can't be read keeps
// none of the others from it.
func TestEachFileKeepsTheOrder(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		count := rapid.IntRange(1, 40).Draw(rt, "files")
		bad := rapid.SliceOfN(rapid.Bool(), count, count).Draw(rt, "bad")
		spin := rapid.SliceOfN(rapid.IntRange(0, 20000), count, count).Draw(rt, "work")
		var out bytes.Buffer
		var said strings.Builder
		c := &call{Streams: Streams{Out: &out, Err: &said}, out: bufio.NewWriter(&out)}
		want, failed := "", ""
		for i := range count {
			c.operands = append(c.operands, fmt.Sprint(i))
			if bad[i] {
				failed += fmt.Sprintln("bad", i)
			} else {
				want += fmt.Sprintln(i)
			}
		}
		c.eachFile(func(path string) (func() error, error) {
			var i int
			_, _ = fmt.Sscan(path, &i)
			for n := 0; n < spin[i]; n++ {
				_ = fmt.Sprint()
			}
			if bad[i] {
				return nil, sentence(fmt.Sprint("bad ", i))
			}
			return func() error { _, err := fmt.Fprintln(c.out, i); return err }, nil
		})
		if out.String() != want || said.String() != failed || (c.code != 0) != (failed != "") {
			rt.Fatalf("reported %q, said %q, code %d", out.String(), said.String(), c.code)
		}
	})
}

// What breaks down on another goroutine breaks down the command, where that is looked after.
func TestEachFileBreaksDown(t *testing.T) {
	defer func() {
		if err, ok := recover().(error); !ok || !errors.Is(err, mistake.Err) || !strings.Contains(err.Error(), "TestEachFileBreaksDown") {
			t.Errorf("broke down with %v", err)
		}
	}()
	each(5, func(string) (func() error, error) { panic("in a picture") })
}

// A picture for which there is no room beside others is worked on alone.
func TestEachFileAlone(t *testing.T) {
	var tries atomic.Int32
	out, said, code := each(3, func(path string) (func() error, error) {
		if path == "no file 1" && tries.Add(1) == 1 {
			return nil, explained{"no room", &memory.Full{Takes: 2, Free: 1}}
		}
		return func() error { return nil }, nil
	})
	if out != "" || said != "" || code != 0 || tries.Load() != 2 {
		t.Errorf("%q, %q, code %d after %d tries", out, said, code, tries.Load())
	}
}

// Shares never give out more than there is, and everyone gets theirs.
func TestShares(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		whole := rapid.Int64Range(0, 100).Draw(rt, "whole")
		wanted := rapid.SliceOfN(rapid.Int64Range(0, 150), 1, 30).Draw(rt, "wanted")
		s := newShares(whole)
		var held atomic.Int64
		var all sync.WaitGroup
		for _, bytes := range wanted {
			all.Go(func() {
				taken := s.take(bytes)
				if taken != min(bytes, whole) || held.Add(taken) > whole {
					t.Errorf("took %d for %d of %d, %d held", taken, bytes, whole, held.Load())
				}
				held.Add(-taken)
				s.give(taken)
			})
		}
		all.Wait()
		if s.free != whole {
			rt.Fatalf("%d of %d are back", s.free, whole)
		}
	})
}

// Nothing but a terminal gets progress.
func TestProgressIsForTerminals(t *testing.T) {
	var b bytes.Buffer
	for _, w := range []io.Writer{&b, nil} {
		p := progress{of: 9, to: w}
		p.say(3)
		p.clear()
	}
	if b.Len() > 0 {
		t.Errorf("said %q", b.String())
	}
}
