package plainfile

import (
	"io/fs"
	"path/filepath"
	"runtime"
	"strings"
)

// NotReserved says why a path can be no file's: on Windows names such as CON, NUL and COM1 are those
// of devices in every folder, whatever ends them, and so is what begins with \\.\, which the system
// makes of them. The error wraps ErrNotPlain.
func NotReserved(path string) error {
	if runtime.GOOS != "windows" {
		return nil
	}
	name := filepath.Base(path)
	if !strings.HasPrefix(filepath.FromSlash(path), `\\.\`) && (name == ".." || name == `\` || filepath.IsLocal(name)) {
		return nil
	}
	return &fs.PathError{Op: "open", Path: path, Err: ErrNotPlain}
}
