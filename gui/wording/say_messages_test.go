package wording

import (
	"fmt"
	"testing"

	"app.tonedesk/capture"
)

func TestSayForgotten(t *testing.T) {
	for _, tt := range []struct {
		was  Lying
		want string
	}{
		{Lying{Spots: 1}, "1 spot forgotten"},
		{Lying{Spots: 5, Out: true, Colours: true, Borders: true, ToTarget: true}, "5 spots, left-out parts, local colours, borders, target forgotten"},
		{Lying{Out: true}, "Left-out parts forgotten"},
		{Lying{ToTarget: true}, "Target forgotten"},
	} {
		if got := SayForgotten(tt.was); got != tt.want {
			t.Errorf("%+v: %q, want %q", tt.was, got, tt.want)
		}
	}
}

// What can't be read is said by its cause, as far as a chip has room for it.
func TestSayUnreadable(t *testing.T) {
	for want, now := range map[string]capture.Status{
		"Screen does not answer": {State: capture.NotAnswering, Err: capture.ErrNotAnswering},
		"Screen is locked":       {State: capture.Gone, Err: fmt.Errorf("read screen: %w", capture.ErrLocked)},
		"Screen can't be read":   {State: capture.Gone, Err: capture.ErrGone},
	} {
		if got := SayUnreadable(true, now); got != want {
			t.Errorf("%v: %q, want %q", now, got, want)
		}
		if got := SayUnreadable(false, now); got != "File can't be read" {
			t.Errorf("a file, %v: %q", now, got)
		}
	}
}
