//go:build !linux

package main

import (
	"context"
	"sync/atomic"

	"app.tonedesk/gui/wording"
)

// ownWindow is the window as its system knows it.
var ownWindow atomic.Uintptr

// onGone has nothing to watch for: on this system the display outlives its programs.
func onGone(func(wording.Phrase)) {}

// probeDisplay has nothing to ask: on this system there is always a display.
func probeDisplay(context.Context) error { return nil }

// sayNoDisplay is never asked for.
func sayNoDisplay(err error, _ func(string) string) string {
	return wording.Explain("open the window", err)
}
