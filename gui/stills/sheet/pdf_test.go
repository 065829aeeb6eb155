package sheet

import (
	"bytes"
	"compress/zlib"
	"io"
	"regexp"
	"testing"
	"time"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/profile"
)

// A PDF file says that its colours are sRGB, by a profile that reads as that (ISO 32000-1:2008, 14.11.5).
func TestPDFSaysItsColours(t *testing.T) {
	var b bytes.Buffer
	if err := New(A4, content()).PDF(&b, "Ball", time.Date(2026, 1, 2, 10, 30, 0, 0, time.UTC)); err != nil {
		t.Fatal(err)
	}
	intent := regexp.MustCompile(`/OutputIntents \[\s*<< /Type /OutputIntent [^>]*/DestOutputProfile (\d+) 0 R >>`).FindSubmatch(b.Bytes())
	if intent == nil {
		t.Fatal("it says nothing of its colours")
	}
	object := regexp.MustCompile(`(?s)\n` + string(intent[1]) + ` 0 obj\n<<[^>]*/N 3[^>]*>>\nstream\n`).FindIndex(b.Bytes())
	if object == nil {
		t.Fatalf("object %s is no stream of three colours", intent[1])
	}
	r, err := zlib.NewReader(bytes.NewReader(b.Bytes()[object[1]:]))
	if err != nil {
		t.Fatal(err)
	}
	data, err := io.ReadAll(r)
	if err != nil {
		t.Fatal(err)
	}
	s, err := profile.Read(data)
	if err != nil || s.Known() != nil && s.Known() != colour.SRGB {
		t.Errorf("its profile is %s, %v", s.Title(), err)
	}
}
