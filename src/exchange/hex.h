/* hex.h - the value of one hexadecimal digit. */
#ifndef EXCHANGE_HEX_H
#define EXCHANGE_HEX_H

/* 0 to 15, -1 if c is not a hexadecimal digit. */
static inline int hex_digit(char c)
{
    if (c >= '0' && c <= '9')
        return c - '0';
    if (c >= 'a' && c <= 'f')
        return c - 'a' + 10;
    return c >= 'A' && c <= 'F' ? c - 'A' + 10 : -1;
}

#endif
