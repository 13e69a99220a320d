/**
 * What each slip in one equation does to its row. The slips themselves, with sentence and source, are rows of
 * ../slips.mjs; here is, under the same name, the rule of each that changes one law.
 *
 * A rule takes a law and gives every way to make this slip in it: which part or current it is about, and the change of
 * the row as [column, amount] pairs.
 */

import { fraction } from "./fraction.mjs";
import { keep } from "./keep.mjs";

/**
 * @typedef {import("./check-laws.mjs").Law} Law
 * @typedef {{part: string | null, parts?: string[], column: number | null, change: [number, bigint][], value?: bigint}} Way
 *   value: what was written in place of the right size, in the unit of the row
 */

const resistances = (law) => law.terms.filter(({ nature, value }) => nature === "resistance" && value);
const emfs = (law) => law.terms.filter(({ nature }) => nature === "emf");
const size = (value) => (value < 0n ? -value : value);
const withSignOf = (value, amount) => (value < 0n ? -amount : amount);
const add = (values) => values.reduce((sum, value) => sum + value, 0n);
const isLoop = (law) => law.rule === "loop";
const lastColumn = (laws) => laws.unknowns.length;
const kindOf = (laws, term) => laws.part[term.part].kind;
const about = (term, amount) => ({ part: term.part, column: term.column, change: [[term.column, amount]] });
const aboutEmf = (term, amount) => ({ part: term.part, column: null, change: [[term.column, amount]] });

const resistorSign = (law) => resistances(law).map((term) => about(term, -2n * term.value));
const emfSign = (law) => emfs(law).map((term) => aboutEmf(term, -2n * term.value));

function everyEmfSign(law) {
  const [first, ...more] = emfs(law);
  const sum = add(emfs(law).map(({ value }) => value));
  return more.length && sum ? [{ ...aboutEmf(first, -2n * sum), parts: emfs(law).map(({ part }) => part) }] : [];
}

/** The current of several resistors of the loop taken the other way in all of them. */
function branchSign(law) {
  return byColumn(resistances(law)).filter((terms) => terms.length > 1).map((terms) => ({
    part: terms[0].part, parts: terms.map(({ part }) => part), column: terms[0].column,
    change: [[terms[0].column, -2n * add(terms.map(({ value }) => value))]],
  }));
}

/** Every resistor term of a loop with both signs written with one, in either sense of walking; for a single term it is its sign. */
function allMinus(law) {
  const all = resistances(law);
  return [(value) => value > 0n, (value) => value < 0n].map((isWrong) => all.filter(({ value }) => isWrong(value)))
    .filter((terms) => terms.length < all.length && byColumn(terms).length > 1)
    .map((terms) => ({
      part: terms[0].part, parts: terms.map(({ part }) => part), column: terms[0].column,
      change: byColumn(terms).map((alike) => [alike[0].column, -2n * add(alike.map(({ value }) => value))]),
    }));
}

function byColumn(terms) {
  const columns = [...new Set(terms.map(({ column }) => column))];
  return columns.map((column) => terms.filter((term) => term.column === column));
}

const missing = (ofBattery) => (law, laws) =>
  resistances(law).filter((term) => (kindOf(laws, term) === "battery") === ofBattery).map((term) => about(term, -term.value));

function missingBattery(law) {
  return emfs(law).flatMap((emf) => resistances(law).filter(({ part }) => part === emf.part).map((inner) => ({
    part: emf.part, column: inner.column, change: [[inner.column, -inner.value], [emf.column, -emf.value]],
  })));
}

/** A resistance as it stands in the page's units, where its voltage should be: 4 for 4 I2. */
function missingFactor(law, laws) {
  const unit = laws.choices[0].current;
  return resistances(law).map((term) => [term, fraction(term.value).times(unit)]).filter(([, voltage]) => voltage.isWhole).map(([term, voltage]) => ({
    ...about(term, -term.value), change: [[term.column, -term.value], [lastColumn(laws), voltage.numerator]],
  }));
}

/** All parts of one branch left out. */
function missingBranch(law, laws) {
  return byColumn(resistances(law)).flatMap((terms) => {
    const { column } = terms[0];
    const inBranch = law.terms.filter(({ part, value }) => value && laws.column[laws.topology.branchOf.get(part).current] === column);
    const parts = [...new Set(inBranch.map(({ part }) => part))];
    const rise = add(inBranch.filter(({ nature }) => nature === "emf").map(({ value }) => value));
    const change = [[column, -add(terms.map(({ value }) => value))], ...(rise ? [[lastColumn(laws), -rise]] : [])];
    return parts.length > 1 ? [{ part: parts[0], parts, column, change }] : [];
  });
}

/** Both terms of a battery, as if the walk went through it the other way. */
const batteryTurned = (law) => missingBattery(law).map((way) => ({ ...way, change: way.change.map(twofold) }));

/** All terms of a branch with an emf, as if the walk went along it the other way. */
const branchTurned = (law, laws) => missingBranch(law, laws).filter(({ change }) => change.length > 1).map((way) => ({ ...way, change: way.change.map(twofold) }));

const twofold = ([column, amount]) => [column, 2n * amount];

/** A part that is not on the loop, with either sign. */
const extra = (isIt, change) => (law, laws) => {
  const others = isLoop(law) ? laws.live.filter((part) => isIt(part) && !law.walk.includes(part.name)) : [];
  return others.flatMap((part) => [1n, -1n].map((sense) => ({ part: part.name, column: part.column, ...change(part, sense, lastColumn(laws)) })));
};

const twice = (law) => [...resistances(law).map((term) => about(term, term.value)), ...emfs(law).map((term) => aboutEmf(term, term.value))];

/** Values of other parts of the circuit in place of the part's own. */
function otherValue(law, laws) {
  return [...resistances(law).map((term) => [term, laws.sizes.drops]), ...emfs(law).map((term) => [term, laws.sizes.rises])]
    .flatMap(([term, values]) => values.filter((value) => value !== size(term.value)).map((value) => replaced(term, value)));
}

const prefix = (law) => [...resistances(law), ...emfs(law)].flatMap((term) => [size(term.value) * 1000n, size(term.value) / 1000n].map((value) => replaced(term, value)));

function replaced(term, value) {
  const way = term.nature === "emf" ? aboutEmf : about;
  return { ...way(term, withSignOf(term.value, value - size(term.value))), value };
}

function swappedValues(law) {
  return pairs(resistances(law)).filter(([one, other]) => one.column !== other.column && size(one.value) !== size(other.value)).map(([one, other]) => ({
    part: one.part, parts: [one.part, other.part], column: one.column, value: size(other.value),
    change: [[one.column, withSignOf(one.value, size(other.value) - size(one.value))], [other.column, withSignOf(other.value, size(one.value) - size(other.value))]],
  }));
}

/** All pairs of a list. */
export const pairs = (list) => list.flatMap((one, at) => list.slice(at + 1).map((other) => [one, other]));

/** The resistance of a part times the current of another branch. */
function wrongCurrent(law, laws) {
  return resistances(law).flatMap((term) => laws.unknowns.flatMap((_, column) => (column === term.column ? [] : [term.value, -term.value].map((amount) => ({
    part: term.part, column, change: [[term.column, -term.value], [column, amount]],
  })))));
}

const atJunction = (rule) => (law, laws) => (isLoop(law) ? [] : rule(law, laws));
const junctionSign = (law) => law.terms.map((term) => about(term, -2n * term.value));
const missingCurrent = (law) => law.terms.map((term) => about(term, -term.value));
const currentTwice = (law) => law.terms.map((term) => about(term, term.value));

function extraCurrent(law, laws) {
  const others = laws.unknowns.map((_, column) => column).filter((column) => !law.row[column]);
  return others.flatMap((column) => [1n, -1n].map((amount) => ({ part: null, column, change: [[column, amount]] })));
}

/** For each slip in one equation its rule, in the order in which they are told where several fit. */
export const rowRules = {
  "resistor-sign": resistorSign,
  "junction-sign": atJunction(junctionSign),
  "emf-sign": emfSign,
  "branch-sign": branchSign,
  "all-minus": allMinus,
  "every-emf-sign": everyEmfSign,
  "missing-resistor": missing(false),
  "missing-internal": missing(true),
  "missing-emf": (law) => emfs(law).map((term) => aboutEmf(term, -term.value)),
  "missing-battery": missingBattery,
  "missing-factor": missingFactor,
  "missing-branch": missingBranch,
  "missing-current": atJunction(missingCurrent),
  "battery-turned": batteryTurned,
  "branch-turned": branchTurned,
  prefix,
  "other-value": otherValue,
  "swapped-values": swappedValues,
  "extra-resistor": extra(({ drop }) => drop, ({ column, drop }, sense) => ({ change: [[column, sense * drop]] })),
  "extra-emf": extra(({ rise }) => rise, ({ rise }, sense, last) => ({ column: null, change: [[last, sense * rise]] })),
  "extra-battery": extra(({ rise, drop }) => rise && drop, ({ column, rise, drop }, sense, last) => ({ change: [[column, -sense * drop], [last, sense * rise]] })),
  "extra-current": atJunction(extraCurrent),
  twice,
  "current-twice": atJunction(currentTwice),
  "wrong-current": wrongCurrent,
};

/**
 * Every way to make one slip in one law.
 * @param {Law} law
 * @param {object} laws what findLaws gives
 * @returns {(Way & {slip: string, law: Law})[]}
 */
export function listWays(law, laws) {
  return keep(kept, law, () => Object.entries(rowRules).flatMap(([slip, rule]) => rule(law, laws).map((way) => ({ ...way, slip, law }))));
}

const kept = new WeakMap();
