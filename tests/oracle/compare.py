"""Every figure of the program's answer against the second way, within what is printed."""

from fractions import Fraction

import looks
import product
from findings import Findings
from weigh import MICRO, grams

MASS, EXACT, SHARE = 1e-6, 6e-5, 0.00501  # g as rounded; g with four decimals; percent with two decimals


class Comparison:
    def __init__(self):
        self.checked, self.wrong = 0, []

    def figure(self, name, theirs, ours, tolerance):
        self.checked += 1
        ours = float(ours)
        if theirs is None or isinstance(theirs, str) or abs(theirs - ours) > tolerance + 1e-9 * abs(ours):
            self.wrong.append((name, theirs, ours))

    def same(self, name, theirs, ours):
        self.checked += 1
        if theirs != ours:
            self.wrong.append((name, theirs, ours))

    def among(self, name, theirs, allowed):
        self.checked += 1
        if theirs not in allowed:
            self.wrong.append((name, theirs, allowed))


def weighed(check, name, entry, item):
    """exact_g, rounded_g and division_g of one thing."""
    check.figure(name + " exact", entry.get("exact_g"), item.exact, EXACT)
    check.figure(name + " rounded", entry.get("rounded_g"), item.g, MASS)
    if item.exact > 0:
        check.figure(name + " division", entry.get("division_g"), Fraction(item.division, MICRO), 1e-9)


def formula(check, answer, plan):
    batter = plan.batter
    check.same("number of oils", len(answer["oils"]), len(batter.oils))
    for entry, item in zip(answer["oils"], batter.oils):
        check.same("oil", entry["oil"], item.key)
        weighed(check, "oil " + item.key, entry, item)
    # The text leaves open whether this is the exact or the rounded sum.
    exact, rounded = plan.oils, grams(batter.oils_mass)
    nearer = min((exact, rounded), key=lambda mass: abs(float(mass) - answer["oils_g"]))
    check.figure("oils", answer["oils_g"], nearer, 0.051)
    check.same("alkalis", [entry["kind"] for entry in answer["alkali"]], list(batter.alkali))
    for entry, (kind, item) in zip(answer["alkali"], batter.alkali.items()):
        check.figure(kind + " exact", entry["exact_g"], plan.exact.alkali[kind], EXACT)
        ready_made = bool(plan.formula.solution[kind])
        check.figure(kind + " rounded", entry["rounded_g"], batter.alkali_g[kind], 1e-4 if ready_made else MASS)
        check.figure(kind + " division", entry["division_g"], Fraction(item.division, MICRO), 1e-9)
        if ready_made:
            check.figure(kind + " solution", entry["solution_g"], item.g, MASS)
        else:
            check.same(kind + " solution", entry["solution_g"], None)
    check.figure("water", answer["water_g"], batter.water.g, MASS)
    if not plan.exact.weak:
        check.figure("strength", answer["strength_percent"], plan.exact.strength * 100, SHARE)
    check.figure("strength rounded", answer["strength_rounded_percent"], batter.strength * 100, SHARE)
    for part, items in (("liquid", batter.liquids), ("additive", batter.additives)):
        check.same(part + "s", [entry[part] for entry in answer[part + "s"]], [item.key for item, _ in items])
        for entry, (item, _) in zip(answer[part + "s"], items):
            check.figure(part + " " + item.key, entry["rounded_g"], item.g, MASS)


def superfat(check, answer, plan):
    theirs, margin = answer["superfat"], plan.margin
    check.figure("superfat asked", theirs["asked"], plan.formula.superfat * 100, SHARE)
    check.figure("superfat rounded", theirs["rounded"], margin["nominal"] * 100, SHARE)
    for name in ("likely", "worst"):
        for end, mine, his in zip(("low", "high"), margin[name], theirs[name]):
            check.figure("superfat %s %s" % (name, end), his, mine * 100, SHARE)
    check.figure("chance lye-heavy", theirs["chance_lye_heavy_percent"], margin["chance"] * 100, 0.0501)
    if not margin["ranked"]:
        return
    top = margin["ranked"][0][1]
    names = set()
    for key, share in margin["ranked"]:
        if share > top - 2e-3:
            names |= cause_names(key, plan.batter)
    check.among("mostly from", theirs["mostly_from"], names)
    check.figure("mostly share", theirs["mostly_share"], top * 100, 0.501)


def cause_names(key, weighed):
    """A scale's own error is common to all that it weighs, so any of those may stand for it."""
    kind, rest = key.split(":", 1)
    if kind == "mass":
        return {"scale:" + rest.rsplit(":", 1)[0]}
    if kind != "accuracy":
        return {key.rstrip("*")}
    items = weighed.oils + [item for item, _ in weighed.additives + weighed.liquids] + list(weighed.alkali.values())
    return {"scale:" + item.key for item in items if item.scale.index == int(rest)}


def batter(check, answer, plan):
    mass = grams(plan.batter.mass)
    check.figure("batter", answer["batter_g"], mass, 1e-4)
    strength = product.lye(plan.formula, plan.batter)[1]
    if strength <= 0.5:  # the tables end there
        check.figure("batter volume", answer["batter_ml"], plan.volume, 0.0501 + 1e-4 * plan.volume)
        check.figure("density", answer["density_g_ml"], plan.density, 1.5e-4)
    acids, unknown, iodine, oxidisability = product.fatty_acids(plan.formula)
    theirs = dict(answer["fatty_acids"])
    check.figure("acids unknown", theirs.pop("unknown", 0), unknown * 100, SHARE)
    for acid in sorted(set(acids) | set(theirs)):
        check.figure("acid " + acid, theirs.get(acid, 0), acids.get(acid, Fraction(0)) * 100, SHARE + 0.005)
    check.figure("iodine value", answer["iodine_value"], iodine, 0.0501)
    check.figure("oxidisability", answer["oxidisability"], oxidisability, SHARE)
    heat(check, answer, plan)


def heat(check, answer, plan):
    """One adiabatic model against another: 3 C as the source allows; 8 C with potassium hydroxide, an estimate."""
    theirs = (answer["heat"] or {}).get("up_to_c")
    ready_made = [bool(plan.formula.solution[kind]) for kind in plan.formula.kinds]
    if all(ready_made) or not any(item.mass for item in plan.batter.alkali.values()):
        check.same("heat", theirs, None)
        return
    strength = product.lye(plan.formula, plan.batter)[1]
    if any(ready_made) or plan.exact.weak or strength > 0.5:
        return
    reached, boils = product.heat(plan.formula, plan.batter)
    check.figure("heat", theirs, min(reached, boils), 8 if "KOH" in plan.formula.kinds else 3)


def portions(check, answer, plan):
    theirs = answer["portions"]
    check.same("number of portions", len(theirs), len(plan.portions))
    check.figure("jug residue", answer["jug_residue_g"], Fraction(plan.split.left_in_jug, MICRO), 1e-4)
    whole = answer["jug_residue_g"] + sum(entry["batter_g"] for entry in theirs)
    check.figure("batter = residue + portions", whole, answer["batter_g"], 1e-6)
    for entry, portion in zip(theirs, plan.portions):
        name = "portion %s " % entry["name"]
        if portion.asked.get("name"):
            check.same(name + "name", entry["name"], portion.asked["name"])
        check.figure(name + "batter", entry["batter_g"], portion.g, MASS)
        check.figure(name + "filled", entry["filled_g"], portion.filled, 0.00501)
        check.figure(name + "volume", entry["volume_ml"], portion.volume, 0.501 + 2e-4 * portion.volume)
        # What is weighed into the portion: scent that went into the whole batter is in its mass already.
        scent = sum((i.g for i in portion.fragrance), Fraction(0))
        check.figure(name + "fragrance", entry["fragrance_g"], scent, 2e-6)
        check.figure(name + "superfat", entry["superfat"], portion.superfat(plan) * 100, SHARE)
        check.same(name + "technique", entry["technique"], portion.technique)
        check.same(name + "colourants", len(entry["colourants"]), len(portion.colourants))
        for dose, item in zip(entry["colourants"], portion.colourants):
            check.same(name + "colourant", dose["colourant"], item.key)
            weighed(check, name + item.key, dose, item)
        colour(check, name, entry.get("colour"), looks.look(plan, portion))
        pieces(check, name, entry["pieces"], portion.pieces(plan))


def colour(check, name, theirs, ours):
    """Each channel to one code; None where there is nothing to say."""
    check.same(name + "colour known", theirs is not None, ours is not None)
    for when in ("fresh", "cured") if theirs and ours else ():
        for found, expected in zip(bytes.fromhex(theirs[when][1:]), ours[when]):
            check.figure(name + "colour " + when, found, expected, 1)


def pieces(check, name, theirs, ours):
    if ours is None or theirs is None:
        check.same(name + "pieces", theirs, ours)
        return
    check.figure(name + "pieces wanted", theirs["wanted"], ours["wanted"], 0)
    check.figure(name + "pieces to pipe", theirs["to_pipe"], ours["to_pipe"], 0)
    check.figure(name + "pieces mass", theirs["mass_g"], ours["mass"], 1e-9)
    check.figure(name + "pieces chance", theirs["chance_percent"], ours["chance"] * 100, 0.0501)
    check.figure(name + "pieces good", theirs["expected_good"], ours["good"], 0.0501)
    check.among(name + "pieces bags", theirs["bags"], ours["bags"])


def fragrance(check, answer, plan):
    entries = plan.recipe.get("fragrance", [])
    check.same("fragrances", [entry["fragrance"] for entry in answer["fragrance"]], [e["fragrance"] for e in entries])
    total = sum(plan.worst_shares.values())
    factor = plan.limits[0][0] if plan.limits else None
    binding = factor is not None and total > 0 and factor * total < 1
    for entry in answer["fragrance"]:
        key = entry["fragrance"]
        share = plan.worst_shares.get(key, Fraction(0))
        check.figure("fragrance " + key, entry["g"], plan.fragrance_g.get(key, 0), 1e-4)
        check.figure("share of product " + key, entry["percent_of_product"], share * 100, SHARE)
        if binding:
            check.figure("limit " + key, entry["limit_percent"], share * factor * 100, SHARE)
        else:
            check.same("limit " + key, entry["limit_percent"], None)
    theirs = {entry["name"]: entry["percent_of_product"] for entry in answer["allergens"]}
    check.same("allergens", sorted(theirs), sorted(plan.allergens))
    for name, share in plan.allergens.items():
        check.figure("allergen " + name, theirs.get(name), share * 100, SHARE)


def compare(answer, plan):
    """[(figure, theirs, ours)] of all that differ, and how many figures were compared."""
    check = Comparison()
    formula(check, answer, plan)
    superfat(check, answer, plan)
    batter(check, answer, plan)
    codes = {finding["code"] for finding in answer["findings"]}
    if plan.split.stop is None and "portions-short" in codes and 0 in plan.split.mass:
        plan.split.stop = "portions-short"  # a portion too small for one division may be called short
    if plan.split.stop is None:
        portions(check, answer, plan)
        fragrance(check, answer, plan)
    problems = Findings(plan).problems(answer["findings"])
    check.checked += len(problems) + 1
    return check.wrong + problems, check.checked
