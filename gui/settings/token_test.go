package settings

import (
	"encoding/binary"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"github.com/godbus/dbus/v5"
)

// A token is kept for this user alone, replaced and forgotten; what can't be one is none.
func TestToken(t *testing.T) {
	token := TokenBeside(filepath.Join(t.TempDir(), "tonedesk", "settings.json"))
	if got := token.Load(); got != "" {
		t.Errorf("without a file it is %q", got)
	}
	for _, want := range []string{"one", "4f6c-two", ""} {
		if err := token.Keep(want); err != nil {
			t.Fatal(err)
		}
		if got := token.Load(); got != want {
			t.Errorf("kept %q, loaded %q", want, got)
		}
		about, err := os.Stat(string(token))
		if there := err == nil; there != (want != "") {
			t.Errorf("of %q there is a file: %v", want, there)
		}
		if err == nil && runtime.GOOS != "windows" && about.Mode().Perm() != 0o600 {
			t.Errorf("its permissions are %v", about.Mode())
		}
	}
	if err := token.Keep(""); err != nil {
		t.Errorf("forgetting none: %v", err)
	}
	for _, bad := range []string{strings.Repeat("a", maxToken+1), "a\x00b", "a\xffb"} {
		if err := os.WriteFile(string(token), []byte(bad), 0o600); err != nil {
			t.Fatal(err)
		}
		if got := token.Load(); got != "" {
			t.Errorf("%.9q is taken for a token", got)
		}
	}
}

// Whatever the file holds: what is taken for a token can be handed to the desktop, and is the same
// once it is kept.
func FuzzToken(f *testing.F) {
	for _, seed := range []string{"", "one\n", "a\x00b", "a\xffb", "\n\n", strings.Repeat("a", maxToken)} {
		f.Add([]byte(seed))
	}
	f.Fuzz(func(t *testing.T, content []byte) {
		token := TokenBeside(filepath.Join(t.TempDir(), "settings.json"))
		if err := os.WriteFile(string(token), content, 0o600); err != nil {
			t.Fatal(err)
		}
		got := token.Load()
		ask := dbus.Message{Type: dbus.TypeSignal, Body: []any{got}, Headers: map[dbus.HeaderField]dbus.Variant{
			dbus.FieldPath: dbus.MakeVariant(dbus.ObjectPath("/")), dbus.FieldInterface: dbus.MakeVariant("a.b"),
			dbus.FieldMember: dbus.MakeVariant("C"), dbus.FieldSignature: dbus.MakeVariant(dbus.SignatureOf(got)),
		}}
		if err := ask.EncodeTo(io.Discard, binary.LittleEndian); err != nil {
			t.Errorf("%q of %q can't be handed on: %v", got, content, err)
		}
		if err := token.Keep(got); err != nil {
			t.Fatal(err)
		}
		if again := token.Load(); again != got {
			t.Errorf("%q becomes %q", got, again)
		}
	})
}
