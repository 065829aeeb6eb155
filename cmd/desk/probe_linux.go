package main

import (
	"context"
	"os"

	"app.tonedesk/capture/xconn"
)

// probeDisplay asks the window's own display whether it lets us in. It has to be over
// before the screen is watched: there is one connection at a time.
func probeDisplay(ctx context.Context) error { return xconn.Probe(ctx, os.Getenv("DISPLAY")) }
