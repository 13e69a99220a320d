/** Practice values: the same circuit with other emfs and resistances, always the same. Mirrors laws/practice.py. */

import { readTopology } from "./circuit.mjs";
import { solve } from "./elimination.mjs";
import { rowOf, writeEquations } from "./equation.mjs";
import { fraction, parse } from "./fraction.mjs";
import { equationsInUnits, equationText, flowsAsAssumed } from "./meaning.mjs";
import { decimals, SPACE, withUnit } from "./numeral.mjs";
import { readUnits, toUnits } from "./units.mjs";

const MOST_DRAWS = 40;
const SIZES = [1n, 2n, 3n, 4n, 5n, 6n, 8n, 10n, 12n];
const LARGEST_WHOLE = 30n;

/** A value is kept in the JSON object under one key, and as it is printed under another. */
const TEXT_OF = { value: "text", internal_resistance: "internal_text" };

/**
 * @typedef {{part: string, key: string, own: Quantity, choices: Quantity[]}} Slot a value that practice changes
 * @typedef {{exact: import("./fraction.mjs").Fraction, shown: string}} Quantity
 * @typedef {{flows: boolean[], gives: number[], unit: string, denominators: bigint[]}} Character
 */

/**
 * An example with the practice values of one set.
 * @param {object} example what `solve --json` prints
 * @param {number} number from 1 to 99
 * @returns {object} what `solve --json` prints for them, but for what the scripts work out themselves: meanings, voltages,
 *   powers, potentials, charges and checks
 */
export function takeSet(example, number) {
  const slots = findSlots(example);
  const own = findCharacter(example);
  let [best, least] = [example, [2, 0n]];
  for (const values of drawValues(slots, number)) {
    const drawn = { ...example, parts: putValues(example.parts, slots, values) };
    const score = judge(findCharacter(drawn), own);
    if (score[0] < least[0] || (score[0] === least[0] && score[1] < least[1])) [best, least] = [drawn, score];
    if (!least[0] && !least[1]) break;
  }
  return answer(best);
}

function findSlots({ parts }) {
  return Object.entries(parts).flatMap(([part, said]) =>
    ["battery", "resistor"].includes(said.kind) ? Object.keys(TEXT_OF).filter((key) => said[key] !== null).map((key) => makeSlot(part, key, said)) : [],
  );
}

function makeSlot(part, key, said) {
  const own = { exact: parse(said[key]), shown: said[TEXT_OF[key]] };
  return { part, key, own, choices: findChoices(own, said.kind === "battery" && key === "value") };
}

/** Round values near the author's, in the author's unit; none of them wider in print. */
function findChoices(own, isEmf) {
  const [digits, unit] = own.shown.split(SPACE);
  const step = 10n ** BigInt(digits.split(".")[1]?.length ?? 0);
  const size = parse(digits).times(fraction(step)).numerator;
  const near = isEmf && size <= LARGEST_WHOLE * step ? wholeNear(size, step) : [];
  const one = own.exact.over(parse(digits));
  const texts = (near.length > 2 ? near : roundNear(size)).map((each) => decimals(fraction(each, step)));
  return texts.filter((text) => printWidth(text) <= printWidth(digits)).map((text) => ({ exact: one.times(parse(text)), shown: withUnit(text, unit) }));
}

function wholeNear(size, step) {
  const found = [];
  for (let each = step; each <= 2n * size; each += step) if (2n * each >= size) found.push(each);
  return found;
}

function roundNear(size) {
  const powers = [...`${3n * size}`].map((_, power) => 10n ** BigInt(power));
  const found = powers.flatMap((power) => SIZES.map((factor) => factor * power)).filter((each) => size <= 3n * each && each <= 3n * size);
  return [...new Set(found)].sort((one, other) => (one < other ? -1 : 1));
}

/** How wide digits are in print; a point is half as wide as a digit. */
const printWidth = (digits) => 2 * digits.length - (digits.includes(".") ? 1 : 0);

/** One draw after the other; the last slot goes through its other values from set to set. */
function* drawValues(slots, number) {
  if (!slots.length) return;
  const last = slots.at(-1);
  const others = last.choices.filter(({ exact }) => !exact.equals(last.own.exact));
  let state = 0;
  for (const letter of slots.map(({ part, own }) => `${part} ${own.shown}`).join(";")) state = scramble(state ^ letter.codePointAt(0));
  const turned = others[(state + number) % others.length];
  state ^= number;
  for (let draw = 0; draw < MOST_DRAWS; draw += 1) {
    const values = slots.slice(0, -1).map(({ choices }) => {
      state = scramble(state + 0x9e3779b9);
      return choices[state % choices.length];
    });
    yield [...values, turned];
  }
}

/** One of 2³² numbers from another, with no pattern left. */
function scramble(number) {
  const first = Math.imul(number ^ (number >>> 16), 0x7feb352d);
  const second = Math.imul(first ^ (first >>> 15), 0x846ca68b);
  return (second ^ (second >>> 16)) >>> 0;
}

function putValues(parts, slots, values) {
  const put = { ...parts };
  slots.forEach(({ part, key }, at) => (put[part] = { ...put[part], [key]: `${values[at].exact}`, [TEXT_OF[key]]: values[at].shown }));
  return put;
}

function findCharacter(example) {
  const topology = readTopology(example);
  const currents = solveFor(writeEquations(topology));
  const units = chooseUnits(topology.parts);
  const steps = topology.branches.flatMap((branch, at) => branch.steps.filter((step) => step.part.kind === "battery").map((step) => [step, currents[at]]));
  return {
    flows: currents.map((current) => !current.isZero),
    gives: steps.map(([step, current]) => (step.forward ? current : current.negated()).compare(fraction(0))),
    unit: units.current,
    denominators: currents.map((current) => toUnits(current, units.current, units).denominator),
  };
}

const solveFor = ({ unknowns, equations }) => solve(equations.map((each) => rowOf(each, unknowns)), equations.map((each) => each.right));

/** The units in which the values read best, as `choose_units` of laws/units.py finds them. */
function chooseUnits(parts) {
  const isWithin = (values, least, most) => values.length && values.every((each) => each.compare(fraction(least)) >= 0) && values.some((each) => each.compare(fraction(most)) >= 0);
  const resistances = parts.map((part) => part.resistance).filter((each) => each && !each.isZero);
  const emfs = parts.map((part) => part.emf).filter((each) => !each.isZero);
  const isSmall = emfs.length && emfs.every((each) => each.compare(fraction(1, 10)) < 0) && resistances.every((each) => each.compare(fraction(1000)) < 0);
  if (isWithin(resistances, 1e5, 1e6)) return readUnits({ voltage: "V", resistance: "MΩ", current: "µA" });
  if (isWithin(resistances, 100, 1000)) return readUnits({ voltage: "V", resistance: "kΩ", current: "mA" });
  return readUnits(isSmall ? { voltage: "mV", resistance: "Ω", current: "mA" } : { voltage: "V", resistance: "Ω", current: "A" });
}

/** What rests in the author's circuit may flow; but no battery may be charged that the author's page does not say so of. */
function judge(drawn, own) {
  const flows = drawn.flows.every((each, at) => each || !own.flows[at]);
  const gives = drawn.gives.every((each, at) => each === own.gives[at] || (own.gives[at] === 0 && each > 0));
  const untidy = drawn.denominators.filter((each) => each > 20n && 1000n % each).reduce((most, each) => (each > most ? each : most), 0n);
  return [flows && gives && drawn.unit === own.unit ? 0 : 1, untidy];
}

/** The object anew. Its nodes are an object of their own too: by it the laws remember what is cheapest by hand. */
function answer({ potentials, found, checks, ...best }) {
  const parts = Object.fromEntries(Object.entries(best.parts).map(([name, { current, voltage, power, role, ...given }]) => [name, given]));
  const example = { ...best, parts, nodes: { ...best.nodes } };
  const topology = readTopology(example);
  const units = chooseUnits(topology.parts);
  const set = writeEquations(topology);
  const { equations } = equationsInUnits(set, units);
  return {
    ...example,
    units: { voltage: units.voltage, resistance: units.resistance, current: units.current },
    equations: set.equations.map((each, at) => ({
      rule: each.rule,
      origin: each.origin,
      text: equationText(equations[at]),
      coefficients: rowOf(each, set.unknowns).map(String),
      right: `${each.right}`,
    })),
    currents: solveFor(set).map((value, at) => ({ name: set.unknowns[at], exact: `${value}`, as_assumed: flowsAsAssumed(value) })),
  };
}
