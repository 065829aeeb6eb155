# Tonedesk: the commands, the same for a person and for CI. See DEVELOPERS.md.
# One set of flags for everything, so that the toolkit is compiled once.

# Left out of the toolkit: a font of 4 MB for emoji, which nothing of ours shows, and the
# reading of a FyneApp.toml that lies beside the program.
TAGS := no_emoji,no_metadata
export GOFLAGS := $(shell go env GOFLAGS) -tags=$(TAGS)

BIN := build/desk
STATICCHECK := honnef.co/go/tools/cmd/staticcheck@v0.7.0

.PHONY: run build test quick bench shots notices fmt setup lint

run: setup build ## opens the window; without a display, on a virtual screen
	@scripts/run.sh $(BIN)

build:
	@mkdir -p build
	go build -o $(BIN) ./cmd/desk

setup: ## installs the system packages that are missing
	@scripts/setup.sh

test: setup lint ## everything, with the race detector, on virtual screens; a package at a time, since screens share their numbers; what paints many scenes runs without the detector
	go test ./analysis
	TONEDESK_NEED_X=1 go test -race -p 1 -timeout 20m ./...

quick: ## the tests that need no screen, without the slowest
	go test -short ./...

lint:
	@bad="$$(gofmt -l .)"; if [ -n "$$bad" ]; then echo "gofmt would change:"; echo "$$bad"; exit 1; fi
	go vet ./...
	go run $(STATICCHECK) ./...

bench: setup build ## the figures of DEVELOPERS.md
	@scripts/bench.sh $(BIN)

shots: setup build ## the pictures of the README
	@scripts/shots.sh $(BIN) assets

notices: ## THIRD_PARTY.md, after modules have changed
	@mkdir -p build
	go run ./scripts/thirdparty >build/notices
	mv build/notices THIRD_PARTY.md

fmt:
	gofmt -w .
