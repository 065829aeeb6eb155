package main

import (
	"bytes"
	"fmt"
	"image/color"
	"io"
	"os"
	"os/exec"
	"strings"
	"testing"

	"golang.org/x/sys/unix"

	"app.tonedesk/cmd/desk/desktest"
)

// terminal opens a terminal of the system's, and returns its side for programs and all that they
// wrote there once that is closed.
func terminal(t *testing.T) (*os.File, func() string) {
	t.Helper()
	master, err := os.OpenFile("/dev/ptmx", os.O_RDWR, 0)
	if err != nil {
		t.Skipf("no terminals here: %v", err)
	}
	fd := int(master.Fd())
	if err := unix.IoctlSetPointerInt(fd, unix.TIOCSPTLCK, 0); err != nil {
		t.Fatal(err)
	}
	n, err := unix.IoctlGetInt(fd, unix.TIOCGPTN)
	if err != nil {
		t.Fatal(err)
	}
	slave, err := os.OpenFile(fmt.Sprintf("/dev/pts/%d", n), os.O_RDWR|unix.O_NOCTTY, 0)
	if err != nil {
		t.Skipf("no terminals here: %v", err)
	}
	var all bytes.Buffer
	done := make(chan struct{})
	go func() {
		defer close(done)
		_, _ = io.Copy(&all, master) // ends with an error when the other side is closed
	}()
	return slave, func() string {
		_ = slave.Close()
		<-done
		_ = master.Close()
		return all.String()
	}
}

// On a terminal a line on standard error says how many of several pictures are read; it is written
// over, and nothing of it stays. Anywhere else nothing is said.
func TestReadProgress(t *testing.T) {
	var paths []string
	for i := range 5 {
		paths = append(paths, picture(t, fmt.Sprintf("%d.png", i), 8, 8, func(int, int) color.NRGBA { return color.NRGBA{9, 9, 9, 255} }))
	}
	read := func(stderr *os.File, paths ...string) string {
		cmd := exec.Command(desktest.Program(t), append([]string{"read", "--json"}, paths...)...)
		cmd.Stderr = stderr
		out, err := cmd.Output()
		if err != nil {
			t.Fatal(err)
		}
		return string(out)
	}
	screen, written := terminal(t)
	out := read(screen, paths...)
	said := written()
	if n := strings.Count(out, "\n"); n != 5 {
		t.Errorf("%d reports", n)
	}
	for i := range 5 {
		if !strings.Contains(said, fmt.Sprintf("\r%d of 5 pictures read", i)) {
			t.Errorf("%d pictures are not said to be read: %q", i, said)
		}
	}
	if strings.Contains(said, "\n") || !strings.HasSuffix(said, " \r") {
		t.Errorf("something stays on the terminal: %q", said)
	}
	screen, written = terminal(t)
	read(screen, paths[0])
	if said := written(); said != "" {
		t.Errorf("of one picture is said %q", said)
	}
	if e := desktest.Run(t, "", append([]string{"read"}, paths...)...); e.Err != "" {
		t.Errorf("what is no terminal gets %q", e.Err)
	}
}

// So does a series of pictures.
func TestSeriesProgress(t *testing.T) {
	args := []string{"stills", "--series"}
	for i := range 3 {
		args = append(args, picture(t, fmt.Sprintf("%d.png", i), 40, 20, twoGreys(uint8(40+9*i), 200)))
	}
	screen, written := terminal(t)
	cmd := exec.Command(desktest.Program(t), args...)
	cmd.Stderr = screen
	if _, err := cmd.Output(); err != nil {
		t.Fatal(err)
	}
	said := written()
	if !strings.Contains(said, "2 of 3 pictures read") || strings.TrimRight(said[strings.LastIndex(strings.TrimRight(said, "\r"), "\r")+1:], " \r") != "" {
		t.Errorf("%q", said)
	}
}
