package attack

import (
	"bufio"
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"
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
func segmentsOf(pid int) (n int) {
	table, err := os.Open("/proc/sysvipc/shm")
	if err != nil {
		return 0
	}
	defer table.Close()
	for lines := bufio.NewScanner(table); lines.Scan(); {
		if f := strings.Fields(lines.Text()); len(f) > 4 && f[4] == strconv.Itoa(pid) { // cpid
			n++
		}
	}
	return n
}

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
