package xconn

import (
	"encoding/binary"
	"net"
	"os"
	"path/filepath"
	"strconv"

	"app.tonedesk/capture/plainfile"
)

const (
	cookieName       = "MIT-MAGIC-COOKIE-1" // the one method we speak (Xsecurity(7))
	maxAuthorityFile = 1 << 20              // bytes; real files have a few hundred
	familyInternet   = 0                    // IPv4 address, 4 bytes (XAU)
	familyInternet6  = 6                    // IPv6 address, 16 bytes (XAU)
	familyLocal      = 256                  // host name (XAU)
	familyWild       = 65535                // any host (XAU)
)

// authorityEntry is one entry of an authority file.
type authorityEntry struct {
	family                uint16
	address, number, name string
	data                  []byte
}

// cookie returns the secret that the user's authority file holds for d's server at
// address, or nil if there is no file or no fitting entry: the server may still
// trust the user.
func (d displayName) cookie(address net.Addr) []byte {
	path := os.Getenv("XAUTHORITY")
	if path == "" {
		home := os.Getenv("HOME")
		if home == "" {
			return nil
		}
		path = filepath.Join(home, ".Xauthority")
	}
	bytes, err := plainfile.Read(path, maxAuthorityFile)
	if err != nil {
		return nil
	}
	host, _ := os.Hostname()
	for _, e := range parseAuthority(bytes) {
		if e.fits(d, host, address) {
			return e.data
		}
	}
	return nil
}

// fits says whether e is meant for d's server, which is at address; host is this machine's name.
func (e authorityEntry) fits(d displayName, host string, address net.Addr) bool {
	if e.name != cookieName || e.number != "" && e.number != strconv.Itoa(d.number) {
		return false
	}
	if e.family == familyWild {
		return true
	}
	if d.local() {
		return e.family == familyLocal && e.address == host
	}
	tcp, ok := address.(*net.TCPAddr)
	if !ok {
		return false
	}
	ip4 := tcp.IP.To4()
	return e.family == familyInternet && ip4 != nil && e.address == string(ip4) ||
		e.family == familyInternet6 && ip4 == nil && e.address == string(tcp.IP.To16())
}

// parseAuthority reads the entries of an authority file, up to the first that is
// cut short: a family, then address, number, name and data, all lengths of two
// bytes, most significant first (XAU).
func parseAuthority(b []byte) []authorityEntry {
	var entries []authorityEntry
	for len(b) >= 2 {
		e := authorityEntry{family: binary.BigEndian.Uint16(b)}
		b = b[2:]
		var fields [4][]byte
		for i := range fields {
			if len(b) < 2 {
				return entries
			}
			n := int(binary.BigEndian.Uint16(b))
			if b = b[2:]; len(b) < n {
				return entries
			}
			fields[i], b = b[:n], b[n:]
		}
		e.address, e.number, e.name, e.data = string(fields[0]), string(fields[1]), string(fields[2]), fields[3]
		entries = append(entries, e)
	}
	return entries
}
