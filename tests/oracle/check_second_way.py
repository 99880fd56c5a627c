#!/usr/bin/env python3
"""The second implementation itself against published figures and against a plain search: without the program."""

import random
import sys
from fractions import Fraction

import product
from margin import margin_of
from oracle import Plan
from program import exact, finish
from recipes import Maker
from rows import Facts
from split import batter_for_pieces, chance_of, good_distribution, pieces_to_pipe
from weigh import hamilton


def margins(facts):
    """Edges, and a Monte Carlo of 2,000,000 draws (JCGM 101:2008): mean 5.396, sd 1.4071."""
    recipe = {"name": "band", "superfat_percent": 5, "water": {"ratio": 2},
              "oils": [{"oil": "A", "grams": 700, "sap": 190, "sap_range": [184, 196]},
                       {"oil": "B", "grams": 300, "sap": 256.5, "sap_range": [248, 265]}],
              "alkali": {"naoh_purity_percent": {"nominal": 99, "range": [98, 100]}}}
    margin = Plan(exact(recipe), facts).margin
    yield "low edge", 100 * margin["worst"][0], 0.833, 6e-4
    yield "high edge", 100 * margin["worst"][1], 9.698, 6e-4
    yield "mean of the draws", 100 * margin["mean"], 5.396, 0.05
    yield "sd of the draws", 100 * margin["sd"], 1.4071, 0.01
    yield "likely low", 100 * margin["likely"][0], 2.601, 6e-4
    yield "share of the first oil", 100 * margin["ranked"][0][1], 60.4, 0.05
    small = Plan(exact(dict(recipe, size={"oils_g": 200})), facts).margin
    yield "share of the weighings at 200 g", 100 * small["mass_share"], 33.9, 0.05


def searches(facts):
    """Worst corners found sum by sum are those of the search through all corners at once."""
    maker, apart = Maker(random.Random(5), facts), 0.0
    for _ in range(120):
        recipe = exact(maker.recipe("corner"))
        if {"mould", "pieces"} & set(recipe.get("size", {})):
            continue
        plan = Plan(recipe, facts)
        margin = margin_of(plan.formula, plan.batter)
        keys = [key for key, (lo, hi) in margin.inputs.items() if hi > lo]
        if len(keys) <= 11:
            apart = max([apart] + [abs(a - b) for a, b in zip(margin.worst(), margin._worst_by_terms(keys))])
    yield "two searches for the worst", apart, 0, 1e-12


def counts(facts):
    """Beta-binomial by exact fractions; largest remainders: a college text's parliament."""
    simple = (2, 24)
    yield "no reject in 10", good_distribution(10, simple)[10], Fraction(60, 119), 0
    yield "five rejects in 29", good_distribution(29, simple)[24], Fraction(725, 12614), 0
    table = ((24, 0.9, simple, 29), (24, 0.9, (3, 22), 31), (24, 0.9, (4, 16), 37), (24, 0.5, simple, 25),
             (100, 0.9, simple, 118), (24, 0.999, simple, 39))
    for wanted, chance, prior, expected in table:
        yield "%d at %g" % (wanted, chance), pieces_to_pipe(wanted, Fraction(str(chance)), prior), expected, 0
    yield "chance of 24 in 29", chance_of(24, 29, simple), Fraction(11657, 12614), 0
    mass, _, bags = batter_for_pieces({"count": Fraction(24), "mass_g": Fraction("6.5")})
    yield "batter of 29 pieces", mass - 15 * bags, 202.326, 6e-4
    votes = (5576330, 1387342, 3334241, 7512860, 310968)
    for seats, expected in ((89, [27, 7, 16, 37, 2]), (90, [28, 7, 17, 37, 1]), (91, [28, 7, 17, 38, 1])):
        yield "%d seats" % seats, hamilton(votes, seats, 1) == expected, True, 0
    yield "ties", [hamilton(w, sum(w), 1) for w in ([1, 1], [3, 5, 2])] == [[1, 1], [3, 5, 2]], True, 0
    yield "tie to the earlier", hamilton([1, 1], 1, 1) == [1, 0], True, 0
    yield "tie to the larger", hamilton([Fraction(3, 2), Fraction(5, 2), Fraction(1)], 5, 1) == [1, 3, 1], True, 0


def heats(facts):
    """1982 NBS scale; enthalpy of Olsson, Jernqvist and Aly, Int. J. Thermophys. 18 (1997) 779: tolerance 3 C."""
    table = ((25, 20, 92.4), (30, 20, 103.0), (40, 20, 114.7), (50, 20, 113.6), (25, 5, 77.5), (40, 40, 130.1))
    for strength, start, expected in table:
        recipe = {"name": "lye", "superfat_percent": 0, "oils": [{"oil": "olive", "grams": 1000}],
                  "alkali": {"naoh_purity_percent": 100}, "water": {"strength_percent": strength, "temp_c": start},
                  "scales": [{"division_g": 0.01, "capacity_g": 5000}]}
        plan = Plan(exact(recipe), facts)
        yield "lye of %d %% from %d C" % (strength, start), min(product.heat(plan.formula, plan.batter)), expected, 3


def main():
    facts, passed, failed = Facts(), 0, 0
    for group in (margins, searches, counts, heats):
        for name, found, expected, tolerance in group(facts):
            if abs(float(found) - float(expected)) <= tolerance:
                passed += 1
            else:
                failed += 1
                print("%s: found %s, published %s" % (name, float(found), float(expected)))
    return finish(passed, failed)


if __name__ == "__main__":
    sys.exit(main())
