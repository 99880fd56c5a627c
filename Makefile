# Lyeway. `make demo` and `make check` are all that a newcomer needs; DEVELOPERS.md explains the rest.

BUILD   ?= build
CONFIG  ?= release
PREFIX  ?= /usr/local
DESTDIR ?=
PYTHON  ?= python3

OBJ     := $(BUILD)/$(CONFIG)
GEN     := $(BUILD)/generated
TOOLS   := $(BUILD)/tools
RESULTS := $(BUILD)/results

.DEFAULT_GOAL := all
.DELETE_ON_ERROR:
.SUFFIXES:

comma := ,

# `make V=1` shows whole commands.
Q := $(if $(V),,@)
say = $(if $(V),,@echo "  $(1)")

# ---- Flags ----------------------------------------------------------------------------------------------------------

WARN := -Wall -Wextra -Wpedantic -Wconversion -Wshadow -Wswitch-enum -Wstrict-prototypes -Wmissing-prototypes -Werror
STD  := -std=c17 -D_POSIX_C_SOURCE=200809L

SANITIZE := -fsanitize=address,undefined -fno-sanitize-recover=all -fno-omit-frame-pointer

OPT_release  := -O2 -g
OPT_debug    := -O1 -g
# The manual of gcc warns that its sanitizers make this warning a false one; the other configurations have it.
OPT_sanitize := -O1 -g $(SANITIZE) -Wno-maybe-uninitialized
OPT_clang    := -O1 -g
OPT_fuzz     := -O1 -g -fsanitize=fuzzer-no-link $(SANITIZE)
OPT_planted  := -O0

ifneq ($(filter clang fuzz,$(CONFIG)),)
CC := clang
endif

# Contraction of a*b+c would let two compilers round differently; the figures are to be the same everywhere.
FLAGS = $(STD) $(WARN) $(OPT_$(CONFIG)) -ffp-contract=off -Iinclude -Isrc -MMD -MP $(CFLAGS)
LINK  = $(CC) $(OPT_$(CONFIG)) -Wl,--as-needed $(CFLAGS) $(LDFLAGS)

# $(call stamp,FILE,TEXT): a file that changes only when its text does, so that what was made with other flags or from other
# sources is made again.
define stamp
$(1): FORCE
	@mkdir -p $$(@D)
	@echo '$(2)' | cmp -s - $$@ || echo '$(2)' > $$@
endef
$(eval $(call stamp,$(OBJ)/flags,$(CC) $(FLAGS) $(LDFLAGS)))

# ---- Layers ---------------------------------------------------------------------------------------------------------

# Lowest first. Each is a static library from src/LAYER; `app` on top becomes the program.
LAYERS := base facts calc store exchange work kit screens

DIR_kit     := ui/kit
DIR_screens := ui/screens

# What a layer links from outside.
OUTSIDE_calc     := -lm
OUTSIDE_store    := -lsqlite3
OUTSIDE_exchange := -lcjson
OUTSIDE_kit      := -lncursesw

# Headers that a layer must not see: the folders of tests/poison that stand first on its include path.
POISON_base     := curses sqlite3 cjson clock locale
POISON_facts    := curses sqlite3 cjson clock locale files memory
POISON_calc     := curses sqlite3 cjson clock locale files memory
POISON_store    := curses cjson clock locale
POISON_exchange := curses sqlite3 clock locale
POISON_work     := curses sqlite3 cjson clock locale
POISON_kit      := sqlite3 cjson
POISON_screens  := curses sqlite3 cjson clock locale
POISON_app      := curses sqlite3 cjson

layer_dir     = $(or $(DIR_$(1)),$(1))
layer_sources = $(filter-out src/%/generate/,$(wildcard src/$(layer_dir)/*.c $(if $(filter screens,$(1)),src/$(layer_dir)/*/*.c)))
layer_objects = $(patsubst src/%.c,$(OBJ)/src/%.o,$(layer_sources)) $(patsubst %,$(OBJ)/generated/%.o,$(GENERATED_$(1)))

# Sources that are made while building, if their generator is there: src/LAYER/generate.
GENERATED_facts := $(if $(wildcard src/facts/generate/*.c),facts)
GENERATED_app   := $(if $(wildcard src/app/generate/*.c),demo_store)
GENERATED_store := $(if $(wildcard src/store/generate/*.c),migrations)

define layer_rules
$(OBJ)/src/$(layer_dir)/%.o: src/$(layer_dir)/%.c $(OBJ)/flags
	$$(call say,CC      $$@)
	@mkdir -p $$(@D)
	$(Q)$$(CC) $(addprefix -Itests/poison/,$(POISON_$(1))) $$(FLAGS) -c -o $$@ $$<
endef

define library_rules
$(OBJ)/lib$(1).a: $(layer_objects) $(OBJ)/lib$(1).members
	$$(call say,AR      $$@)
	@rm -f $$@
	$(Q)$$(AR) rcs $$@ $$(filter %.o,$$^)
$(call stamp,$(OBJ)/lib$(1).members,$(layer_objects))
endef

$(foreach 1,$(LAYERS) app,$(eval $(call layer_rules,$(1))))
$(foreach 1,$(LAYERS),$(eval $(call library_rules,$(1))))

# Highest first, as the linker wants them.
LIBS    := $(foreach layer,screens kit work exchange store calc facts base,$(OBJ)/lib$(layer).a)
OUTSIDE := $(foreach layer,kit exchange store calc,$(OUTSIDE_$(layer)))
PROGRAM := $(if $(wildcard src/app/*.c),$(OBJ)/lyeway)

# The program carries its SQLite and ncurses with it where there are archives of them: to bind shared ones takes a good part of a
# start. `make PROGRAM_SQLITE=-lsqlite3 PROGRAM_NCURSES=-lncursesw` binds the system's.
carried = $(if $(filter /%,$(shell $(CC) -print-file-name=lib$(1).a)),-Wl$(comma)-Bstatic $(2) -Wl$(comma)-Bdynamic,-l$(1))
PROGRAM_SQLITE  ?= $(call carried,sqlite3,-lsqlite3)
PROGRAM_NCURSES ?= $(call carried,ncursesw,-lncursesw -ltinfo)

$(OBJ)/lyeway: $(call layer_objects,app) $(LIBS)
	$(call say,LINK    $@)
	$(Q)$(LINK) -o $@ $^ $(PROGRAM_NCURSES) $(OUTSIDE_exchange) $(PROGRAM_SQLITE) $(OUTSIDE_calc)

# ---- Generated sources ----------------------------------------------------------------------------------------------

# What a generator shares with the layer that it works for.
SHARED_facts := src/facts/same_name.c src/facts/find.h src/facts/tables.h include/lyeway/facts.h

define generator_rules
$(TOOLS)/$(1): $(wildcard src/$(1)/generate/*.c src/$(1)/generate/*.h) $(SHARED_$(1))
	$$(call say,TOOL    $$@)
	@mkdir -p $$(@D)
	$(Q)$$(CC) $(STD) $(WARN) -O1 -Isrc -Iinclude -o $$@ $$(filter %.c,$$^) -lm
endef
$(foreach layer,facts store,$(eval $(call generator_rules,$(layer))))

# The reference facts as constant arrays.
$(GEN)/facts.c: $(TOOLS)/facts $(wildcard schema/reference/*.tsv)
	$(call say,GEN     $@)
	@mkdir -p $(@D)
	$(Q)$< schema/reference > $@

# The steps from one version of the store to the next.
MIGRATIONS := $(sort $(wildcard schema/[0-9]*.sql))
$(eval $(call stamp,$(GEN)/migrations.list,$(MIGRATIONS)))
$(GEN)/migrations.c: $(TOOLS)/store $(MIGRATIONS) $(GEN)/migrations.list
	$(call say,GEN     $@)
	$(Q)$< $(MIGRATIONS) > $@

# The demo scenario, so that it is there wherever the program is: a store that it was brought into and worked through in by the
# libraries of this configuration.
$(TOOLS)/embed: src/app/generate/embed.c
	$(call say,TOOL    $@)
	@mkdir -p $(@D)
	$(Q)$(CC) $(STD) $(WARN) -O1 -o $@ $<

HISTORY := sample-data/recipes.json sample-data/earlier.json sample-data/history.tsv
READY := ready history maker piper after
$(OBJ)/ready: $(READY:%=$(OBJ)/src/app/generate/%.o) $(OBJ)/src/app/files.o $(LIBS)
	$(call say,TOOL    $@)
	$(Q)$(LINK) -o $@ $^ $(OUTSIDE)
$(OBJ)/generated/demo.db: $(OBJ)/ready $(HISTORY)
	$(call say,GEN     $@)
	@mkdir -p $(@D) && rm -f $@
	$(Q)$< $@ $(HISTORY)
$(OBJ)/generated/demo_store.c: $(TOOLS)/embed $(OBJ)/generated/demo.db
	$(call say,GEN     $@)
	$(Q)$< app/demo.h demo_store < $(OBJ)/generated/demo.db > $@
$(OBJ)/generated/demo_store.o: $(OBJ)/generated/demo_store.c $(OBJ)/flags
	$(call say,CC      $@)
	$(Q)$(CC) $(FLAGS) -c -o $@ $<

$(OBJ)/generated/%.o: $(GEN)/%.c $(OBJ)/flags
	$(call say,CC      $@)
	@mkdir -p $(@D)
	$(Q)$(CC) $(FLAGS) -c -o $@ $<

generated: $(patsubst %,$(GEN)/%.c,$(GENERATED_facts) $(GENERATED_store))

# ---- Tests ----------------------------------------------------------------------------------------------------------

# tests/LAYER/test_NAME.c is a program of its own, linked with every library and with the other sources of its folder.
# tests/LAYER/probe_NAME.c is a program that tests run.
TEST_DIRS := $(filter-out bench fuzz gates link poison support,$(notdir $(patsubst %/,%,$(wildcard tests/*/))))

TEST_OUTSIDE          := -lcmocka -lgsl -lgslcblas -lm
TEST_OUTSIDE_terminal := -lvterm -lutil
# Tests of faults let allocations of ours fail.
WRAP_MEMORY           := $(addprefix -Wl$(comma)--wrap=,malloc calloc realloc)
TEST_LINK_fault       := $(WRAP_MEMORY)

test_objects = $(patsubst %.c,$(OBJ)/%.o,$(1))
programs     = $(patsubst %.c,$(OBJ)/%,$(wildcard tests/$(1)/test_*.c tests/$(1)/probe*.c))
helpers      = $(call test_objects,$(filter-out $(foreach kind,test probe bench,tests/$(1)/$(kind)_%) tests/$(1)/probe%,$(wildcard tests/$(1)/*.c)))

TESTS  := $(patsubst %.c,$(OBJ)/%,$(wildcard $(addsuffix /test_*.c,$(addprefix tests/,$(TEST_DIRS)))))
PROBES := $(patsubst %.c,$(OBJ)/%,$(wildcard $(addsuffix /probe*.c,$(addprefix tests/,$(TEST_DIRS)))))

$(OBJ)/tests/%.o: tests/%.c $(OBJ)/flags
	$(call say,CC      $@)
	@mkdir -p $(@D)
	$(Q)$(CC) $(FLAGS) -Itests -c -o $@ $<

# What tests share; only what a test uses is linked into it, so that a test can do without the libraries.
SHARED_BY_TESTS := $(filter-out %/locale.o,$(call helpers,support))
$(OBJ)/tests/libshared.a: $(SHARED_BY_TESTS)
	@rm -f $@
	$(Q)$(AR) rcs $@ $^

define test_rules
$(if $(call programs,$(1)),$(call programs,$(1)): %: %.o $(call helpers,$(1)) $(OBJ)/tests/support/locale.o $(OBJ)/tests/libshared.a $(LIBS)
	$$(call say,LINK    $$@)
	$(Q)$$(LINK) $(TEST_LINK_$(1)) -o $$@ $$^ $(TEST_OUTSIDE_$(1)) $(TEST_OUTSIDE) $(OUTSIDE))
endef
$(foreach dir,$(TEST_DIRS),$(eval $(call test_rules,$(dir))))

libs: $(LIBS) $(PROGRAM)
tests: $(TESTS) $(PROBES) $(PROGRAM)

# One program: make test NAME=calc/test_lye
test:
	@$(MAKE) --no-print-directory CONFIG=$(if $(filter file,$(origin CONFIG)),debug,$(CONFIG)) test-$(NAME)
$(TESTS:$(OBJ)/tests/%=test-%): test-%: $(OBJ)/tests/% $(PROBES) $(PROGRAM)
	env $(TEST_ENV) $<

# ---- make check -----------------------------------------------------------------------------------------------------

# Each run of a program or gate leaves its counts in one file under build/results; the total is made of them. What could not
# be built has no file, and counts as failed.

# A run of all tests of one configuration: VARIANT names it, RUN_ENV is its environment.
VARIANT ?= $(CONFIG)
RUN_DIRS ?= $(TEST_DIRS)
export PYTHONDONTWRITEBYTECODE := 1
RUN_ENV ?= LC_ALL=C.UTF-8
RUNS = $(patsubst $(OBJ)/tests/%,$(RESULTS)/$(VARIANT)/%,$(filter $(foreach dir,$(RUN_DIRS),$(OBJ)/tests/$(dir)/%),$(TESTS)))

# Nobody's own records are ever touched.
TEST_ENV = TZ=UTC HOME=$(abspath $(BUILD))/nobody XDG_DATA_HOME= LYEWAY_DB= NO_COLOR= LYEWAY_OBJ=$(OBJ) LYEWAY=$(OBJ)/lyeway LYEWAY_PROBE=$(OBJ)/tests/terminal/probe PYTHON=$(PYTHON)

$(RUNS): $(RESULTS)/$(VARIANT)/%: $(OBJ)/tests/% FORCE
	@env $(RUN_ENV) $(TEST_ENV) tests/support/run tap $@ $<
$(filter $(foreach dir,app terminal fault,$(RESULTS)/$(VARIANT)/$(dir)/%),$(RUNS)): $(PROBES) $(PROGRAM)
run: $(RUNS)

# The program against a second implementation.
ORACLES := $(if $(PROGRAM),$(patsubst tests/%.py,%,$(wildcard tests/oracle/check_*.py)))
$(ORACLES:%=$(RESULTS)/$(VARIANT)/%): $(RESULTS)/$(VARIANT)/%: tests/%.py $(PROGRAM) FORCE
	@env $(RUN_ENV) $(TEST_ENV) tests/support/run counts $@ $(PYTHON) $<
oracles: $(ORACLES:%=$(RESULTS)/$(VARIANT)/%)

# Numbers must not change under a locale with a decimal comma.
COMMA_DIRS := base calc exchange work
COMMA := $(BUILD)/locale/de_DE.UTF-8/LC_NUMERIC
$(COMMA):
	$(call say,LOCALE  $(@D))
	@mkdir -p $(BUILD)/locale
	$(Q)localedef -i de_DE -f UTF-8 $(abspath $(@D))

GATES := banned headers includes link shape symbols
$(RESULTS)/gate/%: export FLAGS := $(STD) $(WARN)
$(GATES:%=$(RESULTS)/gate/%): $(RESULTS)/gate/%: FORCE
	@tests/support/run status $@ tests/gates/$* . $(BUILD)/debug
# A gate that cannot fail is none: faults are planted in a copy, and each gate has to find its own.
$(RESULTS)/gate/planted: FORCE
	@tests/support/run tap $@ tests/gates/planted $(BUILD)/planted

SUBMAKE = +@$(MAKE) --no-print-directory -k
check-debug: generated $(COMMA)
	$(SUBMAKE) CONFIG=debug libs run oracles || true
	$(SUBMAKE) CONFIG=debug VARIANT=comma RUN_DIRS="$(COMMA_DIRS)" \
	    RUN_ENV="LC_ALL=de_DE.UTF-8 LOCPATH=$(abspath $(BUILD)/locale) LYEWAY_DECIMAL_POINT=," run || true
	$(SUBMAKE) $(GATES:%=$(RESULTS)/gate/%) || true
check-sanitize: generated
	$(SUBMAKE) CONFIG=sanitize run || true
check-clang: generated
	+@tests/support/run status $(RESULTS)/gate/clang $(MAKE) --no-print-directory CONFIG=clang libs
check-planted: generated $(COMMA)
	$(SUBMAKE) $(RESULTS)/gate/planted || true
check-fuzz: generated
	+@tests/support/run status $(RESULTS)/gate/fuzz $(MAKE) --no-print-directory fuzz FUZZ_LIMIT=-runs=2000
check-all: check-debug check-sanitize check-clang check-planted $(if $(wildcard tests/fuzz/fuzz_*.c),check-fuzz)

EXPECTED = $(ORACLES:%=debug/%) $(foreach variant,debug sanitize,$(TESTS:$(OBJ)/tests/%=$(variant)/%)) \
    $(patsubst $(OBJ)/tests/%,comma/%,$(filter $(foreach dir,$(COMMA_DIRS),$(OBJ)/tests/$(dir)/%),$(TESTS))) \
    $(addprefix gate/,$(GATES) clang planted $(if $(wildcard tests/fuzz/fuzz_*.c),fuzz))

check: deps-check
	@rm -rf $(RESULTS)
	+@$(MAKE) --no-print-directory -k check-all || true
	@tests/support/total $(RESULTS) $(EXPECTED)

# ---- make demo and others -------------------------------------------------------------------------------------------

all: $(PROGRAM)
ifneq ($(PROGRAM),)
	@cmp -s $(PROGRAM) $(BUILD)/lyeway || cp $(PROGRAM) $(BUILD)/lyeway
endif

# The workbench on demo records that are kept, or without a terminal the plan sheets of the demo's recipes.
demo: deps-build
	+@$(MAKE) --no-print-directory all
	@if [ -t 0 ] && [ -t 1 ]; then $(BUILD)/lyeway --demo --db $(BUILD)/demo.db; else $(BUILD)/lyeway --demo plan; fi

# Every screen of the demo as plain text, at the sizes and by the keys that tests/terminal/test_screens.c has.
SCREENS := $(BUILD)/screens
screens: deps-check
	+@$(MAKE) --no-print-directory show-screens
show-screens: $(OBJ)/tests/terminal/test_screens $(PROGRAM)
	@rm -rf $(SCREENS) && mkdir -p $(SCREENS)
	@env $(TEST_ENV) LYEWAY_SCREENS=$(SCREENS) $< > $(OBJ)/screens.log 2>&1 || { cat $(OBJ)/screens.log; exit 1; }
	@echo "$$(ls $(SCREENS) | wc -l) screens are in $(SCREENS)"

# Random input for readers of text from outside: each harness runs FUZZ_LIMIT, from the texts of tests/fuzz/NAME if there are.
FUZZ_LIMIT ?= -max_total_time=60
FUZZERS := $(patsubst tests/fuzz/%.c,$(BUILD)/fuzz/tests/fuzz/%,$(wildcard tests/fuzz/fuzz_*.c))
$(FUZZERS): $(BUILD)/fuzz/tests/fuzz/%: $(BUILD)/fuzz/tests/fuzz/%.o $(LIBS)
	$(call say,LINK    $@)
	$(Q)$(LINK) -fsanitize=fuzzer -o $@ $^ $(OUTSIDE)
fuzzers: $(FUZZERS)
fuzz:
	+@$(MAKE) --no-print-directory CONFIG=fuzz fuzzers
	@tests/support/fuzz "$(FUZZ_LIMIT)" $(FUZZERS)

# The long versions of the tests in tests/fault: TORTURE rounds of each kill, and a failure at every single point. Minutes.
TORTURE ?= 200
FAULTS := $(filter $(OBJ)/tests/fault/%,$(TESTS))
torture: deps-check
	+@$(MAKE) --no-print-directory run-torture
run-torture: $(FAULTS) $(PROGRAM)
	@for t in $(FAULTS); do env $(TEST_ENV) LYEWAY_TORTURE=$(TORTURE) $$t || exit 1; done

# Ratios to floors that are measured in the same run. Allocations of ours are counted by wrapping them.
BENCHES := $(patsubst tests/bench/%.c,$(OBJ)/tests/bench/%,$(wildcard tests/bench/bench_*.c))
$(BENCHES): %: %.o $(call helpers,bench) $(OBJ)/tests/terminal/driver.o $(OBJ)/tests/libshared.a $(LIBS)
	$(call say,LINK    $@)
	$(Q)$(LINK) $(WRAP_MEMORY) -Wl,--wrap=free -o $@ $^ $(TEST_OUTSIDE_terminal) $(OUTSIDE)

# The least that a full-screen program does, with no more libraries than it needs.
FLOORS := $(patsubst tests/bench/%.c,$(OBJ)/tests/bench/%,$(wildcard tests/bench/probe_*.c))
$(FLOORS): %: %.o $(OBJ)/tests/bench/mini.o
	$(call say,LINK    $@)
	$(Q)$(LINK) -o $@ $^ $(OUTSIDE_kit) $(OUTSIDE_store)
bench: $(BENCHES) $(FLOORS) $(PROGRAM)
	@for b in $(BENCHES); do env $(TEST_ENV) $$b || exit 1; done

deps: deps-build deps-check
deps-build deps-check deps-lint:
	@PYTHON=$(PYTHON) .ci/deps $(@:deps-%=%)

SOURCES := $(wildcard src/*/*.c src/*/generate/*.c src/ui/*/*.c src/ui/*/*/*.c)
# Not the model's headers, which are aligned by hand as tables.
FORMATTED = $(SOURCES) $(wildcard src/*/*.h src/*/generate/*.h src/ui/*/*.h src/ui/*/*/*.h tests/*/*.c tests/*/*.h)
lint: deps-lint
	clang-format --dry-run -Werror $(FORMATTED)
	clang-tidy --quiet $(SOURCES) -- $(STD) -Iinclude -Isrc
	cppcheck --quiet --error-exitcode=1 --std=c11 --enable=warning,performance,portability --inline-suppr \
	    --suppress=missingIncludeSystem -Iinclude -Isrc $(SOURCES)
format: deps-lint
	clang-format -i $(FORMATTED)

install: all
	install -d $(DESTDIR)$(PREFIX)/bin
	install -m 755 $(BUILD)/lyeway $(DESTDIR)$(PREFIX)/bin/lyeway
	install -d $(DESTDIR)$(PREFIX)/share/lyeway
	install -m 644 schema/reading.sql $(DESTDIR)$(PREFIX)/share/lyeway/reading.sql
uninstall:
	rm -f $(DESTDIR)$(PREFIX)/bin/lyeway $(DESTDIR)$(PREFIX)/share/lyeway/reading.sql

clean:
	rm -rf $(BUILD)

FORCE:
.PHONY: FORCE all generated libs tests test run oracles check check-all check-debug check-sanitize check-clang check-planted check-fuzz \
    demo screens show-screens torture run-torture fuzz fuzzers bench deps deps-build deps-check deps-lint lint format install uninstall clean

-include $(patsubst %.o,%.d,$(foreach layer,$(LAYERS) app,$(call layer_objects,$(layer))) \
    $(READY:%=$(OBJ)/src/app/generate/%.d) $(addsuffix .o,$(TESTS) $(PROBES) $(BENCHES) $(FLOORS) $(FUZZERS)) $(foreach dir,$(TEST_DIRS) bench support,$(call helpers,$(dir))))
