"""Section 17: how a portion looks, by Kubelka and Munk for each channel of linear sRGB."""

from math import sqrt

from weigh import grams


def light(code):
    """IEC 61966-2-1, kept within what the relation is used for."""
    c = code / 255
    return min(max(c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4, 0.01), 0.99)


def code(shine):
    shine = min(max(shine, 0.01), 0.99)
    return 255 * (12.92 * shine if shine <= 0.0031308 else 1.055 * shine ** (1 / 2.4) - 0.055)


def ratio(reflectance):
    return (1 - reflectance) ** 2 / (2 * reflectance)


def root(q):
    return 1 + q - sqrt(q * q + 2 * q)


def mixed(facts, doses, when):
    """doses: (key, grams per kilogram of oils)."""
    plain = [ratio(light(c)) for c in facts.plain]
    absorbed, scattered = list(plain), 1.0
    for key, dose in doses:
        swatch = facts.swatches[key]
        own = [ratio(light(c)) for c in swatch[when]]
        middles = float(dose / swatch["middle"])
        if swatch["whitens"]:
            scattered += max(sum(plain) / sum(own) - 1, 0) * middles
        else:
            absorbed = [a + max(o - p, 0) * middles for a, o, p in zip(absorbed, own, plain)]
    return [code(root(a / scattered)) for a in absorbed]


def look(plan, portion):
    """The channels fresh and cured; None where a colourant has no usual dose."""
    facts = plan.formula.facts
    whole = plan.formula.recipe.get("colour") == "batter"
    holders = plan.portions if whole else [portion]
    oils = grams(plan.batter.oils_mass) if whole else portion.oils
    doses = [(item.key, item.exact * 1000 / oils) for p in holders for item in p.colourants if oils and item.exact]
    if any(not facts.swatches[key]["middle"] for key, _ in doses):
        return None
    return {when: mixed(facts, doses, when) for when in ("fresh", "cured")}
