package main

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"app.tonedesk/cmd/desk/quiet"
)

// buildDir holds the program that the tests run; TestMain removes it.
var buildDir string

func TestMain(m *testing.M) {
	dir, err := os.MkdirTemp("", "tonedesk-test")
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
	buildDir = dir
	quiet.Aloud() // a test keeps nothing in the user's folders
	code := m.Run()
	os.RemoveAll(dir)
	os.Exit(code)
}

// buildOnce builds the program, once, with the flags that everything else is built with.
var buildOnce = sync.OnceValues(func() (string, error) {
	path := filepath.Join(buildDir, "desk")
	if out, err := exec.Command("go", "build", "-o", path, ".").CombinedOutput(); err != nil {
		return "", fmt.Errorf("go build: %w\n%s", err, out)
	}
	return path, nil
})

// builtProgram returns the path of the built program.
func builtProgram(t testing.TB) string {
	t.Helper()
	path, err := buildOnce()
	if err != nil {
		t.Fatal(err)
	}
	return path
}

// ended is how a run of the built program ended.
type ended struct {
	out, err string
	code     int
}

// desk runs the built program without a display, with its settings in a folder of the
// test's own.
func desk(t testing.TB, input string, args ...string) ended {
	t.Helper()
	return deskWith(t, nil, input, args...)
}

// deskWith runs the built program with more environment.
func deskWith(t testing.TB, env []string, input string, args ...string) ended {
	t.Helper()
	var out, fault bytes.Buffer
	cmd := exec.Command(builtProgram(t), args...)
	cmd.Stdin, cmd.Stdout, cmd.Stderr = strings.NewReader(input), &out, &fault
	home := t.TempDir()
	cmd.Env = append([]string{"PATH=" + os.Getenv("PATH"), "HOME=" + home, "XDG_CONFIG_HOME=" + home, "LANG=C.UTF-8"}, env...)
	err := cmd.Run()
	var exit *exec.ExitError
	if err != nil && !errors.As(err, &exit) {
		t.Fatal(err)
	}
	return ended{out.String(), fault.String(), cmd.ProcessState.ExitCode()}
}

// plainErrors fails unless standard error holds just so many sentences, a line each,
// in our words, and nothing of a program's innards.
func (e ended) plainErrors(t *testing.T, want int) {
	t.Helper()
	lines := strings.Split(strings.TrimSuffix(e.err, "\n"), "\n")
	if e.err == "" {
		lines = nil
	}
	if len(lines) != want {
		t.Errorf("standard error has %d lines, want %d:\n%s", len(lines), want, e.err)
	}
	for _, line := range lines {
		if !strings.HasPrefix(line, "Can't ") || !strings.HasSuffix(line, ".") ||
			strings.Count(line, ": ") < 1 || strings.Count(line, "; ") < 1 {
			t.Errorf("not what, why and what to do: %s", line)
		}
		for _, odd := range []string{"goroutine", "panic", ".go:", "%!", "0x"} {
			if strings.Contains(line, odd) {
				t.Errorf("the sentence holds %q: %s", odd, line)
			}
		}
	}
}
