package mistake

import (
	"errors"
	"fmt"
	"runtime/debug"
)

// Err is wrapped by the errors of Guard.
var Err = errors.New("the program made a mistake")

// Guard does work. Where that breaks down the error wraps Err, and has the stack for the log.
func Guard(work func() error) (err error) {
	defer func() {
		if r := recover(); r != nil {
			err = fmt.Errorf("%w: %v\n%s", Err, r, debug.Stack())
		}
	}()
	return work()
}
