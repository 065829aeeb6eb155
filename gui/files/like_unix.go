//go:build unix

package files

import (
	"io/fs"
	"os"
	"syscall"
)

// like gives a file the permissions of the one whose place it is to take, and its owner as
// far as the system lets us. Who was let in as a member of a group that it can't have is
// then let in as little as everybody.
func like(path string, there fs.FileInfo) error {
	mode := there.Mode().Perm()
	if s, ok := there.Sys().(*syscall.Stat_t); ok && os.Chown(path, int(s.Uid), int(s.Gid)) != nil && os.Chown(path, -1, int(s.Gid)) != nil {
		mode &^= 0o070 &^ (mode << 3)
	}
	return os.Chmod(path, mode)
}
