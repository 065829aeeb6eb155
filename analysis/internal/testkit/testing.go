package testkit

import (
	"encoding/json"
	"testing"
)

// Fataler is a test as Go has it, or one of package rapid's.
type Fataler interface {
	Helper()
	Fatalf(format string, args ...any)
}

// LeastAllocs returns how often f allocates, at the best of five tries: what the runtime
// allocates beside it, on a busy machine more often, counts too.
func LeastAllocs(runs int, f func()) float64 {
	least := testing.AllocsPerRun(runs, f)
	for try := 1; try < 5 && least > 0; try++ {
		least = min(least, testing.AllocsPerRun(runs, f))
	}
	return least
}

// FieldsOf returns what v becomes as JSON.
func FieldsOf(t *testing.T, v any) map[string]any {
	t.Helper()
	data, err := json.Marshal(v)
	if err != nil {
		t.Fatal(err)
	}
	fields := map[string]any{}
	if err := json.Unmarshal(data, &fields); err != nil {
		t.Fatal(err)
	}
	return fields
}
