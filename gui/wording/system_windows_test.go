package wording

import (
	"io/fs"
	"strings"
	"syscall"
	"testing"
)

// Numbers: Microsoft, "System Error Codes".
func TestSystemsErrorsAreSaid(t *testing.T) {
	for number, want := range map[syscall.Errno]string{
		32: "another program has it open", 33: "another program has it open", 39: "the disk is full", 112: "the disk is full",
		19: "can only be read", 21: "nothing in that drive", 123: "no file can have such a name", 161: "no file can have such a name",
		206: "longer than a name can be", 267: "is a file, not a folder", 1921: "leads back to itself",
		67: "does not answer", 53: "there is no such file", 2: "there is no such file", 3: "there is no such file", 5: "not allowed to open it",
	} {
		err := &fs.PathError{Op: "open", Path: "x", Err: number}
		if got := Explain("try", err); !strings.Contains(got, want) {
			t.Errorf("%d: %s", number, got)
		}
	}
}
