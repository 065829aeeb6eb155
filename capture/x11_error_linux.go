package capture

import (
	"errors"
	"fmt"
	"io"

	"app.tonedesk/capture/xconn"
)

// x11Error wraps err in the error of this package that fits it.
func x11Error(err error) error {
	for _, as := range []struct{ from, to error }{
		{xconn.ErrNotAnswering, ErrNotAnswering},
		{xconn.ErrNoDisplay, ErrNoDisplay},
		{xconn.ErrRefused, ErrRefused},
		{xconn.ErrBroken, ErrDisconnected},
		{xconn.ErrShut, ErrClosed},
		{io.EOF, ErrDisconnected}, // how the client library says that the connection has ended
	} {
		if errors.Is(err, as.from) && !errors.Is(err, as.to) {
			return fmt.Errorf("%w: %w", as.to, err)
		}
	}
	return err
}
