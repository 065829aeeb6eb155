package desktest

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"syscall"
	"testing"
)

// measuring is set for a process that only starts another one and says what it took.
const measuring = "TONEDESK_MEASURING"

// The system counts what a process held when it started another one as that one's too. So the
// program is started by a process that holds little: the test's own binary, which ends here.
func init() {
	if os.Getenv(measuring) == "" {
		return
	}
	os.Unsetenv(measuring)
	cmd := exec.Command(os.Args[1], os.Args[2:]...)
	cmd.Stdout, cmd.Stderr = os.Stdout, os.Stderr
	if err := cmd.Run(); cmd.ProcessState == nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
	fmt.Fprint(os.NewFile(3, "peak"), cmd.ProcessState.SysUsage().(*syscall.Rusage).Maxrss) // in KiB: getrusage(2)
	os.Exit(cmd.ProcessState.ExitCode())
}

// Peak runs the built program as RunWith does, and returns the most memory that it held, in
// bytes.
func Peak(t testing.TB, env []string, args ...string) (int64, Ended) {
	t.Helper()
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	said, says, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	defer said.Close()
	home := t.TempDir()
	var out, fault bytes.Buffer
	cmd := exec.Command(self, append([]string{Program(t)}, args...)...)
	cmd.Env = append([]string{measuring + "=1", "PATH=" + os.Getenv("PATH"), "HOME=" + home, "XDG_CONFIG_HOME=" + home, "LANG=C.UTF-8"}, env...)
	cmd.Stdout, cmd.Stderr, cmd.ExtraFiles = &out, &fault, []*os.File{says}
	_ = cmd.Run() // its exit code says it
	says.Close()
	var kib int64
	if _, err := fmt.Fscan(said, &kib); err != nil {
		t.Fatalf("no peak is said: %v\n%s", err, fault.String())
	}
	return 1024 * kib, Ended{out.String(), fault.String(), cmd.ProcessState.ExitCode()}
}
