/* validator.h - asks a JSON Schema validator that is not ours (python3-jsonschema, through validate.py) about texts. */
#ifndef TESTS_EXCHANGE_VALIDATOR_H
#define TESTS_EXCHANGE_VALIDATOR_H

#include <stddef.h>

struct validator_text {
    const char *text;
    size_t n;
    int accepted; /* out */
    char why[128];
};

/* Holds each text against the part `definition` of schema/exchange.schema.json. 0, or -1 with a line on standard error
 * if the validator cannot be run or does not answer for every text. */
int validator_ask(const char *definition, struct validator_text *texts, size_t n);

#endif
