package testkit

import (
	"encoding/json"
	"testing"
)

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
