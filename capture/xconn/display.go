package xconn

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"net"
	"strconv"
	"strings"
	"syscall"
)

const (
	socketDir = "/tmp/.X11-unix/X" // of local servers, before the display's number (X11, appendix B)
	firstPort = 6000               // TCP port of display 0 (X11, appendix B)
)

// displayName is a display's name taken apart: host:number.screen.
type displayName struct {
	socket string // path of the socket without ":number", for names that begin with a slash
	host   string // empty: this machine, by socket
	number int
	screen int
}

// parseDisplay takes a display's name apart. Accepted are [host]:number[.screen],
// unix:..., tcp/host:... and /path/to/socket:number.
func parseDisplay(name string) (displayName, error) {
	var d displayName
	if name == "" {
		return d, fmt.Errorf("%w: the name is empty", ErrNoDisplay)
	}
	bad := fmt.Errorf("%w: bad name %q", ErrNoDisplay, name)
	colon := strings.LastIndexByte(name, ':')
	if colon < 0 {
		return d, bad
	}
	before, after := name[:colon], name[colon+1:]
	if strings.HasPrefix(before, "/") {
		d.socket = before
	} else if d.host = strings.TrimPrefix(before, "tcp/"); d.host == "unix" {
		d.host = ""
	}
	number, screen, hasScreen := strings.Cut(after, ".")
	var err error
	if d.number, err = smallNumber(number); err != nil {
		return d, bad
	}
	if hasScreen {
		if d.screen, err = smallNumber(screen); err != nil {
			return d, bad
		}
	}
	return d, nil
}

// smallNumber reads a number from 0 to 59535, so that a port can hold it.
func smallNumber(s string) (int, error) {
	n, err := strconv.ParseUint(s, 10, 16)
	if err == nil && n > 65535-firstPort {
		err = strconv.ErrRange
	}
	return int(n), err
}

// SameDisplay says whether two names surely mean the same screen of the same
// display: ":1", "unix:1" and ":1.0" do.
func SameDisplay(a, b string) bool {
	if a == b {
		return true
	}
	da, errA := parseDisplay(a)
	db, errB := parseDisplay(b)
	return errA == nil && errB == nil && da == db
}

// local says whether d's server counts as one on this machine in the authority file.
func (d displayName) local() bool {
	if d.host == "" || d.host == "localhost" {
		return true
	}
	ip := net.ParseIP(strings.Trim(d.host, "[]"))
	return ip != nil && ip.IsLoopback()
}

// dial opens the socket of d's server.
func (d displayName) dial(ctx context.Context) (net.Conn, error) {
	var dialer net.Dialer
	network, address := "unix", socketDir+strconv.Itoa(d.number)
	switch {
	case d.socket != "":
		address = d.socket + ":" + strconv.Itoa(d.number)
	case d.host != "":
		network = "tcp"
		address = net.JoinHostPort(strings.Trim(d.host, "[]"), strconv.Itoa(firstPort+d.number))
	}
	nc, err := dialer.DialContext(ctx, network, address)
	if errors.Is(err, fs.ErrNotExist) { // a sandbox may hide the folder, not the abstract name
		if again, abstract := dialer.DialContext(ctx, network, "@"+address); abstract == nil {
			nc, err = again, nil
		}
	}
	if err != nil {
		return nil, dialError(ctx, err)
	}
	return nc, nil
}

// dialError says which of our errors a failed dial is. The cause is told, not wrapped: a
// socket that is missing is no file that a painter would look for.
func dialError(ctx context.Context, err error) error {
	switch {
	case ctx.Err() != nil:
		return fmt.Errorf("%w: %w", ErrNotAnswering, ctx.Err())
	case errors.Is(err, syscall.EACCES), errors.Is(err, syscall.EPERM):
		return fmt.Errorf("%w: %v", ErrRefused, err)
	}
	return fmt.Errorf("%w: %v", ErrNoDisplay, err)
}
