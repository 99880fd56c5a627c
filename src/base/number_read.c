/* number_read.c - a JSON number to the nearest double (ties to even), whatever the locale.
 *
 * Few digits and a small power of ten are exact in one division or multiplication. Else a double near the value is taken and
 * moved until the value lies between the midpoints on both sides of it; each comparison is one of whole numbers and exact
 * (Clinger, "How to read floating point numbers accurately", PLDI 1990).
 */
#include <float.h>
#include <math.h>
#include <string.h>

#include "base/number.h"

/* No midpoint between doubles has more than 767 significant digits; what follows decides only whether it is above. */
enum { DIGITS = 800, FAST_DIGITS = 15, FAST_POWER = 22, HEAD_DIGITS = 19, EXPONENT_MOST = 100000000 };

/* 2^4096 holds 800 digits times 2^1075, and 2^54 times 10^1143. */
enum { BIG_WORDS = 132 };

_Static_assert(DBL_MANT_DIG == 53 && DBL_MAX_EXP == 1024, "doubles are IEEE 754 binary64");

static const double power_of_ten[FAST_POWER + 1] = {1e0,  1e1,  1e2,  1e3,  1e4,  1e5,  1e6,  1e7,
                                                    1e8,  1e9,  1e10, 1e11, 1e12, 1e13, 1e14, 1e15,
                                                    1e16, 1e17, 1e18, 1e19, 1e20, 1e21, 1e22};

/* digit[0].digit[1]... without a point, times 10^exponent; no leading zeros; no digits: zero. */
struct decimal {
    bool negative;
    int digits;
    long exponent;
    unsigned char digit[DIGITS + 1];
};

/* What is still to be read. */
struct input {
    const char *at, *end;
};

static bool is_digit(const struct input *in)
{
    return in->at < in->end && *in->at >= '0' && *in->at <= '9';
}

static bool take(struct input *in, char c)
{
    if (in->at == in->end || *in->at != c)
        return false;
    in->at++;
    return true;
}

static void add_digit(struct decimal *d, unsigned char digit, bool fraction)
{
    bool leading = d->digits == 0 && digit == 0;

    if (d->digits < DIGITS) {
        if (!leading)
            d->digit[d->digits++] = digit;
        d->exponent -= fraction;
        return;
    }
    if (digit != 0)
        d->digit[DIGITS] = 1;
    d->exponent += !fraction;
}

static bool read_digits(struct input *in, struct decimal *d, bool fraction)
{
    if (!is_digit(in))
        return false;
    for (; is_digit(in); in->at++)
        add_digit(d, (unsigned char)(*in->at - '0'), fraction);
    return true;
}

static bool read_exponent(struct input *in, struct decimal *d)
{
    bool negative = take(in, '-');
    long value = 0;

    if (!negative)
        take(in, '+');
    if (!is_digit(in))
        return false;
    for (; is_digit(in); in->at++) {
        if (value < EXPONENT_MOST)
            value = value * 10 + (*in->at - '0');
    }
    d->exponent += negative ? -value : value;
    return true;
}

/* number = [ "-" ] int [ "." 1*DIGIT ] [ ("e" / "E") [ "+" / "-" ] 1*DIGIT ], int without leading zeros (RFC 8259, 6). */
static bool read_decimal(const char *s, size_t n, struct decimal *d)
{
    struct input in = {s, s + n};

    *d = (struct decimal){.negative = take(&in, '-')};
    if (!take(&in, '0') && !read_digits(&in, d, false))
        return false;
    if (take(&in, '.') && !read_digits(&in, d, true))
        return false;
    if ((take(&in, 'e') || take(&in, 'E')) && !read_exponent(&in, d))
        return false;
    if (d->digit[DIGITS] != 0) {
        d->digits++;
        d->exponent--;
    }
    return in.at == in.end;
}

/* A whole number, least significant word first. */
struct big {
    int words;
    uint32_t word[BIG_WORDS];
};

static void big_multiply_add(struct big *big, uint32_t factor, uint32_t add)
{
    uint64_t carry = add;

    for (int i = 0; i < big->words; i++) {
        carry += (uint64_t)big->word[i] * factor;
        big->word[i] = (uint32_t)carry;
        carry >>= 32;
    }
    if (carry != 0)
        big->word[big->words++] = (uint32_t)carry;
}

static void big_times_ten_to(struct big *big, long power)
{
    static const uint32_t small[] = {1, 10, 100, 1000, 10000, 100000, 1000000, 10000000, 100000000};

    for (; power >= 9; power -= 9)
        big_multiply_add(big, 1000000000, 0);
    big_multiply_add(big, small[power], 0);
}

static void big_times_two_to(struct big *big, int power)
{
    int whole = power / 32;

    if (big->words == 0)
        return;
    if (whole > 0) {
        memmove(big->word + whole, big->word, (size_t)big->words * sizeof big->word[0]);
        memset(big->word, 0, (size_t)whole * sizeof big->word[0]);
        big->words += whole;
    }
    big_multiply_add(big, 1U << power % 32, 0);
}

static struct big big_of_digits(const struct decimal *d)
{
    struct big big = {.words = 0};

    for (int i = 0; i < d->digits; i++)
        big_multiply_add(&big, 10, d->digit[i]);
    return big;
}

static int big_compare(const struct big *a, const struct big *b)
{
    if (a->words != b->words)
        return a->words < b->words ? -1 : 1;
    for (int i = a->words - 1; i >= 0; i--) {
        if (a->word[i] != b->word[i])
            return a->word[i] < b->word[i] ? -1 : 1;
    }
    return 0;
}

/* A double that is not negative, as its bits: they count up as the value does, so the next double is one more. */
static uint64_t bits_of(double value)
{
    uint64_t bits;
    memcpy(&bits, &value, sizeof bits);
    return bits;
}

static double double_of(uint64_t bits)
{
    double value;
    memcpy(&value, &bits, sizeof value);
    return value;
}

/* Sign of the value less the midpoint above the double with those bits: whole * 10^exponent less (2 m + 1) * 2^(k - 1),
 * both sides brought to whole numbers. */
static int compare_to_midpoint(const struct big *whole, long exponent, uint64_t bits)
{
    uint64_t fraction = bits & 0xFFFFFFFFFFFFFULL;
    int field = (int)(bits >> 52);
    uint64_t m = field > 0 ? fraction | 1ULL << 52 : fraction;
    int half = (field > 0 ? field : 1) - 1075 - 1;
    uint64_t odd = 2 * m + 1;
    struct big left = *whole, right = {.words = 0};

    big_multiply_add(&right, 1, (uint32_t)(odd >> 32));
    big_times_two_to(&right, 32);
    big_multiply_add(&right, 1, (uint32_t)odd);

    big_times_ten_to(exponent >= 0 ? &left : &right, exponent >= 0 ? exponent : -exponent);
    big_times_two_to(half >= 0 ? &right : &left, half >= 0 ? half : -half);
    return big_compare(&left, &right);
}

/* A few units of the last place around the value; never above DBL_MAX. */
static double estimate(const struct decimal *d)
{
    static const double square[] = {1e1, 1e2, 1e4, 1e8, 1e16, 1e32, 1e64, 1e128, 1e256};
    int taken = d->digits < HEAD_DIGITS ? d->digits : HEAD_DIGITS;
    long power = d->exponent + d->digits - taken;
    uint64_t head = 0;

    for (int i = 0; i < taken; i++)
        head = head * 10 + d->digit[i];

    double value = (double)head;
    long steps = power < 0 ? -power : power;
    for (int i = 8; i >= 0; i--) {
        if (steps >> i & 1)
            value = power < 0 ? value / square[i] : value * square[i];
    }
    return value <= DBL_MAX ? value : DBL_MAX;
}

/* Moves from the estimate to the double whose midpoints on both sides hold the value; on a midpoint, the even one. */
static uint64_t nearest(const struct decimal *d)
{
    struct big whole = big_of_digits(d);
    uint64_t bits = bits_of(estimate(d));
    const uint64_t largest = bits_of(DBL_MAX);

    while (bits <= largest) {
        int above = compare_to_midpoint(&whole, d->exponent, bits);
        if (above < 0 || (above == 0 && bits % 2 == 0))
            break;
        bits++;
    }
    while (bits > 0) {
        int below = compare_to_midpoint(&whole, d->exponent, bits - 1);
        if (below > 0 || (below == 0 && bits % 2 == 0))
            break;
        bits--;
    }
    return bits;
}

static bool is_exact_in_one_step(const struct decimal *d)
{
    return FLT_EVAL_METHOD == 0 && d->digits <= FAST_DIGITS && d->exponent >= -FAST_POWER && d->exponent <= FAST_POWER;
}

static double one_step(const struct decimal *d)
{
    uint64_t whole = 0;

    for (int i = 0; i < d->digits; i++)
        whole = whole * 10 + d->digit[i];
    return d->exponent < 0 ? (double)whole / power_of_ten[-d->exponent] : (double)whole * power_of_ten[d->exponent];
}

/* Of 0.ddd times 10^magnitude: above 10^309 nothing is finite, below 10^-324 everything rounds to zero. */
static double magnitude_of(const struct decimal *d)
{
    long magnitude = d->exponent + d->digits;

    if (d->digits == 0 || magnitude < -324)
        return 0;
    if (magnitude > 310)
        return HUGE_VAL;
    return is_exact_in_one_step(d) ? one_step(d) : double_of(nearest(d));
}

bool number_read(const char *s, size_t n, double *value)
{
    struct decimal d;

    if (!read_decimal(s, n, &d))
        return false;
    double magnitude = magnitude_of(&d);
    if (magnitude > DBL_MAX)
        return false;
    *value = d.negative ? -magnitude : magnitude;
    return true;
}
