// Package tray owns the entry in the desktop's tray: what its menu offers, and whether the desktop
// has a tray. The toolkit puts the entry there only before its loop begins, and never takes it away
// again: what the setting says is so from the next start on.
package tray
