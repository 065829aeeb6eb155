package capture

import (
	"testing"

	"app.tonedesk/capture/xvfbtest"
)

func TestMain(m *testing.M) { xvfbtest.Main(m) }
