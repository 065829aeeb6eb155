//go:build !linux

package capture

import (
	"context"
	"fmt"
	"runtime"
	"time"
)

// pickTime is how long Pick waits for the system. Our choice.
const pickTime = 5 * time.Second

// Pick opens the portable backend on Windows and macOS. What that gives on other systems
// was never checked: there the error wraps ErrUnsupported.
func Pick(func(string) string) (Backend, error) {
	if runtime.GOOS != "windows" && runtime.GOOS != "darwin" {
		return nil, fmt.Errorf("pick a screen: %w", ErrUnsupported)
	}
	ctx, cancel := context.WithTimeout(context.Background(), pickTime)
	defer cancel()
	b, err := openPortable(ctx)
	if err != nil {
		return nil, fmt.Errorf("pick a screen: %w", err)
	}
	return following(b), nil
}
