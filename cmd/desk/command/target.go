package command

import (
	"fmt"
	"io"

	"app.tonedesk/analysis"
	"app.tonedesk/gui/pictures"
	"app.tonedesk/gui/wording"
)

// targetReport says how far a picture is from the one given by --target.
type targetReport struct {
	DistanceTones *float64 `json:"distance_tones"` // null if nothing is counted in one of them

	match analysis.Match
}

// readTarget reads the picture that the others are held against. nil without an error if
// none was asked for. Its errors are sentences.
func (plan readPlan) readTarget() (*analysis.Target, error) {
	if plan.target == "" {
		return nil, nil
	}
	target, err := pictures.ReadTarget(plan.target, plan.groups, plan.ground)
	if err != nil {
		return nil, sentence(wording.Explain("read "+wording.Quote(plan.target), err))
	}
	return target, nil
}

// reportTarget compares a reading with the target; nil if none was asked for. A target that
// could not be read leaves the distance unknown.
func (plan readPlan) reportTarget(target *analysis.Target, r *analysis.Reading) *targetReport {
	switch {
	case plan.target == "":
		return nil
	case target == nil:
		return new(targetReport)
	}
	match := target.Match(r)
	return &targetReport{known(match.Distance), match}
}

// writeTarget prints how a picture stands to its target.
func writeTarget(w io.Writer, r *targetReport) {
	if r.DistanceTones == nil {
		fmt.Fprintln(w, "  target     it can't be compared with the target")
		return
	}
	fmt.Fprintf(w, "  target     %s\n             %s\n", plain(wording.SayTargetDistance(r.match)), plain(wording.SayTarget(r.match)))
}
