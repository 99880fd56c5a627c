"""Section 5: which scale weighs what, and what it will read. Masses are whole micrograms."""

from fractions import Fraction
from math import floor

MICRO = 1_000_000


def micro(grams):
    """Exact grams to whole micrograms, to nearest."""
    return floor(Fraction(grams) * MICRO + Fraction(1, 2))


def nearest(mass, division):
    return (2 * mass + division) // (2 * division) * division


def down(mass, division):
    return mass // division * division


def grams(mass):
    return Fraction(mass, MICRO)


class Scale:
    def __init__(self, entry, index):
        self.index = index
        self.division = micro(entry["division_g"])
        self.capacity = micro(entry["capacity_g"])
        self.accuracy = micro(entry.get("accuracy_g", 0))
        self.vessel = micro(entry.get("vessel_g", 0))


def scales_of(recipe):
    entries = recipe.get("scales") or [{"division_g": 1, "capacity_g": 5000}]
    return [Scale(entry, index) for index, entry in enumerate(entries)]


def pick(scales, exact_g):
    """The finest scale that holds the item and its vessel; the largest where none does. Second value: it holds it."""
    mass = micro(exact_g)
    able = [scale for scale in scales if mass + scale.vessel <= scale.capacity]
    if able:
        return min(able, key=lambda scale: (scale.division, scale.index)), True
    return max(scales, key=lambda scale: (scale.capacity, -scale.index)), False


def hamilton(weights, whole, division):
    """Largest remainders: a tie goes to the larger part, then to the earlier."""
    units, total = whole // division, sum(weights)
    quotas = [Fraction(weight) * units / total for weight in weights]
    parts = [floor(quota) for quota in quotas]
    order = sorted(range(len(weights)), key=lambda i: (-(quotas[i] - parts[i]), -weights[i], i))
    for i in order[: units - sum(parts)]:
        parts[i] += 1
    return [part * division for part in parts]


class Weighed:
    """One thing on a scale."""

    def __init__(self, key, exact_g, scale, mass):
        self.key, self.exact, self.scale, self.mass = key, exact_g, scale, mass

    @property
    def g(self):
        return grams(self.mass)

    @property
    def division(self):
        return self.scale.division


def weigh(scales, key, exact_g, rounding=nearest):
    scale, _ = pick(scales, exact_g)
    return Weighed(key, exact_g, scale, rounding(micro(exact_g), scale.division))


def weigh_oils(scales, keys, exact, by_percent):
    """Oils in grams are rounded singly; those of a percent recipe keep their total."""
    weighed = [weigh(scales, key, mass) for key, mass in zip(keys, exact)]
    if not by_percent:
        return weighed
    used = [item for item in weighed if item.exact > 0]
    divisions = sorted({item.division for item in used}, reverse=True)
    left = nearest(micro(sum(exact)), divisions[0])
    for division in divisions:
        group = [item for item in used if item.division == division]
        subtotal = left if division == divisions[-1] else nearest(micro(sum(item.exact for item in group)), division)
        weights = [item.exact for item in group]
        for item, mass in zip(group, hamilton(weights, subtotal, division)):
            item.mass = mass
        left -= subtotal
    return weighed
