package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// A crash on any goroutine stands in the file of messages; a run that ends well leaves none.
func TestCrashesAreKept(t *testing.T) {
	const how = "TONEDESK_TEST_END"
	switch os.Getenv(how) {
	case "crash":
		keepCrashes()
		go panic("a mistake of ours")
		select {}
	case "well":
		keepCrashes()()
		return
	}
	for _, end := range []string{"crash", "well"} {
		state := t.TempDir()
		again := exec.Command(os.Args[0], "-test.run=^TestCrashesAreKept$")
		again.Env = append(again.Environ(), how+"="+end, "XDG_STATE_HOME="+state, "HOME="+state, "LocalAppData="+state)
		out, err := again.CombinedOutput()
		if (err != nil) != (end == "crash") {
			t.Errorf("%s: %v\n%s", end, err, out)
		}
		var kept []byte
		_ = filepath.WalkDir(state, func(path string, e os.DirEntry, err error) error {
			if err == nil && e.Name() == "desk.log" {
				kept, err = os.ReadFile(path)
				kept = append(kept, "!"...) // there, though it may be empty
			}
			return err
		})
		if end == "well" && kept != nil || end == "crash" && !strings.Contains(string(kept), "a mistake of ours") {
			t.Errorf("%s: kept %q", end, kept)
		}
	}
}
