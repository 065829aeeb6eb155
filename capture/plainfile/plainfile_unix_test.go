//go:build unix

package plainfile

import (
	"errors"
	"net"
	"os"
	"path/filepath"
	"syscall"
	"testing"
)

// What could hold up who opens it, or never end, is refused at once, also behind a link and
// whatever it is opened for.
func TestOpenRefuses(t *testing.T) {
	dir := t.TempDir()
	pipe, socket, link := filepath.Join(dir, "pipe"), filepath.Join(dir, "socket"), filepath.Join(dir, "link")
	if err := syscall.Mkfifo(pipe, 0o600); err != nil {
		t.Fatal(err)
	}
	l, err := net.Listen("unix", socket)
	if err != nil {
		t.Fatal(err)
	}
	defer l.Close()
	if err := os.Symlink(pipe, link); err != nil {
		t.Fatal(err)
	}
	loop := filepath.Join(dir, "loop")
	if err := os.Symlink(loop, loop); err != nil {
		t.Fatal(err)
	}
	for path, want := range map[string]error{
		pipe: ErrNotPlain, link: ErrNotPlain, socket: ErrNotPlain, "/dev/zero": ErrNotPlain, dir: ErrFolder,
		loop: syscall.ELOOP, filepath.Join(loop, "x"): syscall.ELOOP,
	} {
		for _, flag := range []int{os.O_RDONLY, os.O_WRONLY | os.O_CREATE, os.O_RDWR} {
			if f, _, err := Open(path, flag); !errors.Is(err, want) {
				t.Errorf("%s, %d: %v, %v", path, flag, f, err)
			}
		}
	}
}

// A pipe that takes a file's place between the look and the opening does not hold up either.
func TestOpenNeverWaits(t *testing.T) {
	dir := t.TempDir()
	path, pipe, file := filepath.Join(dir, "a"), filepath.Join(dir, "pipe"), filepath.Join(dir, "file")
	if err := errors.Join(syscall.Mkfifo(pipe, 0o600), os.WriteFile(file, nil, 0o600), os.Symlink(file, path)); err != nil {
		t.Fatal(err)
	}
	stop, done := make(chan bool), make(chan error)
	go func() {
		var err error
		for i := 0; err == nil; i++ {
			next := filepath.Join(dir, "next")
			if err = os.Symlink([]string{file, pipe}[i%2], next); err == nil {
				err = os.Rename(next, path)
			}
			select {
			case <-stop:
				done <- err
				return
			default:
			}
		}
		done <- err
	}()
	for range 2000 {
		if f, _, err := Open(path, os.O_RDONLY); err == nil {
			f.Close()
		} else if !errors.Is(err, ErrNotPlain) {
			t.Error(err)
		}
	}
	close(stop)
	if err := <-done; err != nil {
		t.Error(err)
	}
}
