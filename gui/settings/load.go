package settings

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"app.tonedesk/capture/plainfile"
	"app.tonedesk/gui/files"
	"app.tonedesk/gui/language"
)

// ErrNewer says that the settings file belongs to a newer program. It stays as it
// is, and nothing is kept as long as it lies there.
var ErrNewer = errors.New("settings of a newer version")

// errDamaged says that a settings file is no JSON object with a readable version.
var errDamaged = errors.New("settings are damaged")

// maxSettingsFile bounds what is read as settings, in bytes; ours have a few thousand, and half of it
// for what lies on pictures at most.
const maxSettingsFile = 1 << 20

// Path returns where the settings file lies for the present user. The error wraps
// files.ErrNoHome.
func Path() (string, error) {
	dir, err := os.UserConfigDir()
	if err != nil {
		return "", fmt.Errorf("find the folder of settings: %w: %w", files.ErrNoHome, err)
	}
	return filepath.Join(dir, "tonedesk", "settings.json"), nil
}

// Load reads the settings file. The settings it returns are always valid. problems
// are sentences for the user on what could not be taken over; a damaged file is set aside
// under another name, so that nothing is lost. A missing file means the defaults.
//
// An error means that the file could not be read, which problems leave to the caller to
// explain, or not set aside, or that it wraps ErrNewer; the file is then as it was, and a
// Keeper won't overwrite it either.
func Load(path string) (s Settings, problems []string, err error) {
	return loadSettings(path, time.Now())
}

func loadSettings(path string, now time.Time) (Settings, []string, error) {
	data, err := readSettings(path)
	if errors.Is(err, fs.ErrNotExist) {
		return Defaults(), nil, nil
	}
	if err != nil {
		return Defaults(), nil, err
	}
	s, problems, err := decodeSettings(data)
	if errors.Is(err, ErrNewer) {
		return s, []string{language.Say("The settings are from a newer Tonedesk; their file stays as it is, and changes made now are not kept.")},
			fmt.Errorf("load settings %s: %w", path, err)
	}
	if err != nil {
		aside, moveErr := setAside(path, now)
		if moveErr != nil {
			return s, []string{language.Say("The settings file is damaged and could not be set aside; Tonedesk starts without it.")},
				errors.Join(fmt.Errorf("load settings %s: %w", path, err), moveErr)
		}
		return s, []string{language.Say("The settings file was damaged: it is set aside as %s in the same folder, and the settings start anew.", filepath.Base(aside))}, nil
	}
	return s, problems, nil
}

// readSettings reads the file; what is larger than its limit is damaged.
func readSettings(path string) ([]byte, error) {
	data, err := plainfile.Read(path, maxSettingsFile)
	if errors.Is(err, plainfile.ErrLarge) {
		return nil, nil // which is no object either
	}
	return data, err
}

// decodeSettings reads settings field by field, so that one bad field costs only itself.
func decodeSettings(data []byte) (Settings, []string, error) {
	s := Defaults()
	raw, err := decodeObject(data)
	if err != nil {
		return s, nil, err
	}
	if version, err := versionOf(raw); err != nil {
		return s, nil, err
	} else if version > settingsVersion {
		return s, nil, fmt.Errorf("version %d, known up to %d: %w", version, settingsVersion, ErrNewer)
	}
	edition := takeEdition(raw)
	var unclear []string
	for _, f := range s.fields() {
		if b, ok := raw[f.name]; ok && f.to(b) != nil {
			unclear = append(unclear, f.name)
		}
		delete(raw, f.name)
	}
	s.renew(edition)
	delete(raw, "version")
	if len(raw) > 0 {
		s.unknown = raw
	}
	var problems []string
	if len(unclear) > 0 {
		problems = append(problems, language.Say("Some settings could not be read and are back to what they were at first: %s.", strings.Join(unclear, ", ")))
	}
	changed := s.confine()
	if i := slices.Index(changed, picturesName); i >= 0 {
		changed = slices.Delete(changed, i, i+1)
		problems = append(problems, language.Say("What was remembered of some pictures could not be read and is left out: place their spots again."))
	}
	if len(changed) > 0 {
		problems = append(problems, language.Say("Some settings were out of range and have been brought back into it: %s.", strings.Join(changed, ", ")))
	}
	return s, problems, nil
}

// decodeObject reads one JSON object and nothing behind it.
func decodeObject(data []byte) (map[string]json.RawMessage, error) {
	if len(data) > maxSettingsFile {
		return nil, fmt.Errorf("more than %d bytes: %w", maxSettingsFile, errDamaged)
	}
	var raw map[string]json.RawMessage
	if err := json.Unmarshal(data, &raw); err != nil {
		return nil, fmt.Errorf("%w: %w", errDamaged, err)
	}
	if raw == nil { // the word null
		return nil, errDamaged
	}
	return raw, nil
}

// versionOf returns the version in a settings object, 0 if there is none.
func versionOf(raw map[string]json.RawMessage) (int64, error) {
	b, ok := raw["version"]
	if !ok {
		return 0, nil
	}
	var version int64
	if err := json.Unmarshal(b, &version); err != nil || bytes.Equal(b, []byte("null")) {
		return 0, fmt.Errorf("version %.20q: %w", b, errDamaged)
	}
	return version, nil
}

// setAside gives the file at path a name of its own beside it and returns that name.
func setAside(path string, now time.Time) (string, error) {
	stem := path + ".damaged-" + now.Format("20060102-150405")
	for n := range 100 {
		name := stem
		if n > 0 {
			name = fmt.Sprintf("%s-%d", stem, n+1)
		}
		if _, err := os.Lstat(name); err == nil {
			continue // never over an older one
		}
		if err := os.Rename(path, name); err != nil {
			return "", fmt.Errorf("set damaged settings aside: %w", err)
		}
		return name, nil
	}
	return "", fmt.Errorf("set damaged settings aside: %s and a hundred like it: %w", stem, fs.ErrExist)
}
