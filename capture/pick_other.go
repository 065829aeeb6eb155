//go:build !linux && !windows && !darwin

package capture

import "fmt"

// pick has no way in: what the portable backend gives there was never checked.
func pick(func(string) string) (Backend, error) {
	return nil, fmt.Errorf("pick a screen: %w", ErrUnsupported)
}
