"""Section 3: the superfat as an interval. Worst by trying corners, likely by numeric derivatives.

The superfat is s = 1 - (n - A) / D of three sums over what was weighed:
  n  mol of alkali     mass x share of alkali x purity / M
  A  mol taken by acid mass x mol per gram
  D  mol for the fats  mass x share of fat x S / 1000 / M(KOH)
Every uncertain input is an interval; nothing here knows which way a result moves with an input.
"""

from itertools import product
from math import sqrt
from statistics import NormalDist

from rows import MOLAR, M_KOH

FULL_SEARCH = 11  # inputs up to which every corner of all of them is tried at once


def mass_key(weighed):
    """Each weighing errs on its own, two lines of one oil too."""
    return "mass:%s:%d" % (weighed.key, id(weighed))


class Term:
    """One weighed thing in one of the three sums: (mass + reading error + scale error) x factor x input.

    No mass is below nothing, however coarse the scale."""

    def __init__(self, total, weighed, factor, input_key=None):
        self.total, self.weighed, self.factor, self.input_key = total, weighed, float(factor), input_key


class Margin:
    def __init__(self):
        self.inputs = {}  # key: (lo, hi)
        self.nominal = {}
        self.terms = []

    def add(self, total, weighed, factor, source=None):
        """source: (key, lo, nominal, hi) of a saponification value or purity; None for none."""
        if weighed.mass == 0 or factor == 0:
            return
        half = weighed.division / 2e6
        self._input(mass_key(weighed), -half, 0.0, half)
        accuracy = weighed.scale.accuracy / 1e6
        if accuracy:
            self._input("accuracy:%d" % weighed.scale.index, -accuracy, 0.0, accuracy)
        if source:
            self._input(*source)
        self.terms.append(Term(total, weighed, factor, source[0] if source else None))

    def _input(self, key, lo, nominal, hi):
        self.inputs[key] = (float(lo), float(hi))
        self.nominal[key] = float(nominal)

    def totals(self, values, only=None):
        sums = {"n": 0.0, "A": 0.0, "D": 0.0}
        for term in self.terms:
            if only and term.total != only:
                continue
            mass = term.weighed.mass / 1e6 + values[mass_key(term.weighed)]
            mass += values.get("accuracy:%d" % term.weighed.scale.index, 0.0)
            sums[term.total] += max(mass, 0.0) * term.factor * (values[term.input_key] if term.input_key else 1.0)
        return sums

    def superfat(self, values):
        sums = self.totals(values)
        return 1 - (sums["n"] - sums["A"]) / sums["D"]

    def _values_at(self, keys, corner):
        values = {key: (lo + hi) / 2 for key, (lo, hi) in self.inputs.items()}
        values.update(zip(keys, corner))
        return values

    def worst(self):
        keys = [key for key, (lo, hi) in self.inputs.items() if hi > lo]
        if len(keys) <= FULL_SEARCH:
            seen = [self.superfat(self._values_at(keys, c)) for c in product(*(self._ends(key) for key in keys))]
            return min(seen), max(seen)
        return self._worst_by_terms(keys)

    def _ends(self, key):
        """Both ends of an input; of a scale's error also where a mass on it comes to nothing: there is a bend."""
        lo, hi = self.inputs[key]
        bends = set()
        for term in self.terms if key.startswith("accuracy:") else ():
            if key == "accuracy:%d" % term.weighed.scale.index:
                half = term.weighed.division / 2e6
                bends |= {half - term.weighed.mass / 1e6, -half - term.weighed.mass / 1e6}
        return [lo, hi] + [bend for bend in bends if lo < bend < hi]

    def _worst_by_terms(self, keys):
        """Scale errors are common to everything, so each of their corners is tried; within one the sums fall apart
        into groups of terms that share an input, and each group is tried on all of its own corners."""
        common = [key for key in keys if key.startswith("accuracy:")]
        seen = []
        for corner in product(*(self._ends(key) for key in common)):
            seen += self._join([self._group_corners(group, common, corner) for group in self._groups()])
        return min(seen), max(seen)

    def _groups(self):
        """Terms joined by a shared input other than a scale's error."""
        groups = []
        for term in self.terms:
            mine = {mass_key(term.weighed), term.input_key} - {None}
            joined = [group for group in groups if group[0] & mine]
            merged = (mine.union(*(group[0] for group in joined)), [t for group in joined for t in group[1]] + [term])
            groups = [group for group in groups if group not in joined] + [merged]
        return [group[1] for group in groups]

    def _group_corners(self, group, common, corner):
        part = Margin()
        part.terms = group
        used = {mass_key(term.weighed) for term in group} | {term.input_key for term in group} - {None}
        free = [key for key in used if self.inputs[key][1] > self.inputs[key][0]]
        result = set()
        for ends in product(*(self.inputs[key] for key in free)):
            values = self._values_at(free, ends)
            values.update(zip(common, corner))
            sums = part.totals(values)
            result.add((sums["n"], sums["A"], sums["D"]))
        return result

    @staticmethod
    def _join(groups):
        """Extremes of 1 - (n - A) / D over one choice from each group. Each group's choice is a point; for a level t
        the extreme over all choices of (1 - t) D - n + A is a sum of extremes: where it is 0 is found by halving."""
        found = []
        for best in (max, min):
            lo, hi = -50.0, 50.0
            for _ in range(80):
                level = (lo + hi) / 2
                if sum(best((1 - level) * d - n + a for n, a, d in group) for group in groups) > 0:
                    lo = level
                else:
                    hi = level
            found.append((lo + hi) / 2)
        return found

    def variances(self):
        """Variance from each input alone, at the middle of every range."""
        middle = {key: (lo + hi) / 2 for key, (lo, hi) in self.inputs.items()}
        result = {}
        for key, (lo, hi) in self.inputs.items():
            half = (hi - lo) / 2
            if half == 0:
                continue
            step = 1e-3 * half
            up, down = dict(middle), dict(middle)
            up[key] += step
            down[key] -= step
            slope = (self.superfat(up) - self.superfat(down)) / (2 * step)
            result[key] = (slope * half) ** 2 / 3
        return self.superfat(middle), result

    def summary(self):
        mean, parts = self.variances()
        variance = sum(parts.values())
        sd = sqrt(variance)
        worst = self.worst()
        likely = (max(mean - 2 * sd, worst[0]), min(mean + 2 * sd, worst[1]))
        chance = NormalDist(mean, sd).cdf(0) if sd > 0 else float(mean < 0)
        ranked = sorted(parts.items(), key=lambda item: -item[1])
        mass = sum(value for key, value in parts.items() if key.startswith(("mass:", "accuracy:")))
        return {"nominal": self.superfat(self.nominal), "mean": mean, "sd": sd, "worst": worst, "likely": likely,
                "chance": chance, "ranked": [(key, value / variance) for key, value in ranked] if variance else [],
                "mass_share": mass / variance if variance else 0.0}


def margin_of(formula, weighed):
    """From a formula and what was weighed: oils, alkali (or its solution), additives, liquids."""
    margin = Margin()
    for item, sap, key in zip(weighed.oils, formula.sap, formula.keys):
        margin.add("D", item, 1 / (1000 * M_KOH), ("sap:" + key,) + tuple(sap))
    for item, fact in weighed.additives + weighed.liquids:
        margin.add("A", item, fact["acid"])
        if fact["fat"]:
            sap = tuple(formula.facts.oils[fact["fat_oil"]]["sap"])
            own = any(key == fact["fat_oil"] and tuple(used) != sap for key, used in zip(formula.keys, formula.sap))
            margin.add("D", item, fact["fat"] / (1000 * M_KOH), ("sap:" + fact["fat_oil"] + "*" * own,) + sap)
    for kind, item in weighed.alkali.items():
        share = formula.solution[kind] or 1
        margin.add("n", item, share / MOLAR[kind], ("purity:" + kind,) + tuple(formula.purity[kind]))
    return margin
