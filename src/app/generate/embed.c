/* embed.c - runs while building: writes a file as a C function that returns its bytes, with at least one NUL behind.
 *
 *   embed HEADER FUNCTION < file > generated.c
 *
 * Numbers and not a string, since C guarantees no more than 4095 characters of a string literal; of eight bytes each, in this
 * machine's order, since a compiler's time goes by how many there are. */
#include <inttypes.h>
#include <stdint.h>
#include <stdio.h>

enum { NUMBERS_A_LINE = 6 };

static size_t write_numbers(FILE *in)
{
    size_t n = 0, read;

    do {
        uint64_t number = 0;

        printf("%s", n % (NUMBERS_A_LINE * sizeof number) == 0 ? "\n    " : " ");
        read = fread(&number, 1, sizeof number, in);
        n += read;
        printf("0x%" PRIx64 ",", number);
    } while (read == sizeof(uint64_t));
    return n;
}

int main(int argc, char *argv[])
{
    if (argc != 3) {
        fprintf(stderr, "usage: embed HEADER FUNCTION < file\n");
        return 2;
    }
    printf("/* Generated; do not edit. */\n#include <stdint.h>\n\n#include \"%s\"\n\n", argv[1]);
    printf("static const uint64_t numbers[] = {");

    size_t n = write_numbers(stdin);

    printf("};\n\nconst char *%s(size_t *n)\n{\n    *n = %zu;\n    return (const char *)numbers;\n}\n", argv[2], n);
    return ferror(stdin) || fflush(stdout) != 0 ? 1 : 0;
}
