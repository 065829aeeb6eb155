package attack

import (
	"bufio"
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"time"
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

// network returns the process's sockets that lead anywhere but to the display and the
// session bus, as the system's tables name them.
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
