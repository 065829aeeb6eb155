//go:build windows || darwin

package capture

import (
	"context"
	"fmt"
	"time"
)

// pickTime is how long Pick waits for the system. Our choice.
const pickTime = 5 * time.Second

// pick opens the portable backend.
func pick(func(string) string) (Backend, error) {
	ctx, cancel := context.WithTimeout(context.Background(), pickTime)
	defer cancel()
	b, err := openPortable(ctx)
	if err != nil {
		return nil, fmt.Errorf("pick a screen: %w", err)
	}
	return b, nil
}
