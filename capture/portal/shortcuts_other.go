//go:build !linux

package portal

import (
	"context"

	"app.tonedesk/capture"
)

// Shortcuts are keys of the whole desktop: here there are none.
type Shortcuts struct{}

// AskShortcuts has the desktop hand out keys: here there is none that does.
func AskShortcuts(context.Context, func(string) string, string, uint64, []Shortcut, ShortcutHearer) (*Shortcuts, map[string]string, error) {
	return nil, nil, capture.ErrNoPortal
}

// Close has nothing to give back.
func (*Shortcuts) Close() {}
