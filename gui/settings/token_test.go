package settings

import (
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
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
	for _, bad := range []string{strings.Repeat("a", maxToken+1), "a\x00b"} {
		if err := os.WriteFile(string(token), []byte(bad), 0o600); err != nil {
			t.Fatal(err)
		}
		if got := token.Load(); got != "" {
			t.Errorf("%.9q is taken for a token", got)
		}
	}
}
