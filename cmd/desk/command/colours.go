package command

import (
	"errors"
	"io"
	"slices"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/gui/wording"
)

// colourCommand is a command that takes colours or pairs of them, as operands or, for -, from
// the lines of standard input.
type colourCommand struct {
	deed    wording.Phrase // what it does: "read a colour"
	on      wording.Phrase // the same to %s
	example string         // a pair, for who gave something else; "" where colours are taken one by one
	of      func(colours []analysis.Spot) error
}

// run does it for what was given.
func (k colourCommand) run(c *call) error {
	each, either := 1, wording.Phrase("give either colours or -")
	if k.example != "" {
		each, either = 2, "give either two colours or -"
	}
	switch {
	case len(c.operands) == 1 && c.operands[0] == "-":
		c.eachOfList(k.line)
		return nil
	case slices.Contains(c.operands, "-"):
		return usageError{"read a list beside colours", "- takes the place of all of them", either}
	case each == 2 && len(c.operands) != 2:
		return usageError{k.deed, "it takes two colours", "write them as #rgb, #rrggbb or rgb(r g b), or - for a list"}
	case len(c.operands) == 0:
		return usageError{k.deed, "none was given", "write it as #rgb, #rrggbb or rgb(r g b), or - for a list"}
	}
	for texts := range slices.Chunk(c.operands, each) {
		if err := k.colours(texts...); err != nil {
			k.wrong(c, texts, err)
		}
	}
	return nil
}

// line takes the colours of a line.
func (k colourCommand) line(line string) error {
	if k.example == "" {
		return k.colours(line)
	}
	a, b, ok := splitPair(line)
	if !ok {
		return usageError{k.deed, "it does not hold two colours", wording.Part("write a pair such as %s", k.example)}
	}
	return k.colours(a, b)
}

// colours reads colours and reports on them.
func (k colourCommand) colours(texts ...string) error {
	spots := make([]analysis.Spot, len(texts))
	var errs error
	for i, text := range texts {
		c, err := colour.Parse(text)
		spots[i], errs = analysis.SpotOf(c), errors.Join(errs, err)
	}
	if errs != nil {
		return errs
	}
	return k.of(spots)
}

// wrong says why operands could not be used.
func (k colourCommand) wrong(c *call, texts []string, err error) {
	c.code = exitWrongUse
	if errors.As(err, new(usageError)) {
		c.WrongUse(err)
		return
	}
	for _, text := range texts {
		if _, err := colour.Parse(text); err != nil {
			c.Say(wording.Explain(wording.On(k.on, text), err))
		}
	}
}

// runSpot reads colours, a line each below one head.
func runSpot(c *call) error {
	return colourCommand{deed: "read a colour", on: "read %s", of: func(colours []analysis.Spot) error {
		headed := c.begun
		c.begun = false // no blank line between
		c.report(colours[0], func(out io.Writer) {
			if !headed {
				writeSpotHead(out, "")
			}
			writeSpot(out, "", colours[0])
		})
		return nil
	}}.run(c)
}
