package main

import (
	"os"
	"testing"

	"app.tonedesk/cmd/desk/desktest"
)

func TestMain(m *testing.M) { os.Exit(desktest.Main(m)) }
