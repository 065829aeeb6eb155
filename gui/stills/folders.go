package stills

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"runtime"

	"app.tonedesk/gui/files"
)

// Folders says where stills are kept.
type Folders struct {
	Data  string // the stills themselves
	Cache string // small pictures of them, which can be made again; "" for no place
}

// UserFolders returns the present user's folders by the system's convention: on Linux the
// XDG Base Directory Specification 0.8 ($XDG_DATA_HOME or ~/.local/share; $XDG_CACHE_HOME
// or ~/.cache), on macOS ~/Library, on Windows %LocalAppData%. Nothing is made. The
// error wraps files.ErrNoHome.
func UserFolders() (Folders, error) {
	data, err := userDataDir()
	if err != nil {
		return Folders{}, fmt.Errorf("find the folder of stills: %w: %w", files.ErrNoHome, err)
	}
	f := Folders{Data: filepath.Join(data, "tonedesk", "stills")}
	if cache, err := os.UserCacheDir(); err == nil { // it can be done without
		f.Cache = filepath.Join(cache, "tonedesk", "stills")
	}
	return f, nil
}

func userDataDir() (string, error) {
	switch runtime.GOOS {
	case "windows":
		if dir := os.Getenv("LocalAppData"); dir != "" {
			return dir, nil
		}
		return "", errors.New("%LocalAppData% is not set")
	case "darwin", "ios":
		return os.UserConfigDir() // ~/Library/Application Support, for data too
	}
	// A relative path is invalid and counts as none (XDG Base Directory Specification).
	if dir := os.Getenv("XDG_DATA_HOME"); filepath.IsAbs(dir) {
		return dir, nil
	}
	home, err := os.UserHomeDir()
	if err != nil {
		return "", err
	}
	return filepath.Join(home, ".local", "share"), nil
}
