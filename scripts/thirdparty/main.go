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
