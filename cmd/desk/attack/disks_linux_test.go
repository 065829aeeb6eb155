package attack

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"syscall"
	"testing"

	"app.tonedesk/capture/xvfbtest"
	"app.tonedesk/cmd/desk/desktest"
)

// onStills opens a window on the page of stills.
func onStills(t *testing.T, home string) (*desktest.Window, *xvfbtest.Painter) {
	t.Helper()
	server := xvfbtest.Start(t, xvfbtest.Options{Width: 1024, Height: 1000, WindowManager: true})
	w := desktest.OpenIn(t, server, home, `{"version": 1, "width": 700, "height": 900, "page": "Stills"}`, nil)
	w.ShowDemo()
	w.WaitFor("the page", func(l desktest.Shown) bool { return l.Page == "Stills" && l.Parts[1] > 100 && l.Mirror[2] > 100 })
	return w, server.Painter()
}

// smallDisk mounts a small disk as the folder of the user's data.
func smallDisk(t *testing.T, home, size string) string {
	t.Helper()
	dir := filepath.Join(home, "data")
	if err := os.MkdirAll(dir, 0o700); err != nil {
		t.Fatal(err)
	}
	if err := syscall.Mount("tmpfs", dir, "tmpfs", 0, "size="+size); errors.Is(err, syscall.EPERM) {
		t.Skip("mounting needs the right to")
	} else if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = syscall.Unmount(dir, syscall.MNT_DETACH) })
	return dir
}

func remount(t *testing.T, dir string, flags uintptr, data string) {
	t.Helper()
	if err := syscall.Mount("tmpfs", dir, "tmpfs", syscall.MS_REMOUNT|flags, data); err != nil {
		t.Fatal(err)
	}
}

// refused waits until the window says that it can't write, and why.
func refused(w *desktest.Window) {
	w.T.Helper()
	w.WaitFor("that it can't be written", func(l desktest.Shown) bool { return strings.Contains(l.Message, "Can't ") })
}

// The disk can only be read, is full, and loses its folder, while stills are kept and marked:
// it is said, what was kept stays, and with room again all goes on.
func TestDisks(t *testing.T) {
	beside(t)
	y, r := newTally("disk read-only, full, folder gone"), chance(9)
	for range y.rounds(1, 8) {
		home := t.TempDir()
		dir := smallDisk(t, home, "300k")
		w, painter := onStills(t, home)
		remount(t, dir, syscall.MS_RDONLY, "") // before a still is open: its lock would hold the disk
		w.Key("ctrl+s")
		refused(w)
		y.try(t, answersNow(w, painter)...)
		remount(t, dir, 0, "size=300k")
		for range 40 { // a still of the demo painting takes some 30 kB
			w.Key("ctrl+s")
		}
		refused(w)
		w.Script(t.Context(), marks(w, r))
		faults := answersNow(w, painter)
		remount(t, dir, 0, "size=30m")
		w.Key("Escape", "Escape", "f") // back to what is watched, if a still is open
		w.WaitFor("no still", func(l desktest.Shown) bool { return l.Still == nil })
		w.Key("ctrl+s")
		w.WaitFor("that a still is kept", func(l desktest.Shown) bool { return strings.Contains(l.Message, "Kept") })
		y.try(t, append(faults, allReadable(t, w)...)...)
		if err := os.RemoveAll(filepath.Join(dir, "tonedesk")); err != nil { // the folder is gone, under its hands
			t.Fatal(err)
		}
		w.Script(t.Context(), marks(w, r))
		faults = answersNow(w, painter)
		_ = w.Cmd.Process.Kill()
		if said := w.Said(); said != "" {
			faults = append(faults, fmt.Sprintf("it said %q", said))
		}
		y.try(t, faults...)
	}
}

// allReadable says which of the stills that the window shows can't be read.
func allReadable(t *testing.T, w *desktest.Window) (faults []string) {
	lines := w.Lines()
	list := command(t, w.Home, "", "stills", "--json")
	for _, id := range lines[len(lines)-1].Kept {
		if !strings.Contains(list.Out, id) {
			faults = append(faults, "a kept still is gone: "+id)
		}
	}
	if list.Err != "" {
		faults = append(faults, "something is damaged: "+list.Err)
	}
	return append(faults, list.faults...)
}

// Two windows keep and mark the same stills at once: none is damaged, none is lost.
func TestTwoWindows(t *testing.T) {
	beside(t)
	y, home, r := newTally("two windows on the same stills"), t.TempDir(), chance(10)
	first, firstPainter := onStills(t, home)
	second, secondPainter := onStills(t, filepath.Join(home)) // the trace and standard error are the second's from here on
	for range y.rounds(2, 60) {
		var both sync.WaitGroup
		scripts := [][]string{marks(second, r), marks(second, r)} // both lie alike
		both.Go(func() { first.Script(t.Context(), scripts[0]) })
		both.Go(func() { second.Script(t.Context(), scripts[1]) })
		both.Wait()
		faults := append(answersNow(first, firstPainter), answersNow(second, secondPainter)...)
		y.try(t, append(faults, allReadable(t, second)...)...)
	}
	second.Quit()
	_ = first.Cmd.Process.Signal(syscall.SIGTERM)
	if how, ended := first.Ended(endWithin); !ended || how != nil {
		y.try(t, fmt.Sprintf("the first window ended: %v, with %v", ended, how))
	}
	y.try(t, allReadable(t, second)...)
}
