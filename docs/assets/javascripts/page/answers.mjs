/** What the page shows of the solution: the currents with their meaning, parts and potentials. Mirrors page/answers.py. */

import { fraction } from "../laws/fraction.mjs";
import { currentText, flowsAsAssumed } from "../laws/meaning.mjs";
import { rounded, withUnit } from "../laws/numeral.mjs";
import { chargeOf } from "../laws/solution.mjs";
import { toUnits } from "../laws/units.mjs";
import { math, quantity } from "./mathml.mjs";
import { setText } from "./prose.mjs";
import { joined, say, tell } from "./saying.mjs";
import { setPoint } from "./setup.mjs";
import { cell, column, numberCell, rowHeading, table } from "./table.mjs";
import { currentSentence } from "./words.mjs";

/**
 * @param {import("../laws/meaning.mjs").Worked} worked with a solution
 * @returns {import("./saying.mjs").Tree[]}
 */
export function viewCurrents(worked) {
  return [
    ...viewAnswers(worked),
    ...viewList("batteries", sayBatteries(worked), worked.topology),
    ...viewList("readings", worked.solution.parts.flatMap((state) => sayReading(state, worked)), worked.topology),
    ["h3", { id: "every-part" }, say("parts.heading")],
    ["p", {}, ...tell("parts.intro")],
    viewParts(worked),
    ["h3", { id: "potentials" }, say("potentials.heading")],
    viewPotentials(worked),
  ];
}

function viewAnswers(worked) {
  const { branches } = worked.topology;
  if (!branches.length) return [["p", {}, ...tell("currents.none")]];
  const head = ["current", "exact", "rounded", "sign"].map((key) => column(say(`currents.${key}`), key === "exact" || key === "rounded" ? "number" : ""));
  const answers = branches.map((branch) => viewAnswer(branch, worked));
  return [
    table("answers", head, answers.map((answer) => answer.row), say("currents.table")),
    ["p", {}, ...tell("currents.meanings")],
    ["ul", { class: "meanings" }, ...answers.map((answer) => answer.meaning)],
  ];
}

function viewAnswer(branch, { topology, units, solution, layout }) {
  const { current } = branch;
  const value = solution.currents.get(current);
  const asAssumed = flowsAsAssumed(value);
  const isAsked = branch.steps.some((step) => topology.asked.includes(step.part.name));
  const here = toUnits(value, units.current, units);
  const name = setText(current, topology);
  const asked = isAsked ? [" ", ["span", { class: "asked-mark" }, say("currents.asked")]] : [];
  const sign = say(`currents.${asAssumed === null ? "no_current" : asAssumed ? "as_assumed" : "opposite"}`);
  const cells = [rowHeading(...name, ...asked), numberCell(math(quantity(here, units.current))), numberCell(withUnit(rounded(here), units.current)), cell(sign)];
  const means = setText(currentSentence(branch, layout, currentText(value.size(), units), asAssumed), topology);
  return {
    row: ["tr", { "data-current": current, class: isAsked ? "asked" : "" }, ...cells],
    meaning: ["li", { "data-current": current }, ...tell("currents.meaning", { name, means })],
  };
}

function viewList(id, said, topology) {
  if (!said.length) return [];
  return [["h3", { id }, say(`${id}.heading`)], ["ul", {}, ...said.map((text) => ["li", {}, ...setText(text, topology)])]];
}

/** Which batteries give power and which are charged. */
function sayBatteries({ solution, units }) {
  return solution.parts.filter((state) => state.part.kind === "battery").map((state) => {
    const key = state.role === "giving" && !state.power.isNegative ? "giving_and_taking" : state.role;
    const power = withUnit(rounded(toUnits(state.power.size(), units.power, units)), units.power);
    return say(`batteries.${key}`, { name: state.part.name, current: currentText(state.current.size(), units), power });
  });
}

/** The sentence of one meter or capacitor. */
function sayReading(state, { units }) {
  const { part, voltage } = state;
  const said = { name: part.name, start: part.start, end: part.end };
  if (part.kind === "ammeter") return [say("readings.ammeter", { ...said, current: currentText(state.current, units) })];
  if (part.kind !== "voltmeter" && part.kind !== "capacitor") return [];
  if (voltage === null) return [say(`readings.${part.kind}_unfixed`, said)];
  const across = withUnit(rounded(toUnits(voltage, units.voltage, units)), units.voltage);
  const charge = chargeOf(state);
  return [say(`readings.${part.kind}`, { ...said, voltage: across, charge: charge && chargeText(charge.size()) })];
}

/** A charge in the unit in which it reads best. */
export function chargeText(charge) {
  const units = [["C", 1], ["mC", 10 ** 3], ["µC", 10 ** 6], ["nC", 10 ** 9], ["pC", 10 ** 12]].map(([unit, size]) => [unit, charge.times(fraction(size))]);
  const [unit, size] = units.find(([, each]) => each.isZero || each.compare(fraction(1)) >= 0) ?? units.at(-1);
  return withUnit(rounded(size), unit);
}

/** What happens in every part, in the page's units. */
function viewParts({ solution, units, topology }) {
  const head = [
    column(say("parts.part")),
    column(say("parts.ends")),
    ...["current", "voltage", "power"].map((key) => column(say(`parts.${key}`, { unit: units[key] }), "number")),
    column(say("parts.role")),
  ];
  const number = (value, key) => numberCell(value === null ? say("parts.not_fixed") : rounded(toUnits(value, units[key], units)));
  const rows = solution.parts.map(({ part, current, voltage, power, role }) => [
    "tr",
    { "data-part": part.name },
    rowHeading(...setText(part.name, topology)),
    cell(...tell("parts.way", { start: setPoint(part.start), end: setPoint(part.end) })),
    number(current, "current"),
    number(voltage, "voltage"),
    number(power, "power"),
    cell(say(`role.${role}`)),
  ]);
  return table("parts", head, rows, say("parts.heading"));
}

/** Every place with its potential; points that plain lines join stand together. */
function viewPotentials({ solution, units, topology }) {
  const places = groupPoints(topology);
  const head = [column(say("potentials.at")), column(say("potentials.potential", { unit: units.voltage }), "number")];
  const rows = [...places.values()].map((points) => {
    const value = solution.potentials.get(points[0]);
    const text = value === null ? say("parts.not_fixed") : rounded(toUnits(value, units.voltage, units));
    return ["tr", {}, rowHeading(...joined(points.map(setPoint), ", ")), numberCell(text)];
  });
  return table("potentials", head, rows);
}

function groupPoints({ points, node }) {
  const places = new Map();
  for (const point of points) places.set(node[point], [...(places.get(node[point]) ?? []), point]);
  return places;
}
