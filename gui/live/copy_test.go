package live

import (
	"slices"
	"testing"
)

func TestCopierHandsToAll(t *testing.T) {
	renewed := 0
	c := Copier{Renew: func() { renewed++ }}
	var got []string
	c.CopyPicture(func(*Copy) {
		got = append(got, "first")
		c.CopyPicture(func(*Copy) { got = append(got, "asked for meanwhile") })
	})
	c.CopyPicture(func(*Copy) { got = append(got, "second") })
	c.Take(nil)
	if len(got) != 0 || c.Asked != 2 || renewed != 2 {
		t.Fatalf("without a copy %q were called, %d asked for, %d renewed", got, c.Asked, renewed)
	}
	c.Take(new(Copy))
	if !slices.Equal(got, []string{"first", "second"}) || c.Asked != 3 {
		t.Fatalf("the copy went to %q, %d asked for", got, c.Asked)
	}
	c.Take(new(Copy))
	if !slices.Equal(got, []string{"first", "second", "asked for meanwhile"}) {
		t.Errorf("the next copy went to %q", got)
	}
}
