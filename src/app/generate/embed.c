/* embed.c - runs while building: writes a file as a C function that returns its bytes.
 *
 *   embed HEADER FUNCTION < file > generated.c
 *
 * Numbers and not a string, since C guarantees no more than 4095 characters of a string literal. */
#include <stdio.h>

enum { BYTES_A_LINE = 24 };

int main(int argc, char *argv[])
{
    size_t n = 0;

    if (argc != 3) {
        fprintf(stderr, "usage: embed HEADER FUNCTION < file\n");
        return 2;
    }
    printf("/* Generated; do not edit. */\n#include \"%s\"\n\nstatic const char bytes[] = {", argv[1]);
    for (int c = getchar(); c != EOF; c = getchar(), n++)
        printf("%s%d,", n % BYTES_A_LINE == 0 ? "\n    " : " ", c < 128 ? c : c - 256);
    printf("\n    0};\n\nconst char *%s(size_t *n)\n{\n    *n = sizeof bytes - 1;\n    return bytes;\n}\n", argv[2]);
    return ferror(stdin) || fflush(stdout) != 0 ? 1 : 0;
}
