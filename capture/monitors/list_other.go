//go:build !linux && !windows

package monitors

import (
	"context"
	"fmt"

	"app.tonedesk/capture"
)

// List is not offered here: the error wraps capture.ErrUnsupported.
func List(context.Context) ([]Monitor, error) {
	return nil, fmt.Errorf("monitors: %w", capture.ErrUnsupported)
}

// Profile is not offered here: the error wraps capture.ErrUnsupported.
func Profile(_ context.Context, m Monitor) ([]byte, error) {
	return nil, fmt.Errorf("profile of %s: %w", m.Name, capture.ErrUnsupported)
}
