package quiet

import (
	"os"
	"path/filepath"
	"runtime"
)

// place returns where the present user's messages are kept, "" if there is no place: in
// $XDG_STATE_HOME or ~/.local/state (XDG Base Directory Specification 0.8), on Windows and
// macOS in the folder for what can be done without.
func place(env func(string) string) string {
	dir := env("XDG_STATE_HOME")
	switch runtime.GOOS {
	case "windows", "darwin":
		var err error
		if dir, err = os.UserCacheDir(); err != nil {
			return ""
		}
	default:
		if filepath.IsAbs(dir) { // a relative path counts as none, says the specification
			break
		}
		if dir = filepath.Join(env("HOME"), ".local", "state"); !filepath.IsAbs(dir) {
			return ""
		}
	}
	return filepath.Join(dir, "tonedesk", "desk.log")
}
