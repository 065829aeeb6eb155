package stills

import (
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"syscall"
	"testing"
)

// ownMounts names, in the environment, that this copy of the test program has mounts of its
// own, which end with it.
const ownMounts = "TONEDESK_TEST_OWN_MOUNTS"

// withOwnDisk runs the test in a copy of this program that may mount, and gives it a small
// disk there. In the calling program it returns "", and the test is over.
func withOwnDisk(t *testing.T, size string) (dir string) {
	t.Helper()
	if os.Getenv(ownMounts) == "" {
		child := exec.Command(os.Args[0], "-test.run=^"+t.Name()+"$", "-test.v")
		child.Env = append(os.Environ(), ownMounts+"=1")
		child.SysProcAttr = &syscall.SysProcAttr{Unshareflags: syscall.CLONE_NEWNS}
		out, err := child.CombinedOutput()
		switch {
		case errors.Is(err, syscall.EPERM):
			t.Skip("mounting needs the right to")
		case err != nil:
			t.Fatalf("%v\n%s", err, out)
		}
		return ""
	}
	dir = t.TempDir()
	if err := syscall.Mount("tmpfs", dir, "tmpfs", 0, "size="+size); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = syscall.Unmount(dir, syscall.MNT_DETACH) })
	return dir
}

// A real full disk: the still that doesn't fit is refused with the reason, all others are
// whole, and there is room for the next one after clearing up.
func TestFullDisk(t *testing.T) {
	dir := withOwnDisk(t, "400k")
	if dir == "" {
		return
	}
	s := New(Folders{Data: filepath.Join(dir, "stills")})
	kept := map[string]int{}
	var err error
	for seed := 0; err == nil; seed++ {
		var id string
		if id, err = s.Keep(noise(seed), metaFor(seed), notesFor(1)); err == nil {
			kept[id] = seed
		}
	}
	if !errors.Is(err, syscall.ENOSPC) || len(kept) < 3 {
		t.Fatalf("%v after %d stills", err, len(kept))
	}
	if got := ids(t, s); len(got) != len(kept) {
		t.Errorf("%d stills, want %d", len(got), len(kept))
	}
	for id, seed := range kept {
		checkStill(t, s, id, seed, 1)
	}
	c, err := s.Over(200 << 10)
	if err != nil {
		t.Fatal(err)
	}
	if n, err := s.Clear(c); n == 0 || err != nil {
		t.Fatalf("%d, %v", n, err)
	}
	checkStill(t, s, keep(t, s, 100), 100, 0)
}

// A disk that can only be read: what is there opens, what can't be done says why, and nothing
// is taken for damaged.
func TestReadOnlyDisk(t *testing.T) {
	dir := withOwnDisk(t, "1m")
	if dir == "" {
		return
	}
	s := New(Folders{Data: filepath.Join(dir, "stills"), Cache: filepath.Join(dir, "cache")})
	id, bad := keep(t, s, 1, notesFor(1)...), keep(t, s, 2)
	if err := os.Truncate(filepath.Join(s.Folder(bad), metaName), 3); err != nil {
		t.Fatal(err)
	}
	if err := syscall.Mount("", dir, "", syscall.MS_REMOUNT|syscall.MS_RDONLY, ""); err != nil {
		t.Fatal(err)
	}
	list, problems, err := s.List()
	if err != nil || len(list) != 1 || len(problems) != 1 || !errors.Is(problems[0], ErrDamaged) || problems[0].Aside != "" {
		t.Errorf("%v, %v, %v", list, problems, err)
	}
	checkStill(t, s, id, 1, 1)
	if _, err := s.Thumbnail(id, true); err != nil {
		t.Error(err)
	}
	still, err := s.Mark(id)
	if err != nil {
		t.Fatal(err)
	}
	_, kept := s.Keep(noise(3), metaFor(3), nil)
	for what, err := range map[string]error{
		"keep": kept, "notes": s.SaveNotes(still, nil), "rename": s.Rename(id, "x"), "delete": s.Delete(id),
	} {
		if !errors.Is(err, syscall.EROFS) {
			t.Errorf("%s gives %v", what, err)
		}
	}
}
