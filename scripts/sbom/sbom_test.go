package main

import (
	"bytes"
	"debug/buildinfo"
	"encoding/json"
	"runtime/debug"
	"testing"
	"time"
)

// Expected values stand in CycloneDX 1.5 (bomFormat, specVersion) and in the specification of
// package URLs (type golang, a plus sign as %2B).
func TestDescribe(t *testing.T) {
	info := &buildinfo.BuildInfo{GoVersion: "go1.26.8", Deps: []*debug.Module{
		{Path: "example.org/Some", Version: "v1.2.3+incompatible", Sum: "h1:abc="},
		{Path: "example.org/gone", Version: "v1.0.0", Replace: &debug.Module{Path: "example.org/instead", Version: "v1.1.0"}},
	}}
	var out, again bytes.Buffer
	for _, b := range []*bytes.Buffer{&out, &again} {
		if err := write(b, describe(info, "0.1.0+gabc", time.Unix(0, 0))); err != nil {
			t.Fatal(err)
		}
	}
	if !bytes.Equal(out.Bytes(), again.Bytes()) {
		t.Error("the same program is described in two ways")
	}
	var d document
	if err := json.Unmarshal(out.Bytes(), &d); err != nil {
		t.Fatal(err)
	}
	if d.Format != "CycloneDX" || d.Spec != "1.5" || d.Metadata.Timestamp != "1970-01-01T00:00:00Z" || d.Metadata.Component.PURL != "pkg:generic/tonedesk@0.1.0%2Bgabc" {
		t.Errorf("the head is\n%s", out.String())
	}
	refs := map[string]bool{}
	for i, want := range []string{"pkg:golang/std@1.26.8", "pkg:golang/example.org/some@v1.2.3%2Bincompatible", "pkg:golang/example.org/instead@v1.1.0"} {
		if i >= len(d.Components) || d.Components[i].PURL != want {
			t.Fatalf("part %d is not %s:\n%s", i, want, out.String())
		}
		refs[d.Components[i].Ref] = true
	}
	for _, on := range d.Dependencies[0].On { // every reference names a component, once
		if !refs[on] {
			t.Errorf("%s is no component", on)
		}
		delete(refs, on)
	}
	if len(refs) > 0 {
		t.Errorf("not said to be a part: %v", refs)
	}
}
