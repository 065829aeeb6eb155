package wording

import (
	"context"
	"syscall"
	"testing"
	"time"

	"app.tonedesk/gui/stills"
)

func TestSayLost(t *testing.T) {
	hands := stills.Meta{Name: "Hands"}
	unnamed := stills.Meta{Time: time.Date(2026, 3, 1, 14, 5, 0, 0, time.Local)}
	tests := []struct {
		of   []stills.Meta
		err  error
		want string
	}{
		{[]stills.Meta{hands}, syscall.ENOSPC, `Can't save the notes of "Hands": the disk is full; make room. Quitting now loses it.`},
		{[]stills.Meta{hands, unnamed}, syscall.EROFS, `Can't save the notes of "Hands" and "` + TimeSay(unnamed.Time) + `": nothing can be written on that disk; use another one, or make it writable. Quitting now loses it.`},
		{nil, context.DeadlineExceeded, "Can't finish what is being written: it took too long; try again. Quitting now loses it."},
	}
	for _, tt := range tests {
		if got := SayLost(tt.of, tt.err); got != tt.want {
			t.Errorf("it says %q, want %q", got, tt.want)
		}
	}
}
