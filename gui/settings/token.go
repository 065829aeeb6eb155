package settings

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"unicode/utf8"

	"app.tonedesk/capture/plainfile"
	"app.tonedesk/gui/files"
)

// Token is the file, beside the settings, with what the desktop gave us to be let in again: by it the
// screen can be read without a question, so it is for this user alone, and never said in words.
type Token string

// maxToken bounds it, in bytes. Our choice; those of today have some forty.
const maxToken = 4096

// TokenBeside returns the one beside a settings file.
func TokenBeside(path string) Token { return Token(filepath.Join(filepath.Dir(path), "screen-token")) }

// Load returns the token; "" if there is none that could be one: what is no text can't be handed
// to the desktop (D-Bus Specification 0.43, "Valid UTF-8").
func (t Token) Load() string {
	data, err := plainfile.Read(string(t), maxToken+1) // with the end of its line
	if err != nil || !utf8.Valid(data) {
		return ""
	}
	return plainText(maxToken, "")(strings.TrimSuffix(string(data), "\n"))
}

// Keep keeps another token in place of it; "" forgets it. Its error doesn't hold the token.
func (t Token) Keep(token string) error {
	if token == "" || len(token) > maxToken {
		if err := os.Remove(string(t)); !errors.Is(err, fs.ErrNotExist) {
			return err
		}
		return nil
	}
	if err := os.MkdirAll(filepath.Dir(string(t)), 0o700); err != nil {
		return err
	}
	return files.Replace(files.System{}, string(t), files.Bytes([]byte(token+"\n")))
}
