"""Sections 1, 2 and the sizes of 7: what goes in, exactly, before any rounding. All in fractions."""

from fractions import Fraction

from rows import MOLAR, M_KOH

ONE, ZERO = Fraction(1), Fraction(0)
PURITY = {"NaOH": (Fraction("0.985"), ONE, ONE), "KOH": (Fraction("0.85"), Fraction("0.9"), Fraction("0.95"))}


def ranged(value, otherwise):
    """(lo, nominal, hi) shares of a percent that is a number, a range, or both."""
    if value is None:
        return otherwise
    if isinstance(value, dict):
        lo, hi = value["range"]
        return lo / 100, value["nominal"] / 100, hi / 100
    if isinstance(value, list):
        return value[0] / 100, (value[0] + value[1]) / 200, value[1] / 100
    return (value / 100,) * 3


def load_of(fragrance, oils, batter):
    """Grams of a fragrance for so much oil in so much batter."""
    if "percent_of_oils" in fragrance:
        return fragrance["percent_of_oils"] / 100 * oils
    if "percent_of_batter" in fragrance:
        return fragrance["percent_of_batter"] / 100 * batter
    return fragrance["g_per_kg_oils"] / 1000 * oils


class Formula:
    """A recipe with its facts; `at(oils)` gives every exact mass at that many grams of oils."""

    def __init__(self, recipe, facts):
        self.recipe, self.facts = recipe, facts
        self.keys = [oil["oil"] for oil in recipe["oils"]]
        self.by_percent = "percent" in recipe["oils"][0]
        amounts = [oil["percent"] if self.by_percent else oil["grams"] for oil in recipe["oils"]]
        self.entered = sum(amounts)
        self.shares = [amount / sum(amounts) for amount in amounts]
        self.sap = [self._sap(oil) for oil in recipe["oils"]]
        self.superfat = recipe["superfat_percent"] / 100
        alkali = recipe.get("alkali", {})
        potassium = alkali.get("potassium_percent", ZERO) / 100
        self.moles = {"NaOH": 1 - potassium, "KOH": potassium}
        self.purity = {kind: ranged(alkali.get(kind.lower() + "_purity_percent"), PURITY[kind]) for kind in MOLAR}
        self.solution = {kind: alkali.get(kind.lower() + "_solution_percent", ZERO) / 100 for kind in MOLAR}
        self.kinds = [kind for kind in MOLAR if self.moles[kind] > 0]
        self.grams_per_mol = sum(self.moles[k] * MOLAR[k] / self.purity[k][1] for k in self.kinds)

    def _sap(self, oil):
        """Key of the input, (lo, nominal, hi); the maker's value goes before the published one."""
        if "sap" not in oil:
            return self.facts.oils[oil["oil"]]["sap"]
        value = oil["sap"]
        lo, hi = oil.get("sap_range", (value * 99 / 100, value * 101 / 100))
        return lo, value, hi

    def sap_of(self, key):
        """Nominal value of an oil used beside the recipe's: that of the recipe's own line, else the published one."""
        own = [sap[1] for name, sap in zip(self.keys, self.sap) if name == key]
        return own[0] if own else self.facts.oils[key]["sap"][1]

    def demand_of_fat(self, oil_key):
        return self.facts.oils[oil_key]["sap"][1] / 1000 / M_KOH if oil_key else ZERO

    def additives(self, oils):
        result = []
        for entry in self.recipe.get("additives", []):
            mass = entry["grams"] if "grams" in entry else entry["percent_of_oils"] / 100 * oils
            result.append((entry["additive"], mass, self.facts.additives[entry["additive"]]))
        return result

    def liquids(self):
        """(key, grams of it per gram of all water, share of the water, its facts)."""
        result = []
        for entry in self.recipe["water"].get("liquids", []):
            fact, share = self.facts.liquids[entry["liquid"]], entry["percent_of_water"] / 100
            result.append((entry["liquid"], share / fact["water"], share, fact))
        return result

    def at(self, oils):
        """Exact masses. The loop water -> liquid -> fat and acid -> alkali -> water is closed by one division."""
        additives, liquids = self.additives(oils), self.liquids()
        demand = sum(share * sap[1] for share, sap in zip(self.shares, self.sap)) * oils / 1000 / M_KOH
        demand += sum(mass * fact["fat"] * self.demand_of_fat(fact["fat_oil"]) for _, mass, fact in additives)
        acid = sum((mass * fact["acid"] for _, mass, fact in additives), ZERO)
        fat_per_water = sum((per * fact["fat"] * self.demand_of_fat(fact["fat_oil"])
                             for _, per, _, fact in liquids), ZERO)
        acid_per_water = sum((per * fact["acid"] for _, per, _, fact in liquids), ZERO)

        dry = self.grams_per_mol * ((1 - self.superfat) * demand + acid)
        wet = self.grams_per_mol * ((1 - self.superfat) * fat_per_water + acid_per_water)
        water_entry = self.recipe["water"]
        if "percent_of_oils" in water_entry:
            water = water_entry["percent_of_oils"] / 100 * oils
        else:
            strength = water_entry.get("strength_percent", ZERO) / 100
            per_alkali = water_entry["ratio"] if "ratio" in water_entry else (1 - strength) / strength
            water = per_alkali * dry / (1 - per_alkali * wet)
        return Exact(self, oils, additives, liquids, water, (dry + wet * water) / self.grams_per_mol)

    def in_batter(self, oils, batter_alone):
        """Fragrance and colourants that go into the whole batter before it is split: (key, exact grams)."""
        recipe, result = self.recipe, []
        if recipe.get("colour") == "batter":
            for portion in recipe.get("portions", []):
                for dose in portion.get("colourants", []):
                    mass = dose["grams"] if "grams" in dose else dose["g_per_kg_oils"] / 1000 * oils
                    result.append((dose["colourant"], mass))
        if recipe.get("scent") == "batter":
            batter = batter_alone + sum((mass for _, mass in result), ZERO)
            result += [(f["fragrance"], load_of(f, oils, batter)) for f in recipe.get("fragrance", [])]
        return result

    def oils_for_batter(self, batter):
        """All but fixed grams grows with the oils, so two points fix the line: one where there is plain water to weigh,
        and where that finds none, one where there is not."""
        for low, high in ((batter, 2 * batter), (batter / 1000, batter / 500)):
            at_low, at_high = self.at(low).batter, self.at(high).batter
            oils = low + (batter - at_low) * (high - low) / (at_high - at_low)
            if oils > 0 and self.at(oils).weak == self.at(low).weak:
                break
        return oils


class Exact:
    def __init__(self, formula, oils, additives, liquids, water, moles):
        self.oils, self.water, self.moles = oils, water, moles
        self.oil = [share * oils for share in formula.shares]
        self.additives = [(key, mass, fact) for key, mass, fact in additives]
        self.liquids = [(key, per * water, fact) for key, per, _, fact in liquids]
        self.alkali = {k: formula.moles[k] * moles * MOLAR[k] / formula.purity[k][1] for k in formula.kinds}
        self.solution = {k: self.alkali[k] / formula.solution[k] for k in formula.kinds if formula.solution[k]}
        self.brought = sum((mass - self.alkali[k] for k, mass in self.solution.items()), ZERO)
        self.brought += sum((mass * fact["water"] for _, mass, fact in self.liquids), ZERO)
        self.brought += sum((mass * fact["water"] for _, mass, fact in self.additives), ZERO)
        self.plain = water - self.brought
        self.weak = self.plain < 0
        total = sum(self.alkali.values())
        self.strength = total / (total + water) if total + water else ZERO
        self.batter_alone = oils + total + self.brought + max(self.plain, ZERO)
        self.batter_alone += sum((mass * (1 - fact["water"]) for _, mass, fact in self.liquids + self.additives), ZERO)
        self.batter = self.batter_alone + sum((mass for _, mass in formula.in_batter(oils, self.batter_alone)), ZERO)
