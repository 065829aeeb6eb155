package wording

import (
	"errors"
	"fmt"
	"testing"

	"app.tonedesk/capture"
	"app.tonedesk/capture/xconn"
	"app.tonedesk/gui/native"
)

// The window's words, our own.
func TestSayKeys(t *testing.T) {
	for _, tt := range []struct{ got, want string }{
		{SayKeysHeld(nil), ""},
		{SayKeysHeld([]string{"Ctrl+Alt+A"}), "Another program holds Ctrl+Alt+A; choose another key in the list of keys, F1."},
		{SayKeysHeld([]string{"Ctrl+A", "Ctrl+B", "Alt+C"}), "Another program holds Ctrl+A, Ctrl+B and Alt+C; choose other keys in the list of keys, F1."},
		{SayKeyTrouble("Ctrl+A", nil), ""},
		{SayKeyTrouble("Ctrl+A", fmt.Errorf("hold: %w", native.ErrKeyHeld)), "Another program holds Ctrl+A; choose another key."},
		{SayKeyTrouble("Ctrl+A", native.ErrNoKey), "This keyboard has no such key; choose another."},
		{SayKeyTrouble("Ctrl+A", errors.New("odd\n")), `It is not held: "odd\n".`},
		{SayKeysTrouble(nil), ""},
		{SayKeyTrouble("Ctrl+A", native.ErrUngiven), "Your desktop gave it no key; give it one in the settings of the desktop."},
		{SayDesktopKey(""), ""},
		{SayDesktopKey("Press Ctrl+Alt+A"), `Your desktop has it as "Press Ctrl+Alt+A".`},
		{SayKeysTrouble(fmt.Errorf("ask: %w", capture.ErrNoPortal)), "Can't hear keys while you paint: this desktop offers no keys that work in every program; use the keys of this window, which F1 lists, or log in with an X11 session."},
		{SayKeysTrouble(capture.ErrGivenUp), "Can't hear keys while you paint: the desktop's question was answered with no; switch it on again to be asked again."},
		{SayKeysTrouble(capture.ErrStopped), "Can't hear keys while you paint: the desktop has taken the keys back; switch it off and on again."},
		{SayKeysTrouble(native.ErrUnsupported), "Can't hear keys while you paint: there is no way to do it on this system; use the keys of this window, which F1 lists."},
		{SayKeysTrouble(native.ErrOtherDisplay), "Can't hear keys while you paint: another display than this window's is watched; start without TONEDESK_DISPLAY."},
		{SayKeysTrouble(native.ErrKeysLost), "Can't hear keys while you paint: the connection to the display was lost; switch it off and on again."},
		{SayKeysTrouble(xconn.ErrNotAnswering), "Can't hear keys while you paint: the display does not answer; switch it off and on again when it does."},
		{SayFixed("B"), "B is fixed: read once"},
		{SayKeyTaken("Ctrl+A", "Keep a still"), "Ctrl+A is the key for: Keep a still."},
	} {
		if tt.got != tt.want {
			t.Errorf("said %q, want %q", tt.got, tt.want)
		}
	}
}
