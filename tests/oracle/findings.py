"""Which findings a plan must have, and which the text leaves open near a threshold; all others must not be there."""

from fractions import Fraction

import product
from oracle import mould_ml
from weigh import pick

NEAR = 2e-4  # shares closer than this to a threshold may fall on either side of it


class Findings:
    """must: code -> set of levels, one of which has to be there. may: codes that are allowed."""

    def __init__(self, plan):
        self.plan, self.formula, self.must, self.may = plan, plan.formula, {}, {"window-short"}
        self._margin()
        self._portion_margins()
        self._strength()
        self._sap()
        self._doses()
        self._fragrance()
        self._colours()
        self._rest()

    def over(self, value, threshold, code, level, near=NEAR):
        """A finding wherever value is above threshold."""
        value, threshold = float(value), float(threshold)
        if abs(value - threshold) < near:
            self.may.add(code)
        elif value > threshold:
            self.must[code] = {level}

    def _margin(self):
        margin, purpose = self.plan.margin, self.plan.recipe.get("purpose", "skin")
        careful = purpose in ("skin", "shaving")
        tests = [("lye-heavy", "stop", -margin["nominal"], 0.0)]
        if careful:
            tests.append(("lye-heavy", "stop", margin["chance"], 0.25))
        tests.append(("lye-likely", "caution" if careful else "remark", -margin["likely"][0], 0.0))
        tests.append(("lye-worst", "remark", -margin["worst"][0], 0.0))
        for code, level, value, threshold in tests:
            if abs(value - threshold) < NEAR:
                self.may |= {"lye-heavy", "lye-likely", "lye-worst"}
                break
            if value > threshold:
                self.must[code] = {level}
                break
        self.over(margin["mass_share"], 1 / 3, "division-coarse", "remark")
        moved = abs(margin["nominal"] - float(self.formula.superfat))
        if "division-coarse" not in self.must:
            self.over(moved, 0.005, "division-coarse", "remark")

    def _portion_margins(self):
        """A portion that is lye-heavy by its reserved oil stops; one that only differs may bring its own word."""
        for portion in self.plan.portions:
            superfat = float(portion.superfat(self.plan))
            if superfat < self.plan.margin["nominal"] - NEAR:
                self.may |= {"lye-heavy", "lye-likely", "lye-worst"}
                if superfat < -NEAR:
                    self.must["lye-heavy"] = {"stop"}

    def _strength(self):
        if self.plan.exact.weak:
            self.must["solution-weak"] = {"stop"}
            self.may |= {"strength-over", "strength-high", "strength-low"}
            return
        strength = float(self.plan.exact.strength)
        soluble = 0.522 * float(self.formula.moles["NaOH"]) + 0.528 * float(self.formula.moles["KOH"])
        self.over(strength, soluble, "strength-over", "stop")
        if "strength-over" in self.must:
            self.may.add("strength-high")
        else:
            self.over(strength, 0.40, "strength-high", "caution")
        self.over(-strength, -0.25, "strength-low", "remark")

    def _sap(self):
        for oil, (lo, value, hi) in zip(self.plan.recipe["oils"], self.formula.sap):
            if "sap" not in oil:
                continue
            if "sap_range" not in oil:
                self.must["sap-no-range"] = {"remark"}
            fact = self.formula.facts.oils.get(oil["oil"])
            inside = fact is not None and fact["sap"][0] <= value <= fact["sap"][2]
            if value < 1:
                self.must["sap-unit"] = {"stop"}
                self.may.add("sap-far")
            elif 100 <= value <= 150 and not inside:
                self.must.setdefault("sap-unit", {"caution"})
                self.may.add("sap-far")
            elif fact and not fact["sap"][0] * Fraction(95, 100) <= value <= fact["sap"][2] * Fraction(105, 100):
                self.must["sap-far"] = {"caution"}

    def _doses(self):
        plan = self.plan
        doses = [item for item, _ in plan.batter.additives] + plan.batter.extras
        for portion in plan.portions:
            doses += portion.fragrance + portion.colourants
        for item in doses:
            if item.exact > 0:
                self.over(-item.exact, -Fraction(5 * item.division, 10**6), "dose-small", "caution", 1e-6)
        if plan.split.stop:
            self.may |= {"dose-small", "colour-shifts", "fragrance-limit", "fragrance-fast", "pieces-short",
                         "mould-over"}
            # Portions stand as asked then, and one may still be told lye-heavy by what the others keep back.
            if any(not dose.get("carrier_extra", True) for portion in plan.recipe.get("portions", [])
                   for dose in portion.get("colourants", [])):
                self.may |= {"lye-heavy", "lye-likely", "lye-worst"}
            self.must[plan.split.stop] = {"stop"}
        weighed = [item for item, _ in plan.batter.additives + plan.batter.liquids] + plan.batter.oils
        weighed += list(plan.batter.alkali.values()) + [plan.batter.water]
        if any(not pick(plan.batter.scales, item.exact)[1] for item in weighed):
            self.must["scale-small"] = {"remark"}
        else:
            self.may |= {"scale-small"} if not all(pick(plan.batter.scales, p.g)[1] for p in plan.portions) else set()

    def _fragrance(self):
        plan, facts = self.plan, self.formula.facts
        for factor, stops in plan.limits:
            if abs(factor - 1) < Fraction(1, 500):
                self.may.add("fragrance-limit")
            elif factor < 1:
                levels = self.must.setdefault("fragrance-limit", {"caution"})
                if stops:
                    levels.clear()
                    levels.add("stop")
        for portion in plan.portions:
            shares = portion.fragrance_shares()
            fast = any(facts.fragrances[key]["fast"] == "strong" and share > 0 for key, share in shares.items())
            if fast and portion.technique == "pipe":
                self.must["fragrance-fast"] = {"caution"}
            elif fast:
                self.may.add("fragrance-fast")

    def _colours(self):
        for portion in self.plan.recipe.get("portions", []):
            for dose in portion.get("colourants", []):
                behaviour = self.formula.facts.colourants[dose["colourant"]]
                if behaviour.startswith("shifts"):
                    self.must["colour-shifts"] = {"remark"}
                elif behaviour != "stable":
                    self.may.add("colour-shifts")

    def _rest(self):
        plan, formula = self.plan, self.formula
        acids = product.fatty_acids(formula)[0]
        poly = acids.get(product.LINOLEIC, Fraction(0)) + acids.get(product.LINOLENIC, Fraction(0))
        self.over(poly, Fraction(15, 100), "rancid-risk", "remark")
        sugar = sum((mass * fact["sugar"] for _, mass, fact in plan.exact.liquids), Fraction(0))
        self.over(sugar / plan.oils, Fraction(1, 100), "heat-boil", "caution")
        reached, boils = product.heat(formula, plan.batter)
        if any(formula.solution.values()) or plan.exact.weak:
            self.may.add("heat-boil")
        elif reached > boils + 6:
            self.must["heat-boil"] = {"caution"}
        elif reached > boils - 6:
            self.may.add("heat-boil")
        self._mould()
        for portion in plan.portions:
            pieces = portion.pieces(plan)
            if pieces:
                self.over(pieces["asked"], pieces["chance"], "pieces-short", "caution", 1e-9)

    def _mould(self):
        """Over where more lies in the mould than it is to be filled with. All portions lie in it where it sizes the
        recipe; else what is piped does not, unless as a layer. What rounding explains is no spill: the text leaves open
        how much that is, so anything from nothing to a percent and a half and three divisions."""
        plan = self.plan
        mould = plan.recipe.get("size", {}).get("mould") or plan.recipe.get("mould")
        if mould is None:
            return
        sized = "mould" in plan.recipe.get("size", {})
        lying = [p for p in plan.portions if sized or p.technique != "pipe" or "layer_mm" in p.asked]
        over, full = sum(p.volume for p in lying), float(mould_ml(mould))
        slack = 3 * plan.split.division / 1e6 / plan.density if lying else 0.0
        if over > full * 1.015 + slack:
            self.must["mould-over"] = {"caution"}
        elif over > full:
            self.may.add("mould-over")

    def problems(self, found):
        """Sentences about a list of {code, level}; empty where all is as it must be."""
        levels = {}
        for finding in found:
            levels.setdefault(finding["code"], set()).add(finding["level"])
        result = []
        for code, allowed in self.must.items():
            if not levels.get(code, set()) & allowed:
                result.append(("finding " + code, sorted(levels.get(code, {"none"})), sorted(allowed)))
        for code in levels:
            if code not in self.must and code not in self.may:
                result.append(("finding " + code, sorted(levels[code]), "none"))
        return result
