#include "facts/find.h"

/* The case is folded by hand: toupper would follow the locale. */
static char folded(char c)
{
    if (c >= 'A' && c <= 'Z')
        return (char)(c - 'A' + 'a');
    return c == ' ' || c == '_' ? '-' : c;
}

bool fact_same_name(const char *a, const char *b)
{
    while (*a && folded(*a) == folded(*b)) {
        a++;
        b++;
    }
    return folded(*a) == folded(*b);
}
