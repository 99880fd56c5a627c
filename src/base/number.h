/* number.h - reading and writing numbers the same under every locale. */
#ifndef BASE_NUMBER_H
#define BASE_NUMBER_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

enum { NUMBER_BYTES = 40 };

/* Reads a JSON number (RFC 8259: no leading zeros, no plus sign, a digit before and after the point) that makes up all n
 * bytes of s. False if it is not one, or if its value is not finite. Correctly rounded. */
bool number_read(const char *s, size_t n, double *value);

/* Numbers of this size and above are written as "?". */
#define NUMBER_WRITE_BELOW 1e18

/* Writes value with `decimals` digits after a point (0 to 15): the decimal nearest to the double's exact value, halves away
 * from zero. 0.125 with two is "0.13", 1.005 "1.00" since the double is below it. "-0" is "0". Not finite: "?". */
void number_write(char out[NUMBER_BYTES], double value, int decimals);

/* The same, then trailing zeros and a bare point are taken off: 450.00 is "450". */
void number_write_short(char out[NUMBER_BYTES], double value, int decimals);

/* Whole micrograms as grams, exactly, with as many decimals as the division shows: 147240000 at 10000 is "147.24";
 * with more where the mass is not a whole number of divisions, so that nothing is hidden. division 0: as many as it takes. */
void number_write_mass(char out[NUMBER_BYTES], int64_t ug, int64_t division_ug);

/* Decimals that a scale's division shows: 1 g 0, 0.5 g 1, 0.01 g 2; at most 6; 0 gives 0. */
int number_decimals(int64_t division_ug);

#endif
