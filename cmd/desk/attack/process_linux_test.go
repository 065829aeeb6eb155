package attack

import (
	"bufio"
	"bytes"
	"encoding/binary"
	"fmt"
	"net"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"golang.org/x/sys/unix"
)

// footprint is what a process holds. Source: proc(5), Linux man-pages.
type footprint struct {
	memory   int // MB resident
	handles  int
	segments int // of shared memory, made by it and not yet gone
}

func footprintOf(pid int) (f footprint) {
	status, _ := os.ReadFile(fmt.Sprintf("/proc/%d/status", pid))
	for line := range strings.Lines(string(status)) {
		if rest, ok := strings.CutPrefix(line, "VmRSS:"); ok {
			kib, _ := strconv.Atoi(strings.Fields(rest)[0])
			f.memory = kib * 1024 / 1e6
		}
	}
	entries, _ := os.ReadDir(fmt.Sprintf("/proc/%d/fd", pid))
	f.handles, f.segments = len(entries), segmentsOf(pid)
	return f
}

// segmentsOf counts the segments of shared memory that a process made and that are there.
func segmentsOf(pid int) int {
	marked, kept := segmentsByFate(pid)
	return marked + kept
}

// segmentsByFate counts those that the system frees when the last process has let go of them, and
// those that stay until somebody removes them.
func segmentsByFate(pid int) (marked, kept int) {
	const dest = 0o1000 // SHM_DEST, shmctl(2)
	table, err := os.Open("/proc/sysvipc/shm")
	if err != nil {
		return 0, 0
	}
	defer table.Close()
	for lines := bufio.NewScanner(table); lines.Scan(); {
		if f := strings.Fields(lines.Text()); len(f) > 4 && f[4] == strconv.Itoa(pid) { // cpid
			if mode, err := strconv.ParseUint(f[2], 8, 32); err == nil && mode&dest != 0 {
				marked++
			} else {
				kept++
			}
		}
	}
	return marked, kept
}

// segmentsLeft counts the segments that a process which has ended left behind. A server lets go of
// one when it learns of the end, which on a loaded machine is later than we do: that is awaited.
func segmentsLeft(pid int) int {
	for end := time.Now().Add(letGoWithin); ; time.Sleep(20 * time.Millisecond) {
		marked, kept := segmentsByFate(pid)
		if kept > 0 || marked == 0 || time.Now().After(end) {
			return marked + kept
		}
	}
}

// letGoWithin is how long a server may take to let go of what a client left; our choice.
const letGoWithin = 10 * time.Second

// network returns the process's sockets that lead anywhere but to the display, as the system's
// tables name them; no session bus is there in these tests.
func network(pid int) (odd []string) {
	links, _ := filepath.Glob(fmt.Sprintf("/proc/%d/fd/*", pid))
	ours := map[string]bool{}
	for _, l := range links {
		if target, err := os.Readlink(l); err == nil {
			if inode, ok := strings.CutPrefix(target, "socket:["); ok {
				ours[strings.TrimSuffix(inode, "]")] = true
			}
		}
	}
	odd = elsewhere(ours)
	for _, kind := range []struct {
		table string
		inode int // its column
	}{{"tcp", 9}, {"tcp6", 9}, {"udp", 9}, {"udp6", 9}, {"udplite", 9}, {"raw", 9}, {"raw6", 9}, {"icmp", 9}, {"packet", 8}, {"netlink", 9}} {
		text, _ := os.ReadFile(fmt.Sprintf("/proc/%d/net/%s", pid, kind.table))
		for line := range bytes.Lines(text) {
			if f := strings.Fields(string(line)); len(f) > kind.inode && ours[f[kind.inode]] {
				odd = append(odd, kind.table+" "+strings.Join(f[1:3], " to "))
			}
		}
	}
	return odd
}

// elsewhere returns those of the sockets within this computer whose other end is no X server's.
func elsewhere(inodes map[string]bool) (odd []string) {
	names := map[uint32]string{}
	table, _ := os.ReadFile("/proc/net/unix")
	for line := range strings.Lines(string(table)) {
		if f := strings.Fields(line); len(f) > 7 {
			inode, _ := strconv.ParseUint(f[6], 10, 32)
			names[uint32(inode)] = f[7]
		}
	}
	for text := range inodes {
		inode, _ := strconv.ParseUint(text, 10, 32)
		peer, there := peerOf(uint32(inode))
		if name := names[peer]; there && !strings.HasPrefix(strings.TrimPrefix(name, "@"), "/tmp/.X11-unix/X") {
			odd = append(odd, fmt.Sprintf("a socket to %q", name))
		}
	}
	return odd
}

// peerOf asks the system for the other end of a socket within this computer; not there for other
// kinds, and for one that leads nowhere. Source: sock_diag(7), Linux man-pages; linux/unix_diag.h.
func peerOf(inode uint32) (peer uint32, there bool) {
	s, err := unix.Socket(unix.AF_NETLINK, unix.SOCK_RAW|unix.SOCK_CLOEXEC, unix.NETLINK_INET_DIAG)
	if err != nil {
		return 0, false
	}
	defer unix.Close(s)
	const byFamily, showPeer, peerKind, request, any32 = 20, 4, 2, 16 + 24, 0xffffffff
	le := binary.NativeEndian
	ask := le.AppendUint32(nil, request)
	ask = le.AppendUint16(le.AppendUint16(ask, byFamily), unix.NLM_F_REQUEST)
	ask = le.AppendUint32(le.AppendUint32(ask, 1), 0)
	ask = append(ask, unix.AF_UNIX, 0, 0, 0)
	for _, v := range []uint32{any32, inode, showPeer, any32, any32} { // any state; any cookie
		ask = le.AppendUint32(ask, v)
	}
	if err := unix.Sendto(s, ask, 0, &unix.SockaddrNetlink{Family: unix.AF_NETLINK}); err != nil {
		return 0, false
	}
	answer := make([]byte, 1<<12)
	n, _, err := unix.Recvfrom(s, answer, 0)
	if err != nil || n < 32 || le.Uint16(answer[4:]) != byFamily {
		return 0, false
	}
	for at := 32; at+8 <= n; at += (int(le.Uint16(answer[at:])) + 3) &^ 3 { // behind the two heads: attributes
		if le.Uint16(answer[at+2:]) == peerKind {
			return le.Uint32(answer[at+4:]), true
		}
		if le.Uint16(answer[at:]) < 4 {
			break
		}
	}
	return 0, false
}

// A socket to the display is told from one that leads elsewhere.
func TestNetwork(t *testing.T) {
	path := filepath.Join(t.TempDir(), "elsewhere")
	listener, err := net.Listen("unix", path)
	if err != nil {
		t.Fatal(err)
	}
	defer listener.Close()
	conn, err := net.Dial("unix", path)
	if err != nil {
		t.Fatal(err)
	}
	defer conn.Close()
	other, err := net.ListenPacket("udp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer other.Close()
	odd := strings.Join(network(os.Getpid()), "; ")
	if !strings.Contains(odd, path) || !strings.Contains(odd, "udp") {
		t.Errorf("it sees %s", odd)
	}
}
