/* migrations.c - runs while building: writes SQL files, in the order given, as one C array.
 *
 *   migrations schema/001.sql schema/002.sql ... > generated.c
 *
 * Numbers and not strings, since C guarantees no more than 4095 characters of a string literal. */
#include <stdbool.h>
#include <stdio.h>

enum { BYTES_A_LINE = 24 };

static bool write_bytes(const char *name, int number)
{
    FILE *file = fopen(name, "rb");
    size_t n = 0;

    if (!file) {
        perror(name);
        return false;
    }
    printf("static const char sql_%d[] = {", number);
    for (int c = getc(file); c != EOF; c = getc(file), n++)
        printf("%s%d,", n % BYTES_A_LINE == 0 ? "\n    " : " ", c < 128 ? c : c - 256);
    puts("\n    0};\n");

    bool good = !ferror(file);

    fclose(file);
    return good;
}

/* Files are named by their number, so that one that is missing or stands in the wrong place is seen. */
static bool numbered(const char *name, int number)
{
    const char *base = name;
    int found = 0;

    for (const char *c = name; *c; c++)
        if (*c == '/')
            base = c + 1;
    for (; *base >= '0' && *base <= '9'; base++)
        found = 10 * found + (*base - '0');
    if (found == number)
        return true;
    fprintf(stderr, "%s: migration %d was to be here\n", name, number);
    return false;
}

int main(int argc, char *argv[])
{
    puts("/* Generated; do not edit. */\n#include \"store/migrate.h\"\n");
    for (int i = 1; i < argc; i++)
        if (!numbered(argv[i], i) || !write_bytes(argv[i], i))
            return 1;
    puts("static const char *const sql[] = {");
    for (int i = 1; i < argc; i++)
        printf("    sql_%d,\n", i);
    puts("};\n\nstruct migrations migrations_all(void)\n{");
    puts("    return (struct migrations){sql, sizeof sql / sizeof sql[0]};\n}");
    return ferror(stdout) || fflush(stdout) != 0 ? 1 : 0;
}
