#include "files.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

char *sample_file(const char *name)
{
    char path[256];
    long size;
    char *text;
    FILE *file;

    snprintf(path, sizeof path, "tests/exchange/data/%s", name);
    file = fopen(path, "rb");
    if (file == NULL || fseek(file, 0, SEEK_END) != 0 || (size = ftell(file)) < 0 ||
        (text = malloc((size_t)size + 1)) == NULL) {
        fprintf(stderr, "cannot read %s: run from the top folder\n", path);
        exit(1);
    }
    rewind(file);
    text[fread(text, 1, (size_t)size, file)] = '\0';
    fclose(file);
    return text;
}

char *changed(const char *text, const char *from, const char *to)
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

enum lw_status read_text_as_file(const char *text, size_t n, struct recipe_file **file, struct lw_error *error)
{
    const struct recipe_file_names names = {facts_reference()};

    return recipe_file_read(text, n, "test.json", &names, file, error);
}
