/* files.h - sample files, and the few reference rows that the reader asks for. */
#ifndef TESTS_EXCHANGE_FILES_H
#define TESTS_EXCHANGE_FILES_H

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "exchange/recipe_file.h"

/* Rows enough for the sample files; figures do not matter to the reader. */
static const struct reference *small_reference(void)
{
    static const struct acid_fact acid[ACIDS] = {
        {.key = "c4_0"},  {.key = "c6_0"},  {.key = "c8_0"},  {.key = "c10_0"}, {.key = "c12_0"}, {.key = "c14_0"}, {.key = "c16_0"},
        {.key = "c16_1"}, {.key = "c17_0"}, {.key = "c18_0"}, {.key = "c18_1"}, {.key = "c18_2"}, {.key = "c18_3"}, {.key = "c20_0"},
        {.key = "c20_1"}, {.key = "c22_0"}, {.key = "c22_1"}, {.key = "c24_0"}, {.key = "ricinoleic"}};
    static const struct limit_fact limit[] = {
        {.key = "linalool", .name = "Linalool", .allergen = 0}, {.key = "citral", .name = "Citral", .has_ifra = true, .allergen = 1}};
    static const struct allergen_fact allergen[] = {{.key = "linalool", .inci = "Linalool"}, {.key = "citral", .inci = "Citral"}};
    static const struct practice practice = {.sap_own_half_range = 0.01};
    static const struct reference reference = {
        .acid = acid, .limit = limit, .limits = 2, .allergen = allergen, .allergens = 2, .practice = &practice};

    return &reference;
}

/* A whole file under tests/exchange/data/; to be freed. Ends the test program if it cannot be read. */
static char *sample_file(const char *name)
{
    char path[256];
    long size;
    char *text;
    FILE *file;

    snprintf(path, sizeof path, "tests/exchange/data/%s", name);
    file = fopen(path, "rb");
    if (file == NULL || fseek(file, 0, SEEK_END) != 0 || (size = ftell(file)) < 0 || (text = malloc((size_t)size + 1)) == NULL) {
        fprintf(stderr, "cannot read %s: run from the top folder\n", path);
        exit(1);
    }
    rewind(file);
    text[fread(text, 1, (size_t)size, file)] = '\0';
    fclose(file);
    return text;
}

/* `text` with the one place where `from` stands replaced by `to`; to be freed. NULL if it does not stand there exactly once. */
static char *changed(const char *text, const char *from, const char *to)
{
    const char *at = strstr(text, from);
    size_t size;
    char *out;

    if (at == NULL || strstr(at + 1, from) != NULL)
        return NULL;
    size = strlen(text) - strlen(from) + strlen(to) + 1;
    out = malloc(size);
    if (out != NULL)
        snprintf(out, size, "%.*s%s%s", (int)(at - text), text, to, at + strlen(from));
    return out;
}

static enum lw_status read_text_as_file(const char *text, size_t n, struct recipe_file **file, struct lw_error *error)
{
    const struct recipe_file_names names = {small_reference()};

    return recipe_file_read(text, n, "test.json", &names, file, error);
}

#endif
