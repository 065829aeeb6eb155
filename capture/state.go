package capture

import "time"

// State says how a watched source does.
type State uint8

const (
	Waiting      State = iota // no picture yet
	Live                      // the last picture is the newest, and it changed within the last second
	Unchanged                 // read all right, and nothing has changed for a second
	Hidden                    // there, but not shown
	Gone                      // no more there, or the connection broke
	NotAnswering              // a read has not come back for a second
)

// String returns the state's plain name in lower case.
func (s State) String() string {
	switch s {
	case Waiting:
		return "waiting"
	case Live:
		return "live"
	case Unchanged:
		return "unchanged"
	case Hidden:
		return "hidden"
	case Gone:
		return "gone"
	case NotAnswering:
		return "not answering"
	}
	return "unknown"
}

// Status is a state with its reason.
type Status struct {
	State State
	Err   error     // the cause; nil while waiting without trouble, live or unchanged
	Since time.Time // when the state began
}
