package main

import (
	"fmt"
	"os"
	"slices"
	"strings"
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

const head = `# What others made

The built program carries these works beside its own code; what their makers ask to be passed on with them stands below, each text once. Made by ` + "`make notices`" + `.

| work | carried on | texts |
| --- | --- | --- |
`

// page writes down the works, and their texts by numbers from 1.
func page(works []*work) (string, error) {
	var b strings.Builder
	b.WriteString(head)
	var texts []string
	users := map[string][]string{} // names of works by their text
	for _, w := range works {
		var numbers []string
		for _, file := range w.texts {
			text, err := readText(file)
			if err != nil {
				return "", err
			}
			if !slices.Contains(texts, text) {
				texts = append(texts, text)
			}
			users[text] = append(users[text], w.name)
			numbers = append(numbers, fmt.Sprint(slices.Index(texts, text)+1))
		}
		fmt.Fprintf(&b, "| %s | %s | %s |\n", w.title(), strings.Join(w.systems, ", "), strings.Join(numbers, ", "))
	}
	for i, text := range texts {
		fmt.Fprintf(&b, "\n## %d\n\nFor %s.\n\n````text\n%s````\n", i+1, strings.Join(users[text], ", "), text)
	}
	return b.String(), nil
}

// title is what a work is called, with its version and whose it is.
func (w *work) title() string {
	words := slices.DeleteFunc([]string{w.name, w.version, w.note}, func(s string) bool { return s == "" })
	return strings.Join(words, " · ")
}
