package xvfbtest

import (
	"fmt"
	"os"
	"testing"
)

// A server takes another name where a test of another process has the one that was next.
func TestStartWhereANameIsTaken(t *testing.T) {
	const processes, names = 500, 100 // as in ownDisplay
	next := fmt.Sprintf(":%d", 1000+os.Getpid()%processes*names+(int(owned.Load())+1)%names)
	other := Start(t, Options{Display: next})
	if s := Start(t, Options{}); s.Display == other.Display {
		t.Errorf("both are called %s", s.Display)
	}
}
