#!/usr/bin/env python3
"""Recipes worked by hand, each with the source of its figures, through the program. LYEWAY names it (build/lyeway)."""

import sys

from program import Refused, ask, finish

PURE = {"naoh_purity_percent": 100, "koh_purity_percent": 100}
FINE = [{"division_g": 0.01, "capacity_g": 5000}]


def recipe(saps, superfat, water=None, **more):
    """Oils in grams, each with its own exact saponification value."""
    oils = [{"oil": "Oil %d" % i, "grams": mass, "sap": sap, "sap_range": [sap, sap]}
            for i, (mass, sap) in enumerate(saps)]
    result = {"name": "worked", "oils": oils, "superfat_percent": superfat, "water": water or {"ratio": 2},
              "alkali": PURE, "scales": FINE}
    result.update(more)
    return result


def alkali(plan, kind="NaOH"):
    return next((entry["exact_g"] for entry in plan["alkali"] if entry["kind"] == kind), 0)


def extra_alkali(base, changed):
    """Grams of NaOH that a change of the recipe asks for."""
    return round(alkali(ask(changed)) - alkali(ask(base)), 4)


def stoichiometry():
    """Molar masses from CIAAW standard atomic weights; saponification value as mg KOH per g, ISO 3657."""
    plain = recipe([(1000, 190)], 0)
    yield "coconut oil, no superfat, NaOH (SV 257 within CXS 210)", alkali(ask(recipe([(1000, 257)], 0))), 183.21, 0.05
    koh = dict(PURE, potassium_percent=100)
    yield "the same with KOH: 1000 g x 257 mg", alkali(ask(recipe([(1000, 257)], 0, alkali=koh)), "KOH"), 257.00, 0.05
    yield "coconut oil, 5 % discount", alkali(ask(recipe([(1000, 257)], 5))), 174.05, 0.05
    yield "98 % NaOH", alkali(ask(recipe([(1000, 257)], 5, alkali={"naoh_purity_percent": 98}))), 177.60, 0.05
    flake = {"koh_purity_percent": 90, "potassium_percent": 100}
    yield "90 % KOH flake", alkali(ask(recipe([(1000, 257)], 5, alkali=flake)), "KOH"), 271.28, 0.05
    two = {"naoh_purity_percent": 100, "koh_purity_percent": 90, "potassium_percent": 40}
    both = ask(recipe([(1000, 195)], 5, alkali=two))
    yield "60 to 40 by moles, NaOH", alkali(both), 79.24, 0.05
    yield "60 to 40 by moles, KOH flake", alkali(both, "KOH"), 82.33, 0.05
    for key, grams, expected in (("citric-acid", 20, 12.491), ("citric-acid-monohydrate", 20, 11.420),
                                 ("sodium-bicarbonate", 10, 4.761)):
        changed = dict(plain, additives=[{"additive": key, "grams": grams}])
        yield "NaOH taken by %g g of %s" % (grams, key), extra_alkali(plain, changed), expected, 0.005
    acid = {"oil": "Pure acid", "grams": 50, "sap": 197.219, "sap_range": [197, 198]}
    stearic = dict(plain, oils=plain["oils"] + [acid])
    yield "50 g of pure stearic acid", extra_alkali(plain, stearic), 7.030, 0.005
    vinegar = dict(plain, water={"percent_of_oils": 38, "liquids": [{"liquid": "vinegar-5", "percent_of_water": 50}]})
    yield "200 g of 5 % vinegar", extra_alkali(plain, vinegar), 6.660, 0.005
    yield "it holds 190 of the 380 g of water", ask(vinegar)["liquids"][0]["rounded_g"], 200.00, 0.01


def water():
    """Arithmetic of mass shares."""
    by_oils = ask(recipe([(1000, 190)], 0, {"percent_of_oils": 38}))
    yield "380 g of water on 135.45 g of NaOH", by_oils["strength_percent"], 26.278, 0.006
    whole = ask(recipe([(1000, 195)], 5, {"strength_percent": 100 / 3}))
    yield "33.3 % lye: NaOH", whole["alkali"][0]["rounded_g"], 132.06, 0.05
    yield "33.3 % lye: water", whole["water_g"], 264.12, 0.05
    yield "33.3 % lye: batch", whole["batter_g"], 1396.19, 0.1
    half = dict(PURE, naoh_solution_percent=50)
    stock = ask(recipe([(140 / 0.190 / 0.712888, 190)], 0, {"strength_percent": 100 / 3}, alkali=half))
    yield "140 g of NaOH from a 50 % stock", stock["alkali"][0]["solution_g"], 280.00, 0.02
    yield "water to dilute the stock to a third", stock["water_g"], 140.00, 0.02
    # Heat of solution, 1982 NBS scale; enthalpy of Olsson, Jernqvist and Aly, Int. J. Thermophys. 18 (1997) 779.
    for strength, expected in ((25, 92.4), (28, 99.1), (30, 103.0), (100 / 3, 108.4), (40, 114.7), (50, 113.6)):
        plan = ask(recipe([(1000, 190)], 0, {"strength_percent": strength, "temp_c": 20}))
        yield "lye of %.1f %% from 20 C" % strength, plan["heat"]["up_to_c"], expected, 3


def uncertainty():
    """First-order combination, JCGM 100:2008; edges exact. 2,000,000 draws (JCGM 101:2008): mean 5.396, sd 1.4071."""
    oils = [{"oil": "A", "grams": 700, "sap": 190, "sap_range": [184, 196]},
            {"oil": "B", "grams": 300, "sap": 256.5, "sap_range": [248, 265]}]
    whole = {"name": "band", "oils": oils, "superfat_percent": 5, "water": {"ratio": 2},
             "alkali": {"naoh_purity_percent": {"nominal": 99, "range": [98, 100]}},
             "scales": [{"division_g": 1, "capacity_g": 5000}]}
    small = dict(whole, size={"oils_g": 200})
    figures = ((whole, 143.6234, 143, 5.4124, (0.833, 9.698), (2.601, 8.224), 60.4),
               (small, 28.7247, 28, 7.3967, (1.103, 13.235), None, None))
    for asked, exact, rounded, nominal, worst, likely, share in figures:
        plan = ask(asked)
        superfat, name = plan["superfat"], "band at %g g of NaOH: " % rounded
        yield name + "exact", plan["alkali"][0]["exact_g"], exact, 1e-4
        yield name + "weighed", plan["alkali"][0]["rounded_g"], rounded, 0
        yield name + "superfat", superfat["rounded"], nominal, 0.00501
        for end in (0, 1):
            yield name + "edge", superfat["worst"][end], worst[end], 0.00601
            if likely:
                yield name + "likely", superfat["likely"][end], likely[end], 0.00601
        if share:
            yield name + "share of the first oil", superfat["mostly_share"], share, 0.501
    yield "at 200 g a 1 g scale is too coarse", "division-coarse" in codes(ask(small)), True, 0


def codes(plan):
    return {finding["code"] for finding in plan["findings"]}


def counting():
    """Beta-binomial, exact fractions; apportionment: a college text's parliament, 89 seats to 27 7 16 37 2."""
    batter = recipe([(5000, 190)], 5)
    table = ((6, "simple", 90, 8, 96.4), (12, "simple", 90, 15, 94.4), (24, "simple", 90, 29, 92.4),
             (50, "simple", 90, 59, 90.0), (100, "simple", 90, 118, 90.5), (24, "flower", 90, 31, 90.8),
             (24, "simple", 50, 25, 50.0), (24, "simple", 80, 27, None),
             (24, "simple", 95, 30, None), (24, "simple", 99, 34, None))
    for count, kind, wanted, pipe, chance in table:
        pieces = {"count": count, "mass_g": 6.5, "class": kind, "chance_percent": wanted}
        plan = ask(dict(batter, portions=[{"name": "pieces", "pieces": pieces}, {"name": "rest", "rest": True}]))
        name = "%d %s pieces with %g %%" % (count, kind, wanted)
        yield name, plan["portions"][0]["pieces"]["to_pipe"], pipe, 0
        if chance:
            yield name + ", chance", plan["portions"][0]["pieces"]["chance_percent"], chance, 0.0501
    first = {"count": 24, "mass_g": 6.5, "first_time": True}
    plan = ask(dict(batter, portions=[{"name": "pieces", "pieces": first}, {"name": "rest", "rest": True}]))
    yield "24 of a kind made for the first time", plan["portions"][0]["pieces"]["to_pipe"], 37, 0
    votes = (5576330, 1387342, 3334241, 7512860, 310968)
    for seats, expected in ((89, (27, 7, 16, 37, 2)), (90, (28, 7, 17, 37, 1)), (91, (28, 7, 17, 38, 1))):
        oils = [{"oil": "List %d" % i, "percent": round(100 * vote / sum(votes), 9), "sap": 190}
                for i, vote in enumerate(votes)]
        seated = ask({"name": "seats", "oils": oils, "size": {"oils_g": seats}, "superfat_percent": 5,
                      "water": {"ratio": 2}, "scales": [{"division_g": 1, "capacity_g": 5000}]})
        for i, seat in enumerate(expected):
            yield "%d seats, list %d" % (seats, i + 1), seated["oils"][i]["rounded_g"], seat, 0


def ties():
    """Equal parts, in whatever words: the last division goes to the larger part, then to the earlier (Hamilton)."""
    whole = recipe([(200, 190)], 5, jug_residue_g=0)
    residue = round(ask(whole)["batter_g"] - 201.19, 2)
    for parts, expected in (((84, 8, None), (169.00, 16.10, 16.09)), ((8, 84, None), (16.10, 169.00, 16.09)),
                            ((None, None, 84), (16.10, 16.09, 169.00))):
        portions = [{"name": "p%d" % i, "rest": True} if part is None else {"name": "p%d" % i, "percent": part}
                    for i, part in enumerate(parts)]
        plan = ask(dict(whole, jug_residue_g=residue, portions=portions))
        for i, mass in enumerate(expected):
            yield "part %d of %s" % (i + 1, parts), plan["portions"][i]["batter_g"], mass, 1e-9


def fragrance():
    """Limits: IFRA category 9 and Regulation (EC) 1223/2009 as the tables have them; high ends of compositions."""
    bar = recipe([(450, 188), (300, 258), (150, 180), (100, 180)], 5, jug_residue_g=0)
    bar["portions"] = [{"name": "bar", "rest": True, "scented": True, "colourants": [
        {"colourant": "titanium-dioxide", "grams": 5}, {"colourant": "ultramarine-blue", "grams": 2}]}]
    scented = ask(dict(bar, fragrance=[{"fragrance": "lavender", "percent_of_oils": 3}]))
    yield "lavender of the cured bar of 1308 g", scented["fragrance"][0]["percent_of_product"], 2.2936, 0.006
    named = {entry["name"]: entry["percent_of_product"] for entry in scented["allergens"]}
    for name, share in (("Linalool", 1.03211), ("Linalyl Acetate", 1.07798), ("Limonene", 0.02294),
                        ("Camphor", 0.03440), ("Terpineol", 0.04587),
                        ("Geraniol", 0.02294), ("Lavandula Oil/Extract", 2.2936)):
        yield name + " to be named", named.get(name, 0), share, 0.006
    yield "coumarin is below the threshold", "Coumarin" in named, False, 0
    blend = [{"fragrance": key, "g_per_kg_oils": share}
             for key, share in (("lemongrass", 15), ("geranium", 9), ("clove-bud", 6))]
    limits = [entry["limit_percent"] for entry in ask(dict(bar, fragrance=blend))["fragrance"]]
    yield "three oils: the blend as a whole by citral", sum(limits), 2.7939, 0.015
    for key, limit in (("rose-otto", 0.02636), ("wintergreen", 0.06006)):
        plan = ask(dict(bar, fragrance=[{"fragrance": key, "percent_of_oils": 1}]))
        yield key + ", limit", plan["fragrance"][0]["limit_percent"], limit, 0.00501
        levels = {finding["level"] for finding in plan["findings"] if finding["code"] == "fragrance-limit"}
        yield key + " is stopped", "stop" in levels, True, 0


def colour_and_acids():
    """Doses: arithmetic. Iodine values: AOCS Cd 1c-85 factors on the typical acids, worked for each oil."""
    whole = recipe([(1200, 190)], 5, jug_residue_g=0)
    whole["portions"] = [
        {"name": "white", "percent": 50, "colourants": [{"colourant": "titanium-dioxide", "g_per_kg_oils": 8}]},
        {"name": "blue", "percent": 30, "colourants": [{"colourant": "ultramarine-blue", "g_per_kg_oils": 3}]},
        {"name": "plain", "percent": 20}]
    doses = [portion["colourants"] for portion in ask(whole)["portions"]]
    yield "white, 8 g per kg in half of 1200 g", doses[0][0]["exact_g"], 4.800, 0.001
    yield "blue, 3 g per kg in 30 % of it", doses[1][0]["exact_g"], 1.080, 0.001
    for key, iodine in (("coconut", 9.49), ("palm", 52.85), ("olive", 82.97), ("sunflower", 126.86),
                        ("flaxseed", 177.52), ("castor", 85.14), ("cocoa-butter", 35.76),
                        ("lard", 57.83), ("rapeseed-high-erucic", 102.19)):
        plan = ask({"name": key, "oils": [{"oil": key, "grams": 500}], "superfat_percent": 5, "water": {"ratio": 2}})
        yield "iodine value of " + key, plan["iodine_value"], iodine, 0.0601


def documented():
    """The example of the exchange format's description."""
    white, green = ([{"colourant": key, "g_per_kg_oils": dose}]
                    for key, dose in (("titanium-dioxide", 5), ("chromium-oxide-green", 4)))
    plan = ask({
        "name": "Sample base", "oils": [{"oil": "olive", "percent": 45}, {"oil": "coconut", "percent": 25},
                                        {"oil": "House blend", "percent": 30, "sap": 196.5, "sap_range": [194, 199]}],
        "size": {"oils_g": 1000}, "superfat_percent": 5, "water": {"strength_percent": 33}, "jug_residue_g": 8,
        "alkali": {"potassium_percent": 0, "naoh_purity_percent": {"nominal": 100, "range": [98.5, 100]}},
        "additives": [{"additive": "citric-acid", "percent_of_oils": 1}],
        "fragrance": [{"fragrance": "lavender", "percent_of_oils": 3}],
        "scales": [{"division_g": 1, "capacity_g": 5000}, {"division_g": 0.01, "capacity_g": 200}],
        "portions": [{"name": "base", "percent": 60, "scented": True, "technique": "swirl", "colourants": white},
                     {"name": "moss", "percent": 25, "scented": True, "technique": "swirl", "colourants": green},
                     {"name": "rosettes", "rest": True, "technique": "pipe",
                      "pieces": {"kind": "rosette", "count": 24, "mass_g": 6.5}}]})
    for path, expected in DOCUMENTED:
        found = plan
        for step in path.split("."):
            found = found[int(step)] if isinstance(found, list) else found[step]
        yield "documented " + path, found, expected, 3 if path == "heat.up_to_c" else 1e-9


DOCUMENTED = (
    ("oils.0.exact_g", 450), ("oils.1.rounded_g", 250), ("oils.2.division_g", 1), ("oils_g", 1000),
    ("alkali.0.kind", "NaOH"), ("alkali.0.exact_g", 147.2475), ("alkali.0.rounded_g", 147.24),
    ("alkali.0.division_g", 0.01),
    ("alkali.0.solution_g", None), ("water_g", 299), ("strength_percent", 33.0), ("strength_rounded_percent", 33.0),
    ("additives.0.rounded_g", 10),
    ("superfat.asked", 5.0), ("superfat.rounded", 5.01), ("superfat.likely.0", 3.89), ("superfat.likely.1", 7.94),
    ("superfat.worst.0", 2.42), ("superfat.worst.1", 9.24), ("superfat.chance_lye_heavy_percent", 0.0),
    ("superfat.mostly_from", "sap:olive"), ("superfat.mostly_share", 48), ("batter_g", 1456.24), ("batter_ml", 1442.4),
    ("density_g_ml", 1.0096), ("heat.up_to_c", 108), ("portions.0.batter_g", 869), ("portions.0.filled_g", 889.88),
    ("portions.0.volume_ml", 884), ("portions.0.fragrance_g", 17.9), ("portions.0.superfat", 5.01),
    ("portions.0.colourants.0.exact_g", 2.9837), ("portions.0.colourants.0.rounded_g", 2.98),
    ("portions.1.batter_g", 362), ("portions.1.filled_g", 370.45), ("portions.1.volume_ml", 368),
    ("portions.1.fragrance_g", 7.46),
    ("portions.1.colourants.0.exact_g", 0.9943), ("portions.2.batter_g", 217), ("portions.2.volume_ml", 215),
    ("portions.2.pieces.wanted", 24), ("portions.2.pieces.to_pipe", 29), ("portions.2.pieces.chance_percent", 87.7),
    ("portions.2.pieces.expected_good", 25.8), ("portions.2.pieces.bags", 2), ("jug_residue_g", 8.24),
    ("fragrance.0.g", 25.36), ("fragrance.0.percent_of_product", 2.27), ("fragrance.0.limit_percent", None),
    ("fatty_acids.c12_0", 11.86),
    ("fatty_acids.unknown", 30), ("iodine_value", 39.7), ("oxidisability", 0.98))


def right(found, expected, tolerance):
    if isinstance(expected, (str, bool, type(None))) or isinstance(found, (str, bool, type(None))):
        return found == expected
    return abs(found - expected) <= tolerance + 1e-12


def main():
    passed, failed = 0, 0
    for group in (documented, stoichiometry, water, uncertainty, counting, ties, fragrance, colour_and_acids):
        try:
            for name, found, expected, tolerance in group():
                if right(found, expected, tolerance):
                    passed += 1
                    continue
                failed += 1
                print("%s: program %s, source %s" % (name, found, expected))
        except (Refused, KeyError, IndexError, StopIteration) as broken:
            failed += 1
            print("%s: no answer to go on with: %r" % (group.__name__, broken))
    return finish(passed, failed)


if __name__ == "__main__":
    sys.exit(main())
