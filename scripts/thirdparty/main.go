// Command thirdparty prints THIRD_PARTY.md: the licence texts of all modules and fonts
// that the built program carries on Linux, Windows and macOS. Run it by make notices.
//
// Which modules these are it asks of go list, with the build tags of the Makefile; the
// texts it reads from the modules' own folders. A module or a font without a text is an
// error: nothing is left out.
package main

import (
	"fmt"
	"os"
)

func main() {
	text, err := notices(".")
	if err != nil {
		fmt.Fprintf(os.Stderr, "Can't write down what others made: %v.\n", err)
		os.Exit(1)
	}
	fmt.Print(text)
}

// notices returns what THIRD_PARTY.md says of the module in the folder root.
func notices(root string) (string, error) {
	tags, err := makefileTags(root)
	if err != nil {
		return "", err
	}
	works, err := carried(root, tags)
	if err != nil {
		return "", err
	}
	return page(works)
}
