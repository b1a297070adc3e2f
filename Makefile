# Every recipe sets up what it needs; see DEVELOPERS.md.
export GOAMD64 := v1
GO ?= go
ADDR ?= 127.0.0.1:8080

help: ## Show what make can do
	@grep -hE '^[a-z-]+:.*## ' $(MAKEFILE_LIST) | sed 's/:.*## /\t/' | sort

run: dist ## Build the page and serve the demo on an embedded database
	$(GO) run ./app/tarnwright serve -addr $(ADDR)

test: tools dist ## Run everything CI runs: lint, unit, wasm, size and browser tests
	$(GO) vet ./... && sh .ci/gofmt.sh
	$(GO) test $$($(GO) list ./... | grep -v /browsertest)
	$(GO) test ./internal/browsertest -timeout 25m
	sh .ci/wasm-test.sh

bench: tools dist ## Print benchmarks as ratios beside a reference run
	sh .ci/bench.sh

perf: tools dist ## Print what a first visit costs on a phone, beside the framework's smallest page
	$(GO) test ./internal/browsertest -run '^$$' -bench '^BenchmarkPerf$$' -benchtime 1x -timeout 20m

score: dist ## Print what Lighthouse says of a first visit on a phone, and of a page with the check in it
	mkdir -p .build && $(GO) build -o .build/tarnwright-score ./app/tarnwright && node .ci/lighthouse.mjs .build/tarnwright-score

torture: ## Cut the power, kill the server under load and hold it with slow clients, short; LONG=1 does it at length
	$(GO) test ./internal/store/sqlite -count=1 -v -run 'PowerCut|FullDisk' $(if $(LONG),-cuts 1000)
	$(GO) test ./app/tarnwright -count=1 -v -timeout 30m -run Torture $(if $(LONG),-kills 200 -rolls 20 -slow 500)

lint: ## Vet, format and house rules
	$(GO) vet ./... && sh .ci/gofmt.sh && $(GO) test ./internal/archtest

gallery: ## Write every part in every state to .build/gallery/index.html
	$(GO) run ./app/gallery .build/gallery

golden: ## Rewrite the golden calc sheets; read the diff before you commit it
	$(GO) test ./internal/view -run Golden -update

dist: ## Build and compress the WASM into web/dist
	sh .ci/dist.sh

tools: ## Install what the tests need: Chromium, fonts, PostgreSQL, npm oracles
	sh .ci/tools.sh

clean: ## Remove what was built
	rm -rf web/dist/app.* .build

.PHONY: help run test bench perf score torture lint gallery golden dist tools clean
.DEFAULT_GOAL := help
