package plainfile

import (
	"errors"
	"os"
	"testing"
)

// Source: Microsoft, "Naming Files, Paths, and Namespaces", of reserved names.
func TestReservedNames(t *testing.T) {
	dir := t.TempDir()
	for _, name := range []string{"CON", "nul", "Aux.png", "PRN", "COM1", "LPT9.png", "CONIN$", "com1.tar.gz"} {
		for _, path := range []string{name, dir + `\` + name, dir + "/" + name, `\\.\` + name} {
			for _, flag := range []int{os.O_RDONLY, os.O_WRONLY | os.O_CREATE} {
				if f, _, err := Open(path, flag); !errors.Is(err, ErrNotPlain) {
					t.Errorf("%s: %v, %v", path, f, err)
				}
			}
		}
	}
	for _, path := range []string{`..`, `C:\`, dir, dir + `\icon.png`, dir + `\console`, dir + `\COM.png`, `Ölbild 1.png`} {
		if err := NotReserved(path); err != nil {
			t.Error(err)
		}
	}
}
