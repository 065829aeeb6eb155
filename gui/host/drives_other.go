//go:build !windows

package host

// drives are none: everything lies in one topmost folder.
func drives() []string { return nil }
