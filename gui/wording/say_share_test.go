package wording

import (
	"fmt"
	"testing"

	"app.tonedesk/capture"
)

// However sharing fails there is a short word and a sentence that says what to do.
func TestExplainSharing(t *testing.T) {
	for _, tt := range []struct {
		err         error
		short, long string
	}{
		{capture.ErrNoLibrary, "Nothing is shared", "Can't share the screen: PipeWire's library is not installed; install libpipewire (on Debian libpipewire-0.3-0) and start Tonedesk again, or follow an X11 window."},
		{capture.ErrNoPortal, "Nothing is shared", "Can't share the screen: this desktop has no portal that shares the screen; install xdg-desktop-portal and the one for your desktop, log in again, or follow an X11 window."},
		{capture.ErrGivenUp, "Nothing is shared", "Can't share the screen: the desktop's question was answered with no; choose again with R."},
		{capture.ErrUnanswered, "Nothing is shared", "Can't share the screen: the desktop's question was not answered for three minutes; choose again with R, and look for its window."},
		{capture.ErrNotAnswering, "Desktop does not answer", "Can't share the screen: the desktop does not answer; try again with R, or log in again."},
		{capture.ErrSharing, "Nothing is shared", "Can't share the screen: the desktop could not share it; try again with R; the log has its words."},
		{capture.ErrNotShared, "Nothing is shared", "Can't share the screen: nothing is shared any more; choose again with R."},
		{capture.ErrStopped, "Sharing has ended", "Can't share the screen: the desktop has ended the sharing; choose again with R."},
		{capture.ErrPart, "Too small now", "Can't share the screen: it has become too small for the part that is watched; watch all of it with E."},
		{capture.ErrFormat, "Nothing is shared", "Can't share the screen: the desktop sends pictures of a kind that would give wrong colours; set the screen to 8 bits a colour, and choose again with R."},
		{capture.ErrGone, "Screen is gone", "Can't share the screen: the screen is switched off or gone; bring it back, and watching goes on by itself, or choose again with R."},
	} {
		err := fmt.Errorf("share: %w", tt.err)
		if got := SayNotShared(err); got != tt.short {
			t.Errorf("%v in short: %q, want %q", tt.err, got, tt.short)
		}
		if got := ExplainSharing("share the screen", err); got != tt.long {
			t.Errorf("%v: %q, want %q", tt.err, got, tt.long)
		}
	}
}
