package pictures

import (
	"errors"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/capture"
)

// ErrUncounted says that a picture has no pixel to count.
var ErrUncounted = errors.New("nothing to count")

// ReadTarget reads a picture file as a target, split into a number of groups (0: as many as
// it needs), with ground under what is partly transparent.
func ReadTarget(path string, groups int, ground colour.RGB) (*analysis.Target, error) {
	picture, err := capture.OpenPicture(path)
	if err != nil {
		return nil, err
	}
	p := OfFile(picture)
	p.LayOver(ground) // it is ours alone
	return analysis.NewTarget(analysis.Read(p, analysis.Options{Groups: groups})), nil
}
