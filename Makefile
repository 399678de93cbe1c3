# Two commands are enough on a fresh machine: make run, make test. They need Go, and Node 20 or newer with npm.

SHELL := /bin/bash
.SHELLFLAGS := -euo pipefail -c
export GOAMD64 := v1
export CGO_ENABLED := 0

ADDR ?= 127.0.0.1:8340
DATA ?= data
BIN := bin/berthwright
PAGE := $(shell find web/ui/src web/ui/public -type f 2>/dev/null) web/ui/index.html web/ui/vite.config.ts web/ui/tsconfig.json

.PHONY: run test page build check generate clean

## run: build everything, load the demo builds, serve the page and print its address
run: page build
	$(BIN) serve --demo --data $(DATA) --addr $(ADDR)

## test: install what is missing, then all tests: page units, page in a real browser, Go
test: page build
	.ci/setup
	npm --prefix web/ui run --silent test
	BERTHWRIGHT=$(CURDIR)/$(BIN) npm --prefix web/ui run --silent page
	go test ./...

## page: build the page into web/dist, where the program embeds it from
page: web/dist/index.html

web/dist/index.html: web/ui/node_modules/.package-lock.json $(PAGE)
	npm --prefix web/ui run --silent build
	@touch $@

web/ui/node_modules/.package-lock.json: web/ui/package.json web/ui/package-lock.json
	@command -v npm >/dev/null || { echo "the page needs Node 20 or newer with npm; without it: go run ./cmd/berthwright check examples/curlew.yaml" >&2; exit 1; }
	npm --prefix web/ui ci --no-audit --no-fund
	@touch $@

build:
	go build -o $(BIN) ./cmd/berthwright

## check: format, vet, staticcheck, layers, generated files, types of the page; .ci/run does this, the tests and more
check:
	.ci/run quick

## generate: write the generated files anew
generate:
	for g in internal/gen/*/; do go run "./$$g"; done

## clean: remove what was built; the builds kept in the data folder stay
clean:
	rm -rf bin web/ui/node_modules
	find web/dist -mindepth 1 ! -name placeholder.html -delete
