/* constants.h - molar masses in g/mol from the CIAAW standard atomic weights. */
#ifndef CALC_CONSTANTS_H
#define CALC_CONSTANTS_H

#define MOLAR_NAOH     39.99677
#define MOLAR_KOH      56.10530
#define MOLAR_WATER    18.015
#define MOLAR_GLYCEROL 92.094

/* By enum alkali. */
#define MOLAR_ALKALI ((const double[]){MOLAR_NAOH, MOLAR_KOH})

/* No mass in a plan is larger, in grams: a recipe that asks for more (a strength near 0) is cut here, so that every
 * sum of masses fits whole micrograms in 64 bits and stays finite. A thousand times what the exchange format lets
 * in. */
#define MASS_MOST_G 1e9

#endif
