package mistake

import (
	"errors"
	"strings"
	"testing"
)

func TestGuard(t *testing.T) {
	failed := errors.New("failed")
	if err := Guard(func() error { return failed }); err != failed {
		t.Errorf("an error becomes %v", err)
	}
	var none []int
	err := Guard(func() error { none[0] = 1; return nil })
	if !errors.Is(err, Err) || !strings.Contains(err.Error(), "index out of range") || !strings.Contains(err.Error(), "mistake_test.go") {
		t.Errorf("a panic becomes %v", err)
	}
}
