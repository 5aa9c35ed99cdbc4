# Every target works from a fresh clone. Needed: Go, make, git; for test also
# a browser, a solver, node and PDF tools, which it installs on Debian if missing.

GO      ?= go
FUZZTIME ?= 20s
WASM    := GOOS=js GOARCH=wasm

.DEFAULT_GOAL := help
.PHONY: help run site dist test check tools golden fuzz bench clean

help: ## list the targets
	@sed -n 's/^\([a-z]*\):.*## \(.*\)/  make \1\t\2/p' $(MAKEFILE_LIST) | expand -t 20

run: ## build the site quickly and show it with the demo project
	@$(GO) run ./cmd/site -dev
	@exec $(GO) run ./cmd/serve

site: ## build the site as it is released, into .site
	@$(GO) run ./cmd/site

dist: site ## one program with the site inside, .dist/cartwright
	@rm -rf cmd/serve/built && mkdir -p .dist && cp -r .site cmd/serve/built
	@$(GO) build -trimpath -ldflags="-s -w" -tags embedsite -o .dist/cartwright ./cmd/serve
	@rm -rf cmd/serve/built && ls -l .dist/cartwright

test: tools check ## everything: check, then all tests, browser and solver included
	@# The browser's turn comes last and alone: two cores are few for it.
	@$(GO) test $$($(GO) list ./... | grep -v cmd/serve)
	@$(GO) test ./cmd/serve

check: ## gofmt, vet and staticcheck for both targets, import order, size budget
	@echo "gofmt"
	@out=$$(gofmt -l cmd engine wasm); test -z "$$out" || { echo "not formatted:"; echo "$$out"; exit 1; }
	@echo "go vet"
	@$(GO) vet ./...
	@$(WASM) $(GO) vet ./engine/... ./wasm/...
	@# ST1005: our error texts are sentences that people read.
	@echo "staticcheck"
	@tool=$$($(GO) tool -n staticcheck) && checks=inherit,-ST1005 && $$tool -checks $$checks ./... && $(WASM) $$tool -checks $$checks ./engine/... ./wasm/...
	@echo "import order"
	@$(GO) test -run 'TestOrder|TestViewIsThin|TestOnlyWasm|TestBreach' ./engine
	@echo "size budget"
	@$(GO) run ./cmd/site -check

tools: ## install the browser, the solver and the PDF tools of the tests, if missing
	@missing=; \
	command -v chromium >/dev/null || missing="$$missing chromium"; \
	command -v glpsol >/dev/null || missing="$$missing glpk-utils"; \
	command -v node >/dev/null || missing="$$missing nodejs"; \
	command -v pdftoppm >/dev/null || missing="$$missing poppler-utils"; \
	test -z "$$missing" && exit 0; \
	echo "the tests need$$missing: installing from Debian"; \
	command -v apt-get >/dev/null || { echo "no apt-get here: please install$$missing yourself"; exit 1; }; \
	sudo=; test "$$(id -u)" = 0 || sudo=sudo; \
	$$sudo apt-get update -q && DEBIAN_FRONTEND=noninteractive $$sudo apt-get install -q -y --no-install-recommends $$missing

golden: ## rewrite the golden files; read the difference before you commit it
	@for d in $$(grep -rl --include='*_test.go' 'flag.Bool("update"' cmd engine wasm | xargs -n1 dirname | sort -u); do \
		$(GO) test ./$$d -update || exit 1; done

fuzz: ## run each fuzz test for FUZZTIME (20s)
	@for p in $$($(GO) list ./...); do \
		for f in $$($(GO) test -list '^Fuzz' $$p | grep '^Fuzz'); do \
			echo "$$p $$f"; $(GO) test -run '^$$' -fuzz "^$$f$$" -fuzztime $(FUZZTIME) -fuzzminimizetime 1x -parallel 2 $$p || exit 1; done; done

bench: ## run the benchmarks, those of the search native, as wasm under node and in Chromium
	@$(GO) test -run '^$$' -bench . -benchmem $$($(GO) list ./engine/... | grep -v engine/nest)
	@echo "the search, native" && $(GO) test -run '^$$' -benchtime 10000x -benchmem ./engine/nest -bench 'FirstPlan|Try' && \
	$(GO) test -run '^$$' -benchtime 1x ./engine/nest -bench 'Carts|Equals'
	@echo "the search, as wasm under node, treated like the site's programs" && mkdir -p .cache && \
	$(WASM) $(GO) test -c -o .cache/nest.wasm ./engine/nest && $(GO) run ./cmd/site -tighten .cache/nest.wasm && \
	exec="$$($(GO) env GOROOT)/lib/wasm/go_js_wasm_exec" && cd engine/nest && \
	"$$exec" ../../.cache/nest.wasm -test.run '^$$' -test.benchtime 10000x -test.benchmem -test.bench 'FirstPlan|Try' && \
	"$$exec" ../../.cache/nest.wasm -test.run '^$$' -test.benchtime 1x -test.bench 'Carts|Equals' && \
	cd ../.. && echo "the search in a worker of Chromium, and natively in turn" && \
	$(GO) test -run '^$$' -benchtime 1x ./engine/nest -bench Chromium

clean: ## remove what was built
	@rm -rf .site .cache .dist .shots cmd/serve/built
