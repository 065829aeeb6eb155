package attack

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"slices"
	"strings"
	"syscall"
	"testing"
	"time"

	"app.tonedesk/cmd/desk/desktest"
)

// What a command may take at the most.
const (
	mostTime   = time.Minute // for a batch of small files, on a loaded machine; our choice
	mostMemory = 600         // MB, for any picture that is accepted
)

// outcome is how a command ended, and what it took.
type outcome struct {
	desktest.Ended
	faults    []string
	peak      int           // MB of memory
	processor time.Duration // of all cores, which what runs beside it doesn't lengthen by much
}

// command runs a command of the built program, for a user whose files lie in home, and says
// what is wrong with how it ended: it must end by itself, in time, with an exit code of its
// own and plain sentences.
func command(t *testing.T, home, input string, args ...string) (o outcome) {
	t.Helper()
	program := desktest.Program(t) // which may be built first
	var out, fault bytes.Buffer
	ctx, cancel := context.WithTimeout(context.Background(), mostTime)
	defer cancel()
	cmd := exec.CommandContext(ctx, program, args...)
	cmd.Stdin, cmd.Stdout, cmd.Stderr = strings.NewReader(input), &out, &fault
	cmd.Env = environment(home)
	err := cmd.Run()
	var exit *exec.ExitError
	if err != nil && !errors.As(err, &exit) {
		t.Fatal(err)
	}
	state := cmd.ProcessState
	o.Ended = desktest.Ended{Out: out.String(), Err: fault.String(), Code: state.ExitCode()}
	o.peak = int(state.SysUsage().(*syscall.Rusage).Maxrss / 1000) // Linux counts it in KiB
	o.processor = state.UserTime() + state.SystemTime()
	o.faults = desktest.NotPlain(o.Err)
	what := fmt.Sprintf("desk %s", strings.Join(args[:min(len(args), 4)], " "))
	if ctx.Err() != nil {
		o.faults = append(o.faults, fmt.Sprintf("%s did not end in %v", what, mostTime))
	} else if o.Code != 0 && o.Code != 1 {
		o.faults = append(o.faults, fmt.Sprintf("%s ended with %v", what, state))
	}
	if o.Code == 1 && o.Err == "" {
		o.faults = append(o.faults, what+" failed without a word")
	}
	if o.peak > mostMemory {
		o.faults = append(o.faults, fmt.Sprintf("%s took %d MB", what, o.peak))
	}
	return o
}

// environment is that of a user whose files lie in home, without a display.
func environment(home string) []string {
	return []string{
		"PATH=" + os.Getenv("PATH"), "HOME=" + home, "XDG_CONFIG_HOME=" + home, "XDG_DATA_HOME=" + home + "/data",
		"XDG_CACHE_HOME=" + home + "/cache", "XDG_STATE_HOME=" + home + "/state", "LANG=C.UTF-8",
	}
}

// batches cuts a list into pieces that one command line takes.
func batches[T any](list []T, n int) [][]T { return slices.Collect(slices.Chunk(list, n)) }
