# Tonedesk: the commands, the same for a person and for CI. See DEVELOPERS.md.
# One set of flags for everything, so that the toolkit is compiled once; what the race detector
# watches takes it without its drawing on screens.

# Left out of the toolkit: a font of 4 MB for emoji, which nothing of ours shows, and the
# reading of a FyneApp.toml that lies beside the program.
TAGS := no_emoji,no_metadata
export GOFLAGS := $(shell go env GOFLAGS) -tags=$(TAGS)

BIN := build/desk
STATICCHECK := honnef.co/go/tools/cmd/staticcheck@v0.7.0

# Where goroutines meet: packages, and tests of ./analysis/..., which has a pool of workers.
RACED := ./analysis/internal/pool ./capture/... ./gui ./gui/live ./gui/native ./gui/pictures ./gui/stills ./gui/stills/marking
RACED_TESTS := Workers|Deterministic|BlindToPlace

# Where laws are tried (lawtest).
LAWS := ./analysis/... ./capture ./capture/wayland/... ./gui/...

# The toolkit draws by C, so what imports it is vetted on its own system only.
WITH_TOOLKIT := /cmd/desk$$|/gui$$|/gui/(autokeep|comparing|everywhere|growing|guitest|host|icons|keeping|menus|pointer|preferences|proposals|remember|structure|tray|watching|widgets)$$

# What is tested under Wine: packages that need no C compiler, and of the program's own tests those
# that run it from outside; but for those that need a terminal of Linux, or a chip on its screen.
ON_WINDOWS := ./analysis/... ./capture/memory ./capture/plainfile ./capture ./capture/monitors ./cmd/desk/command ./cmd/desk/quiet ./gui/files ./gui/live \
	./gui/mistake ./gui/native ./gui/overlay ./gui/pictures ./gui/settings ./gui/setup ./gui/stills/... ./gui/language ./gui/typeface ./gui/wording
OF_WINDOWS := ^Test(Foreign|Compare|Spot|EmptyList|Shade|Match|Palette|Read|Relight|Sheet|Still|Help|Version|Series|WhatIs|Refused|Signs|Reports|Trouble|Window(DamagedSettings|FollowsTheScreen|Keys$$|ChoosesRegion|FollowsPictureFile|KeepsStills|HandsOn|KeepsAbove|Remembers|CoversTheRegion|ComparesInTwoTaps|Focus|Menus|ShowsHowItGrew))
NOT_OF_WINDOWS := ^Test((Read|Series)Progress|StillIsWithoutChip)$$

# How long each fuzz target runs.
FUZZTIME ?= 60s

.PHONY: run build test quick laws fuzz attack fit fit-check judge bench goldens shots notices fmt setup lint vulns vet-others windows test-windows package package-check package-setup

run: setup build ## opens the window; without a display, on a virtual screen
	@scripts/run.sh $(BIN)

build:
	@mkdir -p build
	go build -o $(BIN) ./cmd/desk

setup: ## installs the system packages that are missing
	@scripts/setup.sh

test: setup lint ## everything, and once more with the race detector where goroutines meet; on virtual screens
	TONEDESK_NEED_X=1 go test -vet=off -timeout 20m ./...
	TONEDESK_NEED_X=1 go test -vet=off -race -timeout 20m $(RACED)
	go test -vet=off -race -run '$(RACED_TESTS)' ./analysis/...

quick: ## the tests that need no screen, without the slowest
	TONEDESK_NEED_X=0 go test -short ./...

laws: ## the laws on many cases, other ones every time, and all painted scenes
	TONEDESK_LONG=1 go test -vet=off -count 1 -timeout 60m $(LAWS)

fuzz: setup ## every fuzz target for FUZZTIME each, one after another, and a table of what came of it
	@scripts/fuzz.sh $(FUZZTIME)

attack: setup ## attacks the built program for twenty minutes, and prints a table; ATTACKS='-run Kills' for some
	@# in its folder: go test hides the table of a package that it is told of and that passes
	cd cmd/desk/attack && TONEDESK_ATTACK=1 TONEDESK_NEED_X=1 go test -vet=off -count 1 -parallel 32 -timeout 60m $(ATTACKS)

goldens: ## draws the masters of the window, of notes and of the sheet anew; look at them before you commit them
	TONEDESK_GOLDENS=1 go test -vet=off -count 1 -run 'Look' ./gui ./gui/stills/...
	@git status --short -- '*/testdata/*.png'

lint:
	@bad="$$(gofmt -l .)"; if [ -n "$$bad" ]; then echo "gofmt would change:"; echo "$$bad"; exit 1; fi
	go vet ./...
	go run $(STATICCHECK) ./...

vet-others: ## vets what needs no C compiler for Windows and macOS, tests too: all but the window
	@for system in windows darwin; do \
		echo "$$system"; \
		GOOS=$$system CGO_ENABLED=0 go vet $$(go list ./... | grep -vE '$(WITH_TOOLKIT)') || exit 1; \
	done

vulns: ## whether known holes are called: govulncheck, with its list as a module; minutes, before each release
	@scripts/vulns.sh

windows: ## build/windows/desk.exe, for 64-bit Windows
	@scripts/setup.sh windows
	@scripts/windows/build.sh

test-windows: ## tests that under Wine, and packages built for Windows; before each release, not in CI
	@scripts/setup.sh wine
	@scripts/windows/build.sh
	@TEST_PACKAGES='$(ON_WINDOWS)' TEST_PROGRAM='$(OF_WINDOWS)' TEST_SKIP='$(NOT_OF_WINDOWS)' scripts/windows/test.sh

package: package-setup ## build/package: .deb, .tar.gz, .zip (if build/windows/desk.exe is there), what is in them, sums
	@scripts/package/package.sh

package-check: package ## builds them again elsewhere, compares, installs and removes them; as root, minutes
	@scripts/package/check.sh

package-setup:
	@scripts/setup.sh package

fit: ## fits the weights of the finder of local colours; needs Debian's openclipart-svg and librsvg2-bin
	go run ./scripts/fit

fit-check: ## the same, but only says whether the weights are what it would write
	go run ./scripts/fit -check

judge: ## says how well local colours are found, and how stable they are; needs the same
	go run ./scripts/judge

bench: setup build ## the figures of DEVELOPERS.md
	@scripts/bench.sh $(BIN)

shots: setup build ## the pictures of the README
	@scripts/shots.sh $(BIN) assets/shots

notices: ## THIRD_PARTY.md, after modules have changed
	@mkdir -p build
	go run ./scripts/thirdparty >build/notices
	mv build/notices THIRD_PARTY.md

fmt:
	gofmt -w .
