# ostler: what is due, on which day, and why.
#
#   make            build the program; never touches the system
#   make demo       install what is missing, build, run the main job
#   make check      install what is missing, build, run the tests
#   make help       the other targets

BUILD ?= build
PREFIX ?= /usr
CC ?= gcc
include config.mk

# Commands are shown in short; V=1 shows them whole.
ifneq ($(V),1)
Q := @
endif

# Which layers each layer may see.  This is the design: the include path of a
# layer is itself and what stands here, so a wrong arrow does not compile.
LAYERS := base calendar fleet defect usage due condition plan config ledger view mail http \
	pass cli daemon
SEES_calendar := base
SEES_fleet := calendar $(SEES_calendar)
SEES_defect := fleet $(SEES_fleet)
SEES_usage := fleet $(SEES_fleet)
SEES_due := usage $(SEES_usage)
SEES_condition := defect due $(SEES_due)
PURE_AND_BASE := condition $(SEES_condition)
SEES_plan := $(PURE_AND_BASE)
SEES_config := $(PURE_AND_BASE)
SEES_ledger := $(PURE_AND_BASE)
SEES_view := plan $(PURE_AND_BASE)
SEES_mail := base
SEES_http := base
SEES_pass := config ledger view mail plan $(PURE_AND_BASE)
SEES_cli := pass $(SEES_pass)
SEES_daemon := http pass $(SEES_pass)

layer_of = $(firstword $(subst /, ,$(patsubst src/%,%,$(1))))
includes_of = $(addprefix -Isrc/,$(1) $(SEES_$(1))) \
	$(if $(filter view,$(1)),-I$(BUILD)/embedded)

SOURCES := $(wildcard $(addprefix src/,$(addsuffix /*.c,$(LAYERS))))
OBJECTS := $(SOURCES:src/%.c=$(BUILD)/obj/%.o)
# Each program is its main and the layers below; all else is in one library.
MAIN := $(BUILD)/obj/cli/main.o
DAEMON := $(BUILD)/obj/daemon/main.o
LIBRARY := $(BUILD)/libostler.a

# Style sheets and scripts, each as a header that defines it as a string.
EMBEDDED := $(patsubst src/view/%,$(BUILD)/embedded/%.h,$(subst .,_,$(wildcard \
	$(addprefix src/view/*.,css js))))

UNIT_SOURCES := $(wildcard tests/unit/*/test_*.c tests/reference/test_*.c)
UNIT_TESTS := $(UNIT_SOURCES:tests/%.c=$(BUILD)/tests/%)
# A server of made-up feeds, for scenarios and benchmark.
SERVE := $(BUILD)/tests/http/serve
# The workshop page with its forms, for a browser.
RECORD_FORM := $(BUILD)/tests/http/record_form
TEST_INCLUDES := $(addprefix -Isrc/,$(LAYERS)) -Itests/unit
# Programs that the reference tests put questions to.
ASKED := $(addprefix $(BUILD)/tests/reference/,calc defects ical_reader plan_cases \
	quantlib recur usage)
BENCHES := $(patsubst tests/%.c,$(BUILD)/tests/%,$(wildcard tests/bench/*.c)) \
	$(BUILD)/tests/bench/bench_dates
FUZZERS := $(addprefix $(BUILD)/fuzz/,config path request)

.PHONY: all
all: $(BUILD)/ostler $(BUILD)/ostlerd

$(BUILD)/ostler: $(MAIN) $(LIBRARY)
	@echo '  LD $@'
	$(Q)$(CC) $(LDFLAGS) -o $@ $^ $(LIBS)

$(BUILD)/ostlerd: $(DAEMON) $(LIBRARY)
	@echo '  LD $@'
	$(Q)$(CC) $(LDFLAGS) -o $@ $^ $(LIBS)

$(BUILD)/libostler.a: $(filter-out $(MAIN) $(DAEMON),$(OBJECTS))
	@echo '  AR $@'
	$(Q)rm -f $@
	$(Q)ar rcs $@ $^

# The same to load, so that a change of it needs no program linked again.
$(BUILD)/libostler.so: $(filter-out $(MAIN) $(DAEMON),$(OBJECTS))
	$(Q)$(CC) -shared -o $@ $^ $(LIBS)

$(BUILD)/obj/%.o: src/%.c config.mk Makefile
	@mkdir -p $(@D)
	@echo '  CC $<'
	$(Q)$(CC) $(CFLAGS) $(CPPFLAGS) $(call includes_of,$(call layer_of,$<)) \
		$(LIBCFLAGS) -MMD -MP -c -o $@ $<

$(filter $(BUILD)/obj/view/%,$(OBJECTS)): | $(EMBEDDED)

$(BUILD)/embedded/%_css.h: src/view/%.css src/view/embed
	@mkdir -p $(@D)
	$(Q)src/view/embed $< >$@.new && mv $@.new $@

$(BUILD)/embedded/%_js.h: src/view/%.js src/view/embed
	@mkdir -p $(@D)
	$(Q)src/view/embed $< >$@.new && mv $@.new $@

$(BUILD)/tests/%: tests/%.c $(LIBRARY)
	@mkdir -p $(@D)
	@echo '  CC $<'
	$(Q)$(CC) $(CFLAGS) $(CPPFLAGS) $(TEST_INCLUDES) $(LIBCFLAGS) -MMD -MP \
		$(LDFLAGS) -o $@ $< $(LIBRARY) $(LIBS) -lcmocka

# What makes a plan, a snapshot or a reading is counted.
$(BUILD)/tests/unit/pass/test_one_run: LDFLAGS += -Wl,--wrap=fleet_plan_new \
	-Wl,--wrap=snapshot_new -Wl,--wrap=records_needed

# QuantLib is a library of C++.
$(BUILD)/tests/%: tests/%.cc $(LIBRARY)
	@mkdir -p $(@D)
	@echo '  CXX $<'
	$(Q)$(CXX) -O2 -std=c++20 -Wall -Wextra $(SANITIZE) -Isrc/base -Isrc/calendar \
		-MMD -MP -o $@ $< $(LIBRARY) -lQuantLib

-include $(OBJECTS:.o=.d) $(addsuffix .d,$(UNIT_TESTS) $(SERVE) $(RECORD_FORM) \
	$(ASKED) $(BENCHES))

# Every program of src and tests, built and not run: what is built only now and
# then is broken when it is wanted.
.PHONY: everything
everything: all $(UNIT_TESTS) $(SERVE) $(RECORD_FORM) $(ASKED) $(BENCHES) $(FUZZERS)

# Installing what is missing: the only targets that touch the system.

.PHONY: deps deps-test deps-peers deps-tools
deps:
	@contrib/install-packages build

deps-test:
	@contrib/install-packages build test fuzz

deps-peers:
	@contrib/install-packages build test fuzz peers

deps-tools:
	@contrib/install-packages tools fuzz

.PHONY: demo
demo: deps
	@$(MAKE) --no-print-directory -s all
	@etc/demo/run $(BUILD)/ostler $(BUILD)/demo

.PHONY: check
check: deps-test
	@$(MAKE) --no-print-directory check-built

# Those tests, and calendar clients, servers, browsers and packages of npm.
.PHONY: check-peers
check-peers: deps-peers
	@$(MAKE) --no-print-directory check-built TIERS="check peers"

# What takes the time of things, on a machine that is quiet.
.PHONY: check-load
check-load: deps-test all $(SERVE)
	@BUILD=$(BUILD) CC="$(CC)" tests/run -j 1 -t load

# The tests alone, for a machine that has the packages.
TIERS ?= check
.PHONY: check-built
check-built: everything
	@BUILD=$(BUILD) tests/lint/layers
	@tests/lint/headers
	@tests/lint/tests
	@BUILD=$(BUILD) CC="$(CC)" tests/run $(addprefix -t ,$(TIERS))

# The same tests with the address and undefined-behaviour sanitizers.
.PHONY: sanitize
sanitize:
	@$(MAKE) --no-print-directory check-built BUILD=$(BUILD)/sanitize \
		SANITIZE="-fsanitize=address,undefined -fno-sanitize-recover=all"

# What five libraries read in the feeds of 5,000 hostile fleets.
FLEETS ?= 5000
.PHONY: readers
readers: all $(BUILD)/tests/unit/view/test_ical $(BUILD)/tests/reference/ical_reader
	@BUILD=$(BUILD) FLEETS=$(FLEETS) tests/reference/ical-readers

# What must hold of any fleet: 10,000 of them, and 200 through the program.
.PHONY: invariants
invariants: FLEETS = 10000
invariants: all $(BUILD)/tests/unit/due/test_invariants
	@for seed in $(or $(SEED),1 2 3); do \
		SEED=$$seed FLEETS=$(FLEETS) $(BUILD)/tests/unit/due/test_invariants && \
		SEED=$$seed FLEETS=200 BUILD=$(BUILD) tests/reference/invariants \
			|| exit 1; \
	done

# Mail while each write in turn fails, not only some of them.
.PHONY: torture
torture: all
	@TORTURE=1 BUILD=$(BUILD) tests/run outbox-retries-and-gives-up

# Plans against the optimum, on 1,000 problems each of three seeds.
.PHONY: plan-proof
plan-proof: deps-test all $(ASKED)
	@for seed in 1 2 3; do \
		BUILD=$(BUILD) CC="$(CC)" PROBLEMS=1000 SEED=$$seed \
			tests/reference/plan-solver || exit 1; \
	done

# Speed and memory beside a peer, in one run; ratios, never a test.
.PHONY: bench
bench: deps
	@contrib/install-packages bench
	@$(MAKE) --no-print-directory bench-built

.PHONY: bench-built
bench-built: all $(SERVE) $(BENCHES) $(ASKED)
	@$(BUILD)/tests/bench/bench_dates
	@$(BUILD)/tests/bench/bench_snapshot
	@$(BUILD)/tests/bench/bench_plan
	@$(BUILD)/tests/bench/bench_usage_cost
	@BUILD=$(BUILD) tests/bench/bench_usage
	@BUILD=$(BUILD) tests/bench/bench_ical
	@$(BUILD)/tests/bench/bench_mail
	@BUILD=$(BUILD) tests/bench/bench_import
	@BUILD=$(BUILD) tests/bench/bench_cold
	@BUILD=$(BUILD) tests/bench/bench_http
	@BUILD=$(BUILD) tests/bench/bench_daemon

# Three days in the life of the daemon, in minutes.
.PHONY: day
day: all
	@BUILD=$(BUILD) HOURS=72 RATE=1800 tests/scenarios/daemon/days-in-fast-time

# The daemon misused ten times as much as in "make check".
.PHONY: abuse
abuse: all
	@TIMES=10 BUILD=$(BUILD) tests/scenarios/daemon/misuse-holds-up-nobody

# The units, on a machine that systemd boots in an emulator; minutes.
.PHONY: boot
boot: all
	@contrib/install-packages boot
	@BUILD=$(BUILD) tests/boot/run

# A pass with ten messages, killed at every one of its system calls.
.PHONY: kill
kill: all
	@BUILD=$(BUILD) KILL=all tests/scenarios/mail/killed-sends-nothing-twice

# What libFuzzer makes up, for so long: for the reader of the fleet file, ...
FUZZ_SECONDS ?= 600
FUZZ := clang $(CFLAGS) $(CPPFLAGS) $(TEST_INCLUDES) $(LIBCFLAGS) \
	-fsanitize=fuzzer,address,undefined -fno-sanitize-recover=all
RUN_FUZZER = $(1) -max_total_time=$(FUZZ_SECONDS) -print_final_stats=1 \
	-artifact_prefix=$(BUILD)/fuzz/
FUZZ_CONFIG := tests/fuzz/fuzz_config.c \
	$(filter-out src/config/source.c,$(wildcard $(addprefix src/,$(addsuffix \
	/*.c,base calendar fleet usage due config))))
$(BUILD)/fuzz/config: $(FUZZ_CONFIG) tests/fuzz/uncovered $(LIBRARY)
	@mkdir -p $(@D)
	@echo '  FUZZ $@'
	$(Q)$(FUZZ) -fsanitize-coverage-ignorelist=tests/fuzz/uncovered \
		-o $@ $(FUZZ_CONFIG) $(LIBS)

.PHONY: fuzz
fuzz: deps-tools $(BUILD)/fuzz/config
	@mkdir -p $(BUILD)/fuzz/corpus
	$(call RUN_FUZZER,$(BUILD)/fuzz/config) -dict=tests/fuzz/config.dict \
		-max_len=6000 $(BUILD)/fuzz/corpus tests/fuzz/corpus/config

# ... what a client writes in a request, ...
FUZZ_PATH := tests/fuzz/fuzz_path.c $(addprefix src/http/,address.c \
	conditional.c etag.c http_date.c http_form.c target.c) \
	src/base/num.c src/base/utf8.c
$(BUILD)/fuzz/path: $(FUZZ_PATH) $(LIBRARY)
	@mkdir -p $(@D)
	@echo '  FUZZ $@'
	$(Q)$(FUZZ) -o $@ $(FUZZ_PATH)

.PHONY: fuzz-http
fuzz-http: deps-tools $(BUILD)/fuzz/path
	@mkdir -p $(BUILD)/fuzz/path-corpus
	$(call RUN_FUZZER,$(BUILD)/fuzz/path) -max_len=2000 \
		$(BUILD)/fuzz/path-corpus tests/fuzz/corpus/path

# ... and the whole server, a connection an input; its log is one that looks at
# every line.
FUZZ_REQUEST := $(addprefix tests/fuzz/,fuzz_request.c answers.c talk.c) \
	$(filter-out src/http/limited_log.c,$(wildcard src/http/*.c)) \
	$(addprefix src/base/,buf.c fault.c key.c num.c utf8.c)
$(BUILD)/fuzz/request: $(FUZZ_REQUEST) $(LIBRARY)
	@mkdir -p $(@D)
	@echo '  FUZZ $@'
	$(Q)$(FUZZ) -o $@ $(FUZZ_REQUEST) $(LIBS)

.PHONY: fuzz-request
fuzz-request: deps-tools $(BUILD)/fuzz/request
	@mkdir -p $(BUILD)/fuzz/request-corpus
	$(call RUN_FUZZER,$(BUILD)/fuzz/request) -dict=tests/fuzz/request.dict \
		-max_len=20000 $(BUILD)/fuzz/request-corpus tests/fuzz/corpus/request

# How many of a hundred small faults the quick tests do not see.
MUTANTS ?= 100
.PHONY: mutants
mutants: deps-test
	@BUILD=$(BUILD) tests/mutants/run -n $(MUTANTS) $(if $(SEED),-s $(SEED))

.PHONY: mutants-built
mutants-built: all $(UNIT_TESTS) $(SERVE) $(RECORD_FORM) $(ASKED)

# Every warning is an error with both compilers.
.PHONY: compilers
compilers: deps-tools
	@$(MAKE) --no-print-directory all BUILD=$(BUILD)/gcc CC=gcc
	@$(MAKE) --no-print-directory all BUILD=$(BUILD)/clang CC=clang

.PHONY: lint
lint: deps-tools all
	@BUILD=$(BUILD) tests/lint/layers
	@tests/lint/headers
	@tests/lint/tests
	@clang-format --dry-run -Werror $(wildcard src/*/*.[ch] tests/*/*.[ch] \
		tests/unit/*/*.[ch])
	@BUILD=$(BUILD) tests/lint/house
	@BUILD=$(BUILD) tests/lint/tidy $(SOURCES)

.PHONY: format
format: deps-tools
	clang-format -i $(wildcard src/*/*.[ch] tests/*/*.[ch] tests/unit/*/*.[ch])

.PHONY: install
install: all
	@contrib/install-files $(BUILD) "$(DESTDIR)" "$(PREFIX)"

.PHONY: clean
clean:
	rm -rf $(BUILD)

.PHONY: help
help:
	@sed -n 's/^#   //p' Makefile
	@echo 'make deps        install the packages that are missing'
	@echo 'make deps-tools  the compilers and checkers of the targets below'
	@echo 'make check-peers the tests, and clients, servers, browsers, npm packages'
	@echo 'make check-load  tests that take the time of things: a quiet machine'
	@echo 'make sanitize    the tests under ASan and UBSan'
	@echo 'make everything  build every program of src and tests; run none'
	@echo 'make mutants     MUTANTS=100 SEED=: small faults that no quick test sees'
	@echo 'make readers     FLEETS=5000: hostile feeds in five other libraries'
	@echo 'make torture     mail while each write in turn fails'
	@echo 'make invariants  what must hold, on 10,000 random fleets of each seed'
	@echo 'make plan-proof  the planner against an integer program'
	@echo 'make bench       speed and memory beside other libraries'
	@echo 'make fuzz        FUZZ_SECONDS=600: the fleet file against libFuzzer'
	@echo 'make kill        a pass killed at every system call; most of an hour'
	@echo 'make boot        the units, on a machine that systemd boots'
	@echo 'make day         three days in the life of the daemon, in minutes'
	@echo 'make fuzz-http   the same for what clients write in a request'
	@echo 'make fuzz-request  the same for whole connections to the server'
	@echo 'make abuse       the daemon misused for minutes, while it works'
	@echo 'make compilers   build with gcc and clang, warnings as errors'
	@echo 'make lint        layer check, clang-tidy, cppcheck'
	@echo 'make format      clang-format, in place'
	@echo 'make install     DESTDIR= PREFIX=/usr'
	@echo 'make clean       remove the build folder'
