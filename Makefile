# Lyeway. `make demo` and `make check` are all that a newcomer needs; DEVELOPERS.md explains the rest.

BUILD  ?= build
CONFIG ?= release
PREFIX ?= /usr/local
CC     ?= cc

OBJ := $(BUILD)/$(CONFIG)
GEN := $(BUILD)/generated

WARN := -Wall -Wextra -Wpedantic -Wconversion -Wshadow -Wswitch-enum -Wstrict-prototypes -Wmissing-prototypes -Werror
STD  := -std=c17 -D_POSIX_C_SOURCE=200809L

OPT_release  := -O2 -g
OPT_debug    := -O1 -g
OPT_sanitize := -O1 -g -fsanitize=address,undefined -fno-sanitize-recover=all -fno-omit-frame-pointer

# Contraction of a*b+c would let two compilers round differently; the figures are to be the same everywhere.
BASE_CFLAGS = $(STD) $(WARN) $(OPT_$(CONFIG)) -ffp-contract=off -Iinclude -Isrc -MMD -MP $(CFLAGS)

.DEFAULT_GOAL := all

# Layers, lowest first. Each is a static library; poison headers stand first on its include path (tests/poison/LAYER).
LAYERS := base facts calc store exchange work

layer_sources = $(wildcard src/$(1)/*.c)
layer_objects = $(patsubst src/%.c,$(OBJ)/src/%.o,$(call layer_sources,$(1)))

define layer_rules
$(OBJ)/lib$(1).a: $(call layer_objects,$(1)) $(if $(filter facts,$(1)),$(OBJ)/generated/facts.o)
	@rm -f $$@
	$$(AR) rcs $$@ $$^
endef
$(foreach layer,$(LAYERS),$(eval $(call layer_rules,$(layer))))

$(OBJ)/src/%.o: src/%.c
	@mkdir -p $(@D)
	$(CC) $(addprefix -I,$(wildcard tests/poison/$(firstword $(subst /, ,$*)))) $(BASE_CFLAGS) -c -o $@ $<

# Reference facts: rows of schema/reference become constant arrays.
FACTS_TSV := $(wildcard schema/reference/*.tsv)
FACTS_GENERATOR := $(wildcard src/facts/generate/*.c) src/facts/same_name.c
$(BUILD)/generate-facts: $(FACTS_GENERATOR) $(wildcard src/facts/generate/*.h src/facts/*.h) include/lyeway/facts.h
	@mkdir -p $(@D)
	$(CC) $(STD) $(WARN) -O1 -Iinclude -Isrc -o $@ $(FACTS_GENERATOR) -lm
$(GEN)/facts.c: $(BUILD)/generate-facts $(FACTS_TSV)
	@mkdir -p $(@D)
	$(BUILD)/generate-facts schema/reference > $@.new
	mv $@.new $@
$(OBJ)/generated/facts.o: $(GEN)/facts.c
	@mkdir -p $(@D)
	$(CC) $(BASE_CFLAGS) -c -o $@ $<

LIBS := $(foreach layer,work exchange store calc facts base,$(OBJ)/lib$(layer).a)

PROGRAM := $(OBJ)/lyeway
$(PROGRAM): $(call layer_objects,app) $(LIBS)
	$(CC) $(OPT_$(CONFIG)) -o $@ $^ -lcjson -lm

# Tests: tests/LAYER/test_NAME.c is one program of its own, linked with every library.
TEST_SOURCES := $(wildcard tests/*/test_*.c)
TESTS := $(patsubst tests/%.c,$(OBJ)/tests/%,$(TEST_SOURCES))
$(OBJ)/tests/%: tests/%.c $(LIBS)
	@mkdir -p $(@D)
	$(CC) $(BASE_CFLAGS) -Itests -MF $@.d -o $@ $< $(LIBS) -lcmocka -lcjson -lgsl -lgslcblas -lm

.PHONY: all tests check clean
all: $(PROGRAM)
	@cp $(PROGRAM) $(BUILD)/lyeway

tests: $(TESTS)
check: tests
	@for t in $(TESTS); do $$t || exit 1; done

clean:
	rm -rf $(BUILD)

-include $(shell find $(BUILD) -name '*.d' 2>/dev/null)
