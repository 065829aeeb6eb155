package xconn

import (
	"errors"
	"net"
	"strings"
	"testing"
)

// Names as in X(7), "Display names": [host]:number[.screen].
func TestParseDisplay(t *testing.T) {
	for _, tt := range []struct {
		name string
		want displayName
	}{
		{":0", displayName{}},
		{":12.3", displayName{number: 12, screen: 3}},
		{"unix:1", displayName{number: 1}},
		{"host.example:10.0", displayName{host: "host.example", number: 10}},
		{"tcp/host:2", displayName{host: "host", number: 2}},
		{"[::1]:2", displayName{host: "[::1]", number: 2}},
		{"/tmp/dir/server:0", displayName{socket: "/tmp/dir/server"}},
	} {
		if got, err := parseDisplay(tt.name); err != nil || got != tt.want {
			t.Errorf("%q: %+v, %v; want %+v", tt.name, got, err, tt.want)
		}
	}
	for _, bad := range []string{"", "0", ":", ":x", ":-1", ":1.", ":1.x", ":60000", ":99999999999"} {
		if got, err := parseDisplay(bad); !errors.Is(err, ErrNoDisplay) {
			t.Errorf("%q: %+v, %v; want ErrNoDisplay", bad, got, err)
		}
	}
}

func TestSameDisplay(t *testing.T) {
	for _, tt := range []struct {
		a, b string
		want bool
	}{
		{":1", ":1", true}, {":1", ":1.0", true}, {":1", "unix:1", true}, {":1", ":2", false},
		{":1.0", ":1.1", false}, {":1", "host:1", false}, {"", "", true}, {"", ":0", false}, {"x", "y", false},
	} {
		if got := SameDisplay(tt.a, tt.b); got != tt.want {
			t.Errorf("%q and %q: %v", tt.a, tt.b, got)
		}
	}
}

func FuzzParseDisplay(f *testing.F) {
	f.Add(":0")
	f.Add("tcp/host:1.2")
	f.Fuzz(func(t *testing.T, name string) {
		d, err := parseDisplay(name)
		if err == nil && (d.number < 0 || d.number > 65535-firstPort || d.screen < 0 || !strings.Contains(name, ":")) {
			t.Errorf("%q: %+v", name, d)
		}
		if err != nil && !errors.Is(err, ErrNoDisplay) {
			t.Errorf("%q: %v", name, err)
		}
	})
}

// entry makes an entry of an authority file. Source: Xau(3), "Authorization Files".
func entry(family uint16, address, number, name, data string) string {
	out := string([]byte{byte(family >> 8), byte(family)})
	for _, s := range []string{address, number, name, data} {
		out += string([]byte{byte(len(s) >> 8), byte(len(s))}) + s
	}
	return out
}

func TestAuthorityEntries(t *testing.T) {
	here, far := net.Addr(&net.UnixAddr{}), net.Addr(&net.TCPAddr{IP: net.IPv4(192, 0, 2, 7)})
	far6 := &net.TCPAddr{IP: net.ParseIP("2001:db8::7")}
	for _, tt := range []struct {
		name    string
		entry   string
		display string
		addr    net.Addr
		want    bool
	}{
		{"this host", entry(256, "desk", "0", cookieName, "secret"), ":0", here, true},
		{"loopback counts as this host", entry(256, "desk", "0", cookieName, "s"), "localhost:0", far, true},
		{"another host", entry(256, "other", "0", cookieName, "s"), ":0", here, false},
		{"another display", entry(256, "desk", "1", cookieName, "s"), ":0", here, false},
		{"any display", entry(256, "desk", "", cookieName, "s"), ":7", here, true},
		{"any host", entry(65535, "", "0", cookieName, "s"), "far:0", far, true},
		{"another method", entry(256, "desk", "0", "XDM-AUTHORIZATION-1", "s"), ":0", here, false},
		{"by IPv4 address", entry(0, "\xc0\x00\x02\x07", "0", cookieName, "s"), "far:0", far, true},
		{"by another IPv4 address", entry(0, "\xc0\x00\x02\x08", "0", cookieName, "s"), "far:0", far, false},
		{"by IPv6 address", entry(6, string(far6.IP), "0", cookieName, "s"), "far:0", far6, true},
	} {
		t.Run(tt.name, func(t *testing.T) {
			d, err := parseDisplay(tt.display)
			if err != nil {
				t.Fatal(err)
			}
			entries := parseAuthority([]byte(tt.entry))
			if len(entries) != 1 || entries[0].fits(d, "desk", tt.addr) != tt.want {
				t.Errorf("%+v fits: want %v", entries, tt.want)
			}
		})
	}
}

func FuzzParseAuthority(f *testing.F) {
	f.Add([]byte(entry(256, "desk", "0", cookieName, "secret") + entry(65535, "", "", "", "")))
	f.Add([]byte{1, 0, 255, 255, 1})
	f.Fuzz(func(t *testing.T, b []byte) {
		again := ""
		for _, e := range parseAuthority(b) {
			again += entry(e.family, e.address, e.number, e.name, string(e.data))
		}
		if !strings.HasPrefix(string(b), again) {
			t.Error("the entries are not the file's beginning")
		}
	})
}
