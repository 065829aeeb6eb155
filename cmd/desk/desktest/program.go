package desktest

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

// buildDir holds the program that the tests run.
var buildDir string

// Main runs a package's tests and returns the exit code; a TestMain calls it, since it clears
// away the program that they built.
func Main(m *testing.M) int {
	dir, err := os.MkdirTemp("", "tonedesk-test")
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		return 1
	}
	defer os.RemoveAll(dir)
	buildDir = dir
	quiet.Aloud() // a test keeps nothing in the user's folders
	return m.Run()
}

// foreign names a program that is tested in place of the one that is built here, such as one that
// runs the program for Windows (scripts/windows/test.sh).
const foreign = "TONEDESK_PROGRAM"

// Foreign reports whether the program is one for another system. There paths and some of the
// system's own words are others.
func Foreign() bool { return os.Getenv(foreign) != "" }

// buildOnce builds the program, once, with the flags that everything else is built with.
var buildOnce = sync.OnceValues(func() (string, error) {
	path := filepath.Join(buildDir, "desk")
	if out, err := exec.Command("go", "build", "-o", path, "app.tonedesk/cmd/desk").CombinedOutput(); err != nil {
		return "", fmt.Errorf("go build: %w\n%s", err, out)
	}
	return path, nil
})

// Program returns the path of the program to test.
func Program(t testing.TB) string {
	t.Helper()
	if path := os.Getenv(foreign); path != "" {
		return path
	}
	return Built(t)
}

// Built returns the path of the program for this system.
func Built(t testing.TB) string {
	t.Helper()
	path, err := buildOnce()
	if err != nil {
		t.Fatal(err)
	}
	return path
}

// Ended is how a run of the built program ended.
type Ended struct {
	Out, Err string
	Code     int
}

// Run runs the built program without a display, with its settings in a folder of the
// test's own.
func Run(t testing.TB, input string, args ...string) Ended {
	t.Helper()
	return RunWith(t, nil, input, args...)
}

// RunWith runs the built program with more environment.
func RunWith(t testing.TB, env []string, input string, args ...string) Ended {
	t.Helper()
	return RunProgram(t, Program(t), env, input, args...)
}

// RunProgram is RunWith with another program.
func RunProgram(t testing.TB, program string, env []string, input string, args ...string) Ended {
	t.Helper()
	var out, fault bytes.Buffer
	cmd := exec.Command(program, args...)
	cmd.Stdin, cmd.Stdout, cmd.Stderr = strings.NewReader(input), &out, &fault
	home := t.TempDir()
	cmd.Env = append([]string{"PATH=" + os.Getenv("PATH"), "HOME=" + home, "XDG_CONFIG_HOME=" + home, "LANG=C.UTF-8"}, env...)
	err := cmd.Run()
	var exit *exec.ExitError
	if err != nil && !errors.As(err, &exit) {
		t.Fatal(err)
	}
	return Ended{out.String(), ours(t, fault.String()), cmd.ProcessState.ExitCode()}
}

// ours leaves out what Wine says of a fault of its own as a process ends, and logs it: some starts in a
// thousand see one, and end with their own code all the same.
func ours(t testing.TB, said string) string {
	if !Foreign() {
		return said
	}
	t.Helper()
	var rest strings.Builder
	for line := range strings.Lines(said) {
		if strings.HasPrefix(line, "wine: Unhandled page fault on ") {
			t.Log(line)
			continue
		}
		rest.WriteString(line)
	}
	return rest.String()
}

// PlainErrors fails unless standard error holds just so many sentences, a line each,
// in our words, and nothing of a program's innards.
func (e Ended) PlainErrors(t *testing.T, want int) {
	t.Helper()
	lines := strings.Split(strings.TrimSuffix(e.Err, "\n"), "\n")
	if e.Err == "" {
		lines = nil
	}
	if len(lines) != want {
		t.Errorf("standard error has %d lines, want %d:\n%s", len(lines), want, e.Err)
	}
	for _, fault := range NotPlain(e.Err) {
		t.Error(fault)
	}
}

// NotPlain says what is wrong with the sentences, a line each, that the program wrote to
// standard error: each says in our words what could not be done, why, and what to do, and
// holds nothing of a program's innards.
func NotPlain(said string) (faults []string) {
	for line := range strings.Lines(said) {
		line = strings.TrimSuffix(line, "\n")
		if !strings.HasPrefix(line, "Can't ") || !strings.HasSuffix(line, ".") ||
			strings.Count(line, ": ") < 1 || strings.Count(line, "; ") < 1 {
			faults = append(faults, "not what, why and what to do: "+line)
		}
		for _, odd := range []string{"goroutine", "panic", ".go:", "%!", "0x", "\x1b"} {
			if strings.Contains(line, odd) {
				faults = append(faults, fmt.Sprintf("the sentence holds %q: %s", odd, line))
			}
		}
	}
	return faults
}
