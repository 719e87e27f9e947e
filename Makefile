# fettle: twelve targets. `make demo` needs Go, git and make alone; the others install what they need and say so.
SHELL := /bin/bash
GO ?= go
BIN := bin
HIGHS := 1.15.3
AXE := 4.14.1
SUBSYSTEMS := bottom-end cylinders head clutch gearbox transfer-box prop-shafts rear-axle front-axle steering brakes springs hubs-wheels cooling fuel electrics frame body
PLATFORMS := linux-amd64 linux-arm64 darwin-amd64 darwin-arm64 windows-amd64 windows-arm64
VERSION := $(shell git describe --always --dirty 2>/dev/null || echo unknown)

.PHONY: build cross vet-others demo test check proto golden bench clean tools cover

# $(call programs,FOLDER,SUFFIX): fettle-subsystems first, its hash then goes into fettle.
define programs
	@mkdir -p $(1)
	CGO_ENABLED=0 $(GO) build -tags grpcnotrace -trimpath -ldflags "-s -w" -o $(1)/fettle-subsystems$(2) ./cmd/fettle-subsystems
	CGO_ENABLED=0 $(GO) build -trimpath -ldflags "-s -w -X main.version=$(VERSION) -X 'main.builtinSubsystems=$(SUBSYSTEMS)' -X main.subsystemsSHA256=$$(sha256sum $(1)/fettle-subsystems$(2) | cut -d' ' -f1)" -o $(1)/fettle$(2) ./cmd/fettle
endef

build: ## the programs of this machine, into bin
	$(call programs,$(BIN),)

cross: $(addprefix cross-,$(PLATFORMS)) ## the programs of every platform, into bin/cross/PLATFORM

cross-%: export GOOS = $(word 1,$(subst -, ,$*))
cross-%: export GOARCH = $(word 2,$(subst -, ,$*))
cross-%:
	$(call programs,$(BIN)/cross/$*,$(if $(findstring windows,$*),.exe))

demo: build ## the whole job on invented data, into out/demo
	@rm -rf out/demo && mkdir -p out
	@$(BIN)/fettle demo out/demo

test: build tools ## everything a fresh machine must pass
	$(GO) vet ./...
	$(GO) test -timeout 20m ./...
	$(GO) test -timeout 20m -race ./core ./core/host ./core/store

tools: ## what the tests need beside Go: glpk-utils, coinor-cbc and HiGHS on nodejs (other opinions on the choice), poppler-utils (reads the papers back), zbar-tools (reads the labels' codes back), chromium (opens the pages), libnss3-tools (lets one trust the shop), gcc (the race detector)
	@missing=""; \
	command -v glpsol >/dev/null || missing="$$missing glpk-utils"; \
	command -v cbc >/dev/null || missing="$$missing coinor-cbc"; \
	command -v npm >/dev/null || missing="$$missing nodejs npm"; \
	command -v pdftotext >/dev/null || missing="$$missing poppler-utils"; \
	command -v zbarimg >/dev/null || missing="$$missing zbar-tools"; \
	command -v chromium >/dev/null || command -v chromium-browser >/dev/null || missing="$$missing chromium"; \
	command -v certutil >/dev/null || missing="$$missing libnss3-tools"; \
	command -v protoc >/dev/null || missing="$$missing protobuf-compiler"; \
	command -v gcc >/dev/null || missing="$$missing gcc libc6-dev"; \
	if [ -n "$$missing" ]; then \
	  echo "installing$$missing"; \
	  if [ "$$(id -u)" = 0 ] && command -v apt-get >/dev/null; then apt-get update -qq >/dev/null; DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends $$missing >/dev/null; \
	  else echo "not root or no apt-get: install them by hand; tests that need them will say so"; fi; fi
	@if [ ! -f $(BIN)/highs/node_modules/highs/package.json ] && command -v npm >/dev/null; then \
	  echo "installing highs $(HIGHS) into $(BIN)/highs"; \
	  mkdir -p $(BIN)/highs && npm install --prefix $(BIN)/highs --no-package-lock --no-audit --no-fund --silent highs@$(HIGHS) || echo "highs could not be installed; the test that needs it will say so"; fi
	@if [ ! -f $(BIN)/axe/node_modules/axe-core/axe.min.js ] && command -v npm >/dev/null; then \
	  echo "installing axe-core $(AXE) into $(BIN)/axe"; \
	  mkdir -p $(BIN)/axe && npm install --prefix $(BIN)/axe --no-package-lock --no-audit --no-fund --silent axe-core@$(AXE) || echo "axe-core could not be installed; the test that needs it will say so"; fi

vet-others: ## all packages, tests too, as they are for the other systems
	for os in darwin windows; do GOOS=$$os CGO_ENABLED=0 $(GO) vet -gcflags="all=-N -l" ./... || exit 1; done # not optimised: the packages are compiled only to be looked at

check: test cross vet-others ## the slow gates: the programs of every platform, lint, buf, longer fuzzing
	$(GO) run github.com/golangci/golangci-lint/v2/cmd/golangci-lint@v2.15.0 run
	cd proto && npx --yes @bufbuild/buf@1.75.0 lint
	cd proto && npx --yes @bufbuild/buf@1.75.0 breaking --against baseline.binpb
	@for t in $$($(GO) list ./... | xargs -I{} sh -c "$(GO) test -list '^Fuzz' {} | grep '^Fuzz' | sed 's#^#{} #'" | tr ' ' ':'); do \
	  echo "fuzzing $$t"; $(GO) test -run '^$$' -fuzz "^$${t#*:}$$" -fuzztime 30s "$${t%%:*}" || exit 1; done

proto: tools ## generated code from the contract
	@mkdir -p $(BIN)
	$(GO) build -o $(BIN)/protoc-gen-go google.golang.org/protobuf/cmd/protoc-gen-go
	$(GO) build -o $(BIN)/protoc-gen-go-grpc google.golang.org/grpc/cmd/protoc-gen-go-grpc
	$(GO) build -o $(BIN)/protoc-gen-go-vtproto github.com/planetscale/vtprotobuf/cmd/protoc-gen-go-vtproto
	cd proto && PATH="$(CURDIR)/$(BIN):$$PATH" protoc -I . --go_out=. --go_opt=paths=source_relative --go-grpc_out=. --go-grpc_opt=paths=source_relative --go-vtproto_out=. --go-vtproto_opt=paths=source_relative,features=marshal+unmarshal+size fettle/subsystem/v1/subsystem.proto

golden: build ## rewrite the golden files; read the diff before you commit it
	$(GO) test ./core/paper ./core/sdk ./plugins ./cmd/fettle -run 'Golden|Script' -update

bench: build ## speed and memory, shown and never asserted
	$(GO) test -run '^$$' -bench . -benchmem ./...

cover: ## what the tests reach
	$(GO) test -coverprofile=out.cover ./... && $(GO) tool cover -func=out.cover | tail -1

clean:
	rm -rf $(BIN) out out.cover
