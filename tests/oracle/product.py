"""Sections 7, 9, 10, 12: density and heat of the lye and batter, fragrance in the product, fatty acids."""

from fractions import Fraction

from rows import MOLAR, M_WATER, interpolate

BATTER_C, OIL_SLOPE, OIL_DENSITY = Fraction(35), Fraction("-0.00068"), Fraction("0.91")
LINOLEIC, LINOLENIC = "c18_2", "c18_3"


def oil_density(facts, key):
    fact = facts.oils.get(key)
    if fact is None or fact["density"] is None:
        return OIL_DENSITY + OIL_SLOPE * (BATTER_C - 20)
    return fact["density"] + OIL_SLOPE * (BATTER_C - fact["temp"])


def lye_density(facts, strength, shares):
    """Between the tables at 20 and 40 C, by mole share of the two alkalis."""
    total = 0.0
    for kind, share in shares.items():
        cold, warm = (interpolate(facts.density[(kind, temp)], strength) for temp in (20.0, 40.0))
        total += share * (cold + (warm - cold) * 15 / 20)
    return total


def lye(formula, batter):
    """(grams of lye, strength in pure alkali, mole share of each alkali), from rounded masses."""
    pure = {k: float(batter.alkali_g[k] * formula.purity[k][1]) for k in formula.kinds}
    mass = float(sum(batter.alkali_g.values()) + batter.lye_water)
    moles = {k: pure[k] / float(MOLAR[k]) for k in pure}
    total = sum(moles.values())
    shares = {kind: amount / total if total else float(formula.moles[kind]) for kind, amount in moles.items()}
    return mass, sum(pure.values()) / mass if mass else 0.0, shares


def batter_volume(formula, batter):
    """Millilitres by additive volumes."""
    facts = formula.facts
    mass, strength, shares = lye(formula, batter)
    volume = mass / lye_density(facts, strength, shares) if mass else 0.0
    volume += sum(float(item.g / oil_density(facts, key)) for item, key in zip(batter.oils, formula.keys))
    for item, fact in batter.additives:
        volume += float(item.g / (fact["density"] or 1))
    for item, fact in batter.liquids:
        fat = item.g * fact["fat"]
        volume += float(item.g * (1 - fact["water"]) - fat)
        volume += float(fat / oil_density(facts, fact["fat_oil"])) if fat else 0.0
    for item in batter.extras:
        fragrance = facts.fragrances.get(item.key)
        volume += float(item.g / (fragrance["density"] if fragrance else 1))
    return volume


def heat(formula, batter):
    """(C it would reach without boiling, C at which it boils) of the lye as weighed: dissolved at 25 C, and what is
    given off warms it from there."""
    facts, start = formula.facts, float(formula.recipe["water"].get("temp_c", 20))
    pure = {k: float(batter.alkali_g[k] * formula.purity[k][1]) for k in formula.kinds}
    water = float(batter.lye_water + sum(batter.alkali_g[k] * (1 - formula.purity[k][1]) for k in formula.kinds))
    moles = {k: pure[k] / float(MOLAR[k]) for k in pure}
    total, mass = sum(moles.values()), sum(pure.values()) + water
    if total == 0:
        return start, 100.0
    dilution, strength = water / float(M_WATER) / total, sum(pure.values()) / mass
    given, capacity, boils = 0.0, 0.0, 0.0
    for kind, amount in moles.items():
        given -= amount * interpolate(facts.heat[kind], dilution)
        capacity += amount / total * interpolate({0.0: 4.18, **facts.capacity[kind]}, strength)
        boils += amount / total * interpolate({0.0: 100.0, **facts.boiling[kind]}, strength)
    before = (water * 4.18 + sum(pure[k] * facts.solid[k] for k in pure)) * (start - 25)
    return 25 + (given + before) / (mass * capacity), boils


def fatty_acids(formula):
    """Shares of the acids, share unknown, iodine value, oxidisability."""
    acids, unknown, iodine, oxidisability = {}, Fraction(0), Fraction(0), Fraction(0)
    for key, share in zip(formula.keys, formula.shares):
        fact = formula.facts.oils.get(key)
        known = fact["acids"] if fact else None
        if known:
            for acid, part in known.items():
                acids[acid] = acids.get(acid, Fraction(0)) + share * part
                iodine += share * part * 100 * formula.facts.acids[acid]["iodine"]
                oxidisability += share * part * formula.facts.acids[acid]["oxidisability"]
            continue
        unknown += share
        if fact and fact["iodine"][0] is not None:
            iodine += share * sum(fact["iodine"]) / 2
    return acids, unknown, iodine, oxidisability


def cured_mass(filled, water):
    return min((filled - water) / Fraction(9, 10), filled * Fraction(95, 100))


def constituents(facts, shares):
    """Share of the product of each constituent at its high end, summed over the fragrances given."""
    total = {}
    for key, share in shares.items():
        for part, high in facts.fragrances[key]["parts"].items():
            total[part] = total.get(part, Fraction(0)) + share * high
    return total


def allergens(facts, shares):
    """Label name to share of the product, above the rinse-off threshold, isomers summed."""
    total = {}
    for part, share in constituents(facts, shares).items():
        allergen = facts.limits[part]["allergen"]
        if allergen:
            total[allergen] = total.get(allergen, Fraction(0)) + share
    for key, share in shares.items():
        whole = facts.fragrances[key]["allergen"]
        if whole:
            total[whole] = total.get(whole, Fraction(0)) + share
    return {facts.allergens[key][0]: share for key, share in total.items() if share > facts.allergens[key][1]}


def limits(facts, entries, shares):
    """[(factor by which the blend meets the limit, whether it stops)] of every limit that has a figure.

    A fragrance with a certificate is judged by it and not again by its constituents."""
    certified = {e["fragrance"]: e["limit_percent"] / 100 for e in entries if "limit_percent" in e}
    result = []
    use = sum((shares[key] / max(limit, Fraction(1, 10**9)) for key, limit in certified.items()), Fraction(0))
    if use > 0:
        result.append((1 / use, True))
    rest = {key: share for key, share in shares.items() if key not in certified}
    for part, share in constituents(facts, rest).items():
        cap = facts.limits[part]["cap"]
        if cap is not None and share > 0:
            result.append((cap / share, facts.limits[part]["seen"]))
    return sorted(result)
