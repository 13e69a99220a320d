/**
 * From which law, and by which slip, a row that is not true may have come.
 *
 * A row is laid beside each law, in both senses and with each common factor that two of its terms agree on. Where all
 * but what one slip changes agree, that slip is a candidate.
 */
import { fraction } from "./fraction.mjs";
import { keep } from "./keep.mjs";
import { listWays } from "./slip.mjs";

/** The most columns in which a row may differ from a law, unless a known slip changes more. */
const MOST_OFF = 2;

/**
 * @typedef {{law: import("./check-laws.mjs").Law, factor: {above: bigint, below: bigint}, natural: boolean, agreeing: number,
 *   changes: Map<number, Fraction>}} Match natural: the factor is 1 or -1; changes: what is added to the law, by column
 * @typedef {import("./fraction.mjs").Fraction} Fraction
 */

/**
 * Every way to lay a row beside the laws with few differences.
 * @param {{row: bigint[], terms: {column: number, value: Fraction}[]}} reading
 * @param {(law: object) => {above: bigint, below: bigint}} scaleOf by how much the row is larger than a law where it is written as usual
 * @param {object} laws what findLaws gives
 * @returns {Match[]}
 */
export function findMatches(reading, scaleOf, laws) {
  return laws.laws.flatMap((law) => listFactors(reading, law, scaleOf(law)).flatMap((factor) => compare(reading, law, factor)));
}

/** The factors worth trying: 1 and -1, and each on which terms agree. */
function listFactors({ row, terms }, law, { above, below }) {
  const found = new Map();
  const note = (top, bottom, natural) => {
    const { numerator, denominator } = fraction(top, bottom);
    const key = `${numerator}/${denominator}`;
    if (!found.has(key)) found.set(key, { above: numerator, below: denominator, natural });
  };
  note(above, below, true);
  note(-above, below, true);
  row.forEach((value, at) => value && law.row[at] && note(value, law.row[at], false));
  if (terms.length > row.filter(Boolean).length) {
    for (const own of law.terms) for (const { column, value } of terms) if (column === own.column && own.value) note(value.numerator, value.denominator * own.value, false);
  }
  return [...found.values()];
}

function compare({ row, terms }, law, { above, below, natural }) {
  // row = factor × (law + change), so change = row × below / above − law.
  const differences = row.map((value, at) => value * below - law.row[at] * above);
  const off = differences.flatMap((value, at) => (value ? [at] : []));
  if (off.length > MOST_OFF && !off.every((at) => differences[at] === -2n * law.row[at] * above)) return [];
  const agreeing = countAgreeing(row, terms, law, differences, { above, below });
  if (natural ? !agreeing && row.length > 2 : agreeing < 2 && row.filter(Boolean).length > 2) return [];
  const changes = new Map(off.map((at) => [at, fraction(differences[at], above)]));
  return [{ law, factor: { above, below }, natural, agreeing, changes }];
}

/** How many numbers of the row are those of the law, or how many terms, where several belong to one current. */
function countAgreeing(row, terms, law, differences, factor) {
  const columns = row.filter((value, at) => value && !differences[at]).length;
  if (terms.length <= row.filter(Boolean).length) return columns;
  const own = law.terms.filter(({ value }) => value);
  return Math.max(columns, own.filter(({ column, value }) => terms.some((term) => term.column === column && isTerm(term.value, value, factor))).length);
}

/** Whether a typed term is a law's term times a factor. */
export const isTerm = ({ numerator, denominator }, value, { above, below }) => numerator * below === value * above * denominator;

/** Whether a law's number of one current, times a factor, was typed as a term by itself. */
export const hasTerm = ({ terms }, column, value, { above, below }) => terms.some((term) => term.column === column && term.value.equals(value.times(fraction(above, below))));

/** What a law has of a slip's parts in the first column that it changes, and what the slip makes of it; nothing where it changes none. */
export function findTerm({ law, match, change, part, parts = [part] }) {
  const [[column, amount] = []] = change ?? match.changes;
  if (column === undefined) return {};
  const own = fraction(law.terms.reduce((sum, term) => (term.column === column && parts.includes(term.part) ? sum + term.value : sum), 0n));
  return { column, own, written: own.plus(change ? fraction(amount) : amount) };
}

/** Whether the part of a slip has its right term all the same, beside others of its current. */
export function isSpared(way, reading) {
  const { column, own, written } = findTerm(way);
  if (way.parts || way.change.length > 1 || written.isZero || way.slip.endsWith("twice") || reading.terms.filter((term) => term.column === column).length < 2) return false;
  return hasTerm(reading, column, own, way.match.factor) && !hasTerm(reading, column, written, way.match.factor);
}

/** The ways of the known slips to come from a law to a row. */
export function nameSlips(match, laws) {
  const key = changeKey(match.changes);
  return (listSlips(match.law, laws).get(key) ?? []).map((way) => ({ ...way, match }));
}

const kept = new WeakMap();

/** Every slip that a law may suffer, by how it changes the row. */
export function listSlips(law, laws) {
  return keep(kept, law, () => group(listWays(law, laws)));
}

function group(ways) {
  const groups = new Map();
  for (const way of ways) groups.set(wayKey(way), [...(groups.get(wayKey(way)) ?? []), way]);
  return groups;
}

const wayKey = ({ change }) => {
  const sums = new Map();
  for (const [column, amount] of change) sums.set(column, (sums.get(column) ?? 0n) + amount);
  return changeKey(new Map([...sums].filter(([, amount]) => amount)));
};

const changeKey = (changes) => [...changes].sort(([one], [other]) => one - other).map(([column, amount]) => `${column}:${amount}`).join(" ");
