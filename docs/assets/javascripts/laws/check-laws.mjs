/**
 * Everything that is true of a circuit, as rows of whole numbers: the junction rule at every junction and the loop rule
 * round every simple loop, in the student's directions.
 *
 * A row has one number for each unknown and a last one without: row · (x, 1) = 0. Loop rows are in V, Ω and A, times
 * one common denominator, so that no row holds a fraction.
 */
import { readTopology } from "./circuit.mjs";
import { IndependentRows } from "./elimination.mjs";
import { fraction, greatestDivisor, parse } from "./fraction.mjs";
import { keep } from "./keep.mjs";
import { branchVector, findAllLoops, memberKey } from "./loop.mjs";
import { unitChoices } from "./read-units.mjs";

/**
 * @typedef {import("./fraction.mjs").Fraction} Fraction
 * @typedef {{part: string, column: number, value: bigint, nature: "resistance" | "emf" | "current", forward: boolean}} LawTerm
 * @typedef {{rule: "junction" | "loop", origin: string, named: boolean, walk: string[], row: bigint[], terms: LawTerm[], vector: Fraction[]}} Law
 *   named: it stands on the page; walk: its parts in walking order; vector: how often it goes along each branch, without
 *   values, from which it is seen which laws are independent of which
 */

const known = new WeakMap();

/**
 * The laws of an example in the student's directions; kept, so that asking again costs nothing.
 * @param {object} example
 * @param {{flip?: string[]}} [choices]
 */
export function findLaws(example, { flip = [] } = {}) {
  const turned = example.unknowns.filter((name) => Array.isArray(flip) && flip.includes(name));
  const kept = keep(known, example, () => new Map());
  return keep(kept, turned.join(" "), () => buildLaws(example, turned));
}

function buildLaws(example, flip) {
  const topology = readTopology(example, { flip });
  const unknowns = topology.branches.map((branch) => branch.current);
  const column = Object.fromEntries(unknowns.map((name, at) => [name, at]));
  // A thousand times more, so that a value with the wrong prefix is a whole number too.
  const scale = 1000n * commonDenominator(topology.parts.flatMap((part) => [part.emf, part.resistance].filter(Boolean)));
  const circuit = { topology, unknowns, column, scale, part: topology.part, parts: topology.parts, units: example.units };
  const laws = [...writeJunctions(circuit), ...writeLoops(circuit)];
  const answer = example.currents.map(({ name, exact }) => (flip.includes(name) ? parse(exact).negated() : parse(exact)));
  const first = new Map();
  for (const law of laws) if (!first.has(rowKey(law.row))) first.set(rowKey(law.row), law);
  return { ...circuit, laws, answer, first, choices: unitChoices(example.units), live: listLive(circuit), sizes: listSizes(circuit) };
}

/** Junctions: those on the page first, for two junctions may have one equation. */
function writeJunctions({ topology, unknowns }) {
  const used = (junction) => (junction.used ? 0 : 1);
  return [...topology.junctions].sort((one, other) => used(one) - used(other)).map(({ name, used: named }) => {
    const row = topology.branches.map(({ start, end }) => BigInt(Number(end === name) - Number(start === name)));
    const terms = row.map((value, at) => ({ part: null, column: at, value, nature: "current", forward: value > 0n }));
    return { rule: "junction", origin: name, named, walk: [], row: [...row, 0n], vector: row.map((value) => fraction(value)), terms: terms.filter(({ value }) => value) };
  }).filter(({ terms }) => terms.length && unknowns.length);
}

/** Loops: those on the page first, then the others, the shortest first. */
function writeLoops(circuit) {
  const { topology } = circuit;
  const taken = new Set(topology.loops.map(({ steps }) => memberKey(steps, topology.branches)));
  const others = findAllLoops(topology).filter(({ steps }) => !taken.has(memberKey(steps, topology.branches)));
  return [...topology.loops, ...others].map((loop) => writeLoop(loop, circuit));
}

function writeLoop({ name, steps }, circuit) {
  const terms = steps.flatMap((step) => writeStep(step, circuit));
  const row = Array.from({ length: circuit.unknowns.length + 1 }, () => 0n);
  for (const { column, value } of terms) row[column] += value;
  const walk = steps.map(({ part }) => part.name);
  const vector = branchVector(steps, circuit.topology.branches).map((way) => fraction(way));
  return { rule: "loop", origin: name ?? walk.join("."), named: Boolean(name), walk, row, terms, vector };
}

/** What the walk through one part adds; a part without resistance adds a term of nothing, so that it can be named. */
function writeStep({ part, forward }, { topology, column, unknowns, scale }) {
  const along = forward === topology.stepOf.get(part.name).forward;
  const at = column[topology.branchOf.get(part.name).current];
  const drop = whole(part.resistance, scale);
  const terms = [{ part: part.name, column: at, value: along ? -drop : drop, nature: "resistance", forward: along }];
  const emf = whole(part.emf, scale);
  return emf ? [...terms, { part: part.name, column: unknowns.length, value: forward ? emf : -emf, nature: "emf", forward }] : terms;
}

/** Every live part with its column and what it adds when it is walked along its branch. */
function listLive(circuit) {
  const { topology, column, scale } = circuit;
  return topology.branches.flatMap(({ current, steps }) => steps.map(({ part, forward }) => ({
    name: part.name, kind: part.kind, column: column[current], current,
    drop: whole(part.resistance, scale), rise: forward ? whole(part.emf, scale) : -whole(part.emf, scale),
  })));
}

/** The different values that stand in the file, those of parts without a current too: a student may take any of them. */
function listSizes({ parts, scale }) {
  const distinct = (values) => [...new Set(values.filter((value) => value && !value.isZero).map((value) => whole(value, scale)))];
  return { drops: distinct(parts.map(({ resistance }) => resistance)), rises: distinct(parts.map(({ emf }) => emf)) };
}

const whole = (value, scale) => (value.numerator * scale) / value.denominator;

/** The least common denominator of fractions. */
export function commonDenominator(values) {
  return values.reduce((common, { denominator }) => (common / greatestDivisor(common, denominator)) * denominator, 1n);
}

/**
 * Fractions as whole numbers with no common divisor, and by how much they were multiplied for it.
 * @returns {{whole: bigint[], times: import("./fraction.mjs").Fraction}}
 */
export function wholeRow(row) {
  const common = commonDenominator(row);
  const numbers = row.map((value) => whole(value, common));
  const divisor = numbers.reduce(greatestDivisor, 0n) || 1n;
  return { whole: numbers.map((number) => number / divisor), times: fraction(common, divisor) };
}

/** What a row of whole numbers comes to with these currents; zero where it is true. */
export const valueOf = (row, currents) => currents.reduce((sum, value, at) => (row[at] ? sum.plus(value.times(fraction(row[at]))) : sum), fraction(row.at(-1)));

/** A row without its side, sense and scale: two rows with one key say the same. */
export function rowKey(row) {
  const divisor = row.reduce(greatestDivisor, 0n) || 1n;
  const head = row.find((number) => number) ?? 0n;
  return row.map((number) => number / (head < 0n ? -divisor : divisor)).join(" ");
}

/** How a true row follows from the equations of the page: for each that is needed its factor. */
export function followFromPage(laws, row) {
  const page = laws.laws.filter(({ named }) => named);
  const rows = new IndependentRows();
  const asFractions = (numbers) => numbers.map((number) => fraction(number));
  for (const law of page) rows.add(asFractions(law.row));
  return [...(rows.add(asFractions(row)) ?? [])].map(([number, factor]) => ({ law: page[number], factor }));
}
