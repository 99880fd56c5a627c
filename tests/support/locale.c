/* locale.c - every test program runs under the locale of its environment, as the program itself does.
 *
 * Linked into each, so that no test has to remember it. Where the run says which decimal point it counts on, a locale that is
 * missing ends it: a run under "C" would prove nothing.
 */
#include <locale.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

__attribute__((constructor)) static void take_locale(void)
{
    const char *point = getenv("LYEWAY_DECIMAL_POINT");

    if (setlocale(LC_ALL, "") && (!point || strcmp(localeconv()->decimal_point, point) == 0))
        return;
    fprintf(stderr, "The locale that this run asks for is not there.\n");
    exit(3);
}
