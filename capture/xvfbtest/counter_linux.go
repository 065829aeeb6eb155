package xvfbtest

import (
	"encoding/binary"
	"io"
	"net"
	"path/filepath"
	"strings"
	"sync"
	"testing"
)

// Counter stands between clients and a server, and counts what they ask for.
type Counter struct {
	Display string // the name under which it takes connections

	mu     sync.Mutex
	counts map[[2]byte]int
}

// Counter starts a counter before the server; it ends with the test.
func (s *Server) Counter() *Counter {
	s.t.Helper()
	socket := filepath.Join(s.t.TempDir(), "counter")
	listener, err := net.Listen("unix", socket+":0")
	if err != nil {
		s.t.Fatal(err)
	}
	s.t.Cleanup(func() { listener.Close() })
	c := &Counter{Display: socket + ":0", counts: map[[2]byte]int{}}
	to := "/tmp/.X11-unix/X" + strings.TrimPrefix(s.Display, ":")
	go func() {
		for {
			client, err := listener.Accept()
			if err != nil {
				return
			}
			go c.serve(s.t, client, to)
		}
	}()
	return c
}

// serve passes on what a client and the server say until one of them ends.
func (c *Counter) serve(t testing.TB, client net.Conn, to string) {
	defer client.Close()
	server, err := net.Dial("unix", to)
	if err != nil {
		t.Errorf("counter: %v", err)
		return
	}
	go func() {
		defer client.Close()
		_, _ = io.Copy(client, server) // its end is the connection's
	}()
	defer server.Close()
	c.pass(io.TeeReader(client, server))
}

// pass counts the requests that it reads. Source: X Window System Protocol, X11R7.7, appendix
// B: a setup of 12 bytes and two padded texts, then requests, whose second pair of bytes is
// their length in fours.
func (c *Counter) pass(from io.Reader) {
	head := make([]byte, 12)
	if _, err := io.ReadFull(from, head); err != nil {
		return
	}
	padded := func(at int) int64 { return int64(binary.LittleEndian.Uint16(head[at:])+3) &^ 3 }
	rest := padded(6) + padded(8)
	for {
		if _, err := io.CopyN(io.Discard, from, rest); err != nil {
			return
		}
		if _, err := io.ReadFull(from, head[:4]); err != nil {
			return
		}
		c.mu.Lock()
		c.counts[[2]byte{head[0], head[1]}]++
		c.mu.Unlock()
		rest = 4*int64(binary.LittleEndian.Uint16(head[2:])) - 4
	}
}

// Count returns how often a request was made: of a number, and of a second one in an extension
// (any of a core request's second bytes where that is less than 0).
func (c *Counter) Count(request byte, second int) (n int) {
	c.mu.Lock()
	defer c.mu.Unlock()
	for key, count := range c.counts {
		if key[0] == request && (second < 0 || int(key[1]) == second) {
			n += count
		}
	}
	return n
}
