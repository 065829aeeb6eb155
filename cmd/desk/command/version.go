package command

import (
	"fmt"

	"app.tonedesk/gui/wording"
)

// next is the version that this is on the way to, by SemVer 2.0.0. FyneApp.toml and the top
// of CHANGELOG.md have it too.
const next = "0.1.0"

// stamp is the version of a package, given to the linker by scripts/package; "" elsewhere.
var stamp string

// Version says which version of the program this is. What was built beside no package, from
// whatever lay there, is no release.
func Version() string {
	if stamp != "" {
		return stamp
	}
	return next + "-dev"
}

// version prints the version, for a person or a package's check.
func version(args []string, s Streams) int {
	if len(args) > 0 {
		return s.WrongUse(usageError{"show the version", "it takes nothing beside", "leave the rest out"})
	}
	if _, err := fmt.Fprintln(s.Out, "Tonedesk "+Version()); err != nil {
		return s.Fail(wording.Explain("write the report", err))
	}
	return ExitDone
}
