/* student.h - Student variables that are added: what a prediction of two beliefs together is. */
#ifndef CALC_STUDENT_H
#define CALC_STUDENT_H

/* middle + scale * t of so many degrees. */
struct student {
    double middle, scale_squared, degrees;
};

/* The Student variable with the mean, variance and fourth moment of the sum of two independent ones with more than 4 degrees, of
 * which at least one has a spread. */
struct student student_sum(const struct student *a, const struct student *b);

#endif
