package scenetest

import "fmt"

// describe says where a false report lies.
func (c *counts) describe(s *Scene, report int) string {
	return fmt.Sprintf("light on %s, shadow on %s", c.where(s, report, Light), c.where(s, report, Shadow))
}

// where names what most of a report's side lies on.
func (c *counts) where(s *Scene, report int, side Side) string {
	row := c[4*report+1+int(side)]
	most, at := 0, unjudged
	for label, n := range row {
		if n > most {
			most, at = n, uint8(label)
		}
	}
	return fmt.Sprintf("%s (%.0f %% of it)", s.nameOf(at), 100*share(most, judged(row)+row[unjudged]))
}

func (s *Scene) nameOf(label uint8) string {
	switch label {
	case unjudged:
		return "lines and soft edges"
	case ground:
		return "the ground"
	case cast:
		return "a cast shadow"
	}
	f, side, ok := s.owner(label)
	if !ok {
		return "nothing"
	}
	return fmt.Sprintf("%s of %s", [...]string{"the light", "the shadow", "the accent", "the line"}[side], s.Families[f].Name)
}

// whyMissed says where a family's sides went.
func (c *counts) whyMissed(s *Scene, family int) string {
	return fmt.Sprintf("its light is %s, its shadow %s", c.went(s, family, Light), c.went(s, family, Shadow))
}

func (c *counts) went(s *Scene, family int, side Side) string {
	all, most, at := 0, -1, 0
	for m := range c {
		n := 0
		for _, part := range s.Families[family].parts {
			n += c[m][firstPart+uint8(4*part)+uint8(side)]
		}
		all += n
		if n > most {
			most, at = n, m
		}
	}
	if at == 0 {
		return fmt.Sprintf("in no family (%.0f %%)", 100*share(most, all))
	}
	return fmt.Sprintf("%s of report %d (%.0f %%, which is on %s)",
		[...]string{"the light", "the shadow", "the accent", "the line"}[(at-1)%4], (at-1)/4, 100*share(most, all),
		c.where(s, (at-1)/4, Side((at-1)%4)))
}
