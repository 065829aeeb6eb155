package settings

import (
	"maps"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// Keys are off at first and in a file from before, come back as they were set, and one that can't be
// costs only itself.
func TestKeysAreRemembered(t *testing.T) {
	old, problems, err := decodeSettings([]byte(`{"version": 1, "view": "colour"}`))
	if err != nil || problems != nil || old.Everywhere || old.EveryKeys != nil || old.KeyOf("spot_a", "Ctrl+Alt+1") != "Ctrl+Alt+1" {
		t.Errorf("from before: %v %v, %q, %v", old.Everywhere, old.EveryKeys, problems, err)
	}
	long := strings.Repeat("x", longestKey+1)
	s, problems, err := decodeSettings([]byte(`{"version": 1, "keys_everywhere": true, "keys": {"spot_a": "Alt+F9", "spot_b": "", "later": "Ctrl+Q", "keep": "` + long + `"}}`))
	if want := map[string]string{"spot_a": "Alt+F9", "spot_b": "", "later": "Ctrl+Q"}; err != nil || !s.Everywhere || !maps.Equal(s.EveryKeys, want) || len(problems) != 1 {
		t.Errorf("read: %v %v, %q, %v", s.Everywhere, s.EveryKeys, problems, err)
	}
	if s.KeyOf("spot_a", "?") != "Alt+F9" || s.KeyOf("spot_b", "?") != "" || s.KeyOf("keep", "?") != "?" {
		t.Errorf("keys: %v", s.EveryKeys)
	}
}

// A changed key is read back as it was written, and changes no settings but its own.
func TestWithKey(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		words := rapid.StringMatching(`[A-Za-z0-9+_]{0,20}`)
		before := Defaults().WithKey(words.Draw(t, "deed"), words.Draw(t, "key"))
		was := maps.Clone(before.EveryKeys)
		deed, key := words.Draw(t, "other deed"), words.Draw(t, "other key")
		s := before.WithKey(deed, key)
		data, err := s.encode()
		if err != nil {
			t.Fatal(err)
		}
		back, problems, err := decodeSettings(data)
		if err != nil || problems != nil || !maps.Equal(back.EveryKeys, s.EveryKeys) || back.KeyOf(deed, "?") != key || !maps.Equal(before.EveryKeys, was) {
			t.Errorf("%v became %v, %q, %v", s.EveryKeys, back.EveryKeys, problems, err)
		}
	})
}
