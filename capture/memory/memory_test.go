package memory

import (
	"errors"
	"runtime/debug"
	"testing"
)

// Room is what the limit leaves beside what is held; what was let go of is room again.
func TestRoom(t *testing.T) {
	defer debug.SetMemoryLimit(debug.SetMemoryLimit(200_000_000))
	var full *Full
	held := make([]byte, 100_000_000)
	if err := Room(80_000_000); err != nil {
		t.Errorf("80 of some 90 MB: %v", err)
	}
	if err := Room(95_000_000); !errors.As(err, &full) || full.Takes != 95_000_000 || full.Free > 90_000_000 || full.Free < 70_000_000 {
		t.Errorf("95 of some 90 MB: %v", err)
	}
	if err := Room(large - 1); err != nil {
		t.Errorf("a small picture: %v", err)
	}
	clear(held) // it was held until here
	held = nil
	if err := Room(150_000_000); err != nil {
		t.Errorf("after it was let go of: %v", err)
	}
}
