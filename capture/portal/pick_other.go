//go:build !linux

package portal

import "app.tonedesk/capture"

// Pick opens the way into this system's screen, as capture.Pick does.
func Pick(env func(string) string, _ Tokens) (capture.Backend, error) { return capture.Pick(env) }
