package xconn

import (
	"bytes"
	"context"
	"encoding/binary"
	"errors"
	"net"
	"strings"
	"testing"
	"time"
	"unicode"

	"github.com/jezek/xgb"
)

// server is one that says what it says whatever it is asked, and then hangs up.
type server struct {
	net.Conn // for what is not called
	says     *bytes.Reader
}

func (s *server) Read(b []byte) (int, error)  { return s.says.Read(b) }
func (s *server) Write(b []byte) (int, error) { return len(b), nil }
func (s *server) Close() error                { return nil }

// setupOf is a server's setup of one screen with one depth of one visual. Source: X Window
// System Protocol, version 11, chapter 8 and appendix B.
func setupOf() []byte {
	le := binary.LittleEndian
	screen := make([]byte, 40)
	screen[39] = 1 // depths
	depth := []byte{24, 0, 1, 0, 0, 0, 0, 0}
	body := make([]byte, 32)
	body[20], body[21] = 1, 1 // roots and formats
	body = append(append(append(append(body, make([]byte, 8)...), screen...), depth...), make([]byte, 24)...)
	head := []byte{setupSuccess, 0, 11, 0, 0, 0, 0, 0}
	le.PutUint16(head[6:], uint16(len(body)/4))
	return append(head, body...)
}

// Whatever a server says when it is asked to let us in, it is a setup that the client library
// can take, or an error in words that steer no terminal; nothing hangs.
func FuzzServer(f *testing.F) {
	f.Add(setupOf())
	f.Add(append(setupOf(), 1, 0, 0, 0, 0, 0, 0, 0, 1, 130, 65, 128))
	f.Add([]byte("\x00\x0d\x0b\x00\x00\x00\x04\x00No\x1b protocol\x00\x00\x00"))
	f.Fuzz(func(t *testing.T, says []byte) {
		s := &server{says: bytes.NewReader(says)}
		setup, err := wait(context.Background(), s, func() ([]byte, error) { return letIn(s, []byte("secret")) })
		if err != nil {
			if !errors.Is(err, ErrRefused) && !errors.Is(err, ErrBroken) {
				t.Fatalf("%v is no word", err)
			}
			return
		}
		if len(setup) < 40 || len(setup) != 8+4*int(binary.LittleEndian.Uint16(setup[6:])) {
			t.Fatalf("a setup of %d bytes", len(setup))
		}
		found, err := queryExtensions(s, known)
		if len(found) > len(known) || err == nil && s.says.Len() == len(says) {
			t.Fatalf("%v, %v", found, err)
		}
		x, err := xgb.NewConnNet(&replay{Conn: &server{says: bytes.NewReader(nil)}, setup: setup})
		if err != nil {
			return
		}
		c, err := start(x, ":0", 0, s, nil)
		if err == nil && c.Screen == nil {
			t.Fatal("no screen, and no error")
		}
		if err == nil {
			select {
			case <-c.Done():
			case <-time.After(10 * time.Second):
				t.Fatal("the server has hung up, and the connection goes on")
			}
		}
	})
}

// A refusal's reason is told in one line, without what the server filled it up with.
func FuzzRefusal(f *testing.F) {
	f.Add([]byte("\x00\x05\x0b\x00\x00\x00\x02\x00no\nkey\x00\x00"))
	f.Fuzz(func(t *testing.T, setup []byte) {
		if len(setup) < 8 {
			return // never so short
		}
		reason := refusal(setup)
		if strings.ContainsFunc(reason, func(r rune) bool { return unicode.IsSpace(r) && r != ' ' }) || strings.TrimSpace(reason) != reason {
			t.Errorf("%q", reason)
		}
	})
}
