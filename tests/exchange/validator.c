#include "validator.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

static void put_hex(FILE *file, const struct validator_text *text)
{
    for (size_t i = 0; i < text->n; i++)
        fprintf(file, "%02x", (unsigned)(unsigned char)text->text[i]);
    fputc('\n', file);
}

static int get_answers(const char *command, struct validator_text *texts, size_t n)
{
    char line[128];
    size_t got = 0;
    FILE *answers = popen(command, "r");

    while (answers != NULL && got < n && fgets(line, sizeof line, answers) != NULL) {
        line[strcspn(line, "\n")] = '\0';
        texts[got].accepted = strcmp(line, "accept") == 0;
        snprintf(texts[got].why, sizeof texts[got].why, "%s", line);
        got++;
    }
    if (answers == NULL || pclose(answers) != 0 || got < n) {
        fprintf(stderr, "%s: %zu answers of %zu\n", command, got, n);
        return -1;
    }
    return 0;
}

int validator_ask(const char *definition, struct validator_text *texts, size_t n)
{
    char path[] = "/tmp/lyeway-texts-XXXXXX", command[512];
    const char *python = getenv("PYTHON");
    int descriptor = mkstemp(path), result;
    FILE *file = descriptor < 0 ? NULL : fdopen(descriptor, "w");

    if (file == NULL) {
        perror(path);
        return -1;
    }
    for (size_t i = 0; i < n; i++)
        put_hex(file, &texts[i]);
    fclose(file);
    snprintf(command, sizeof command, "%s tests/exchange/validate.py schema/exchange.schema.json '%s' < %s",
             python == NULL ? "/usr/bin/python3" : python, definition, path);
    result = get_answers(command, texts, n);
    unlink(path);
    return result;
}
