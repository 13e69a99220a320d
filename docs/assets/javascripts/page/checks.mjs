/** The answer held against what was not used to find it. Mirrors view_sums and power_sums of page/answers.py. */

import { writeJunction, writeLoop } from "../laws/equation.mjs";
import { ONE, total } from "../laws/fraction.mjs";
import { findUnusedLoop } from "../laws/loop.mjs";
import { MINUS, SPACE, isExactWhenRounded, plain, rounded, withUnit } from "../laws/numeral.mjs";
import { toUnits } from "../laws/units.mjs";
import { setText } from "./prose.mjs";
import { say, tell } from "./saying.mjs";
import { setPoint } from "./setup.mjs";

/**
 * @param {import("../laws/meaning.mjs").Worked} worked with a solution
 * @returns {import("./saying.mjs").Tree[]}
 */
export function viewChecks(worked) {
  const sums = [...checkJunctions(worked), ...checkLoop(worked)].map(({ says, values }) => viewSum(says, values));
  const power = ["li", {}, ["p", {}, ...tell("checks.power", powerSums(worked))]];
  const opinion = worked.topology.branches.length ? [["li", { class: "second-opinion" }, ["p", {}, ...secondOpinion(worked)]]] : [];
  return [["p", {}, ...tell("checks.intro")], ["ul", { class: "checks" }, ...sums, power, ...opinion]];
}

/** The junctions left out. */
function checkJunctions({ topology, units, solution }) {
  return topology.junctions.filter((junction) => !junction.used).map((junction) => ({
    says: tell("checks.junction", { name: setPoint(junction.name), unit: units.current }),
    values: writeJunction(junction, topology.branches).terms.map(({ factor, current }) => [factor, toUnits(factor.times(solution.currents.get(current)), units.current, units)]),
  }));
}

/** One loop that is not in the set. */
function checkLoop({ topology, units, solution }) {
  const loop = findUnusedLoop(topology);
  if (!loop) return [];
  const parts = loop.steps.map((step) => step.part.name).join(", ");
  const terms = writeLoop(loop, topology).terms.filter((term) => !term.factor.isZero);
  const says = setText(say("checks.loop", { parts, start: loop.start, unit: units.voltage }), topology);
  return [{ says, values: terms.map(({ factor, current }) => [factor, toUnits(factor.times(solution.currents.get(current) ?? ONE), units.voltage, units)]) }];
}

/**
 * A sum that is zero, from each term's factor and value, which may be broken before each of its signs; long numbers are
 * rounded to five figures, and then it says so. A value of zero has the sign that the rule gives its term.
 */
function viewSum(says, values) {
  const isExact = values.every(([, value]) => isExactWhenRounded(value, 5));
  const terms = values.map(([factor, value], at) => {
    const sign = (value.isZero ? factor : value).isNegative ? MINUS : "+";
    return (at ? sign + SPACE : sign.replace("+", "")) + (isExact ? plain(value.size()) : rounded(value.size(), 5));
  });
  const note = isExact ? [] : [["p", {}, ...tell("checks.rounded")]];
  return ["li", {}, ["p", {}, ...says], ["p", { class: "equation" }, `${terms.join(" ")}${SPACE}${isExact ? "=" : "≈"}${SPACE}0`], ...note];
}

/** Power given and power taken up, with unit. */
function powerSums({ solution, units }) {
  const powers = solution.parts.map((state) => toUnits(state.power, units.power, units));
  const text = (values) => withUnit(rounded(total(values).size()), units.power);
  return { given: text(powers.filter((power) => power.isNegative)), taken: text(powers.filter((power) => power.isPositive)) };
}

/** NumPy's answer to the page's own set; to any other set, and other values, that of this page in floating point. */
function secondOpinion({ example, solution, isOwnSet }) {
  const isPrinted = isOwnSet && example.checks;
  const difference = isPrinted ? example.checks.numpy_difference : solution.checks.difference;
  const bound = say(`checks.${difference < 1e-9 ? "billionth" : difference < 1e-6 ? "millionth" : "thousandth"}`);
  return tell(isPrinted ? "checks.numpy" : "checks.browser", { difference: differenceText(difference), bound });
}

/** The distance of a floating-point answer, as a power of ten. */
export function differenceText(difference, unit = "A") {
  if (!difference) return withUnit("0", unit);
  const [size, power] = difference.toExponential(0).split("e");
  const raised = String(Number(power)).replace(/./g, (sign) => "⁻⁰¹²³⁴⁵⁶⁷⁸⁹"["-0123456789".indexOf(sign)]);
  return `${size}${SPACE}×${SPACE}10${raised}${SPACE}${unit}`;
}
