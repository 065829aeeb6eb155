package tray

import (
	"context"
	"fmt"

	"github.com/godbus/dbus/v5"
)

// watcher is the name of who shows trays. Source: StatusNotifierItem, freedesktop.org draft of 2009.
const watcher = "org.kde.StatusNotifierWatcher"

// offered says why there is no tray now: errNoBus or errNoTray; nil where there is one. It starts no
// bus, which a library would.
func offered(ctx context.Context) error {
	bus, err := dbus.SessionBusPrivateNoAutoStartup(dbus.WithContext(ctx))
	if err != nil {
		return fmt.Errorf("%w: %w", errNoBus, err)
	}
	defer bus.Close()
	if err := bus.Auth(nil); err != nil {
		return fmt.Errorf("%w: %w", errNoBus, err)
	}
	if err := bus.Hello(); err != nil {
		return fmt.Errorf("%w: %w", errNoBus, err)
	}
	var shown bool
	if err := bus.BusObject().CallWithContext(ctx, "org.freedesktop.DBus.NameHasOwner", 0, watcher).Store(&shown); err != nil {
		return fmt.Errorf("%w: %w", errNoBus, err)
	}
	if !shown {
		return errNoTray
	}
	return nil
}
