/**
 * Slips that run through all equations of a circuit: a battery the wrong way round, two values changed over, an arrow
 * turned between junctions and loops. Under the same name as in ../slips.mjs: how each changes a term.
 */
import { pairs } from "./slip.mjs";

const size = (value) => (value < 0n ? -value : value);
const sized = (value, amount) => (value < 0n ? -amount : amount);

/**
 * @typedef {{slip: string, part: string | null, parts?: string[], column: number | null, turn: (term: object) => bigint}} WholeSlip
 *   turn: what a term becomes
 */

const replace = (name, nature, amount) => (term) => (term.part === name && term.nature === nature ? sized(term.value, amount) : term.value);

function reversedBatteries({ live }) {
  return live.filter(({ rise }) => rise).map(({ name, rise }) => ({ part: name, column: null, turn: replace(name, "emf", -size(rise)) }));
}

function turnedArrows({ live, unknowns }) {
  const loaded = unknowns.map((_, column) => column).filter((column) => live.some((part) => part.column === column && part.drop));
  return loaded.map((column) => ({ part: null, column, turn: (term) => (term.nature === "resistance" && term.column === column ? -term.value : term.value) }));
}

function swapped({ live }) {
  const resistive = pairs(live.filter(({ drop }) => drop)).filter(([one, other]) => one.drop !== other.drop && one.column !== other.column);
  const driving = pairs(live.filter(({ rise }) => rise)).filter(([one, other]) => size(one.rise) !== size(other.rise));
  const resistance = resistive.map(([one, other]) => swap(one, other, "resistance", one.drop, other.drop));
  return [...resistance, ...driving.map(([one, other]) => swap(one, other, "emf", size(one.rise), size(other.rise)))];
}

function swap(one, other, nature, first, second) {
  const turns = [replace(one.name, nature, second), replace(other.name, nature, first)];
  return { part: one.name, parts: [one.name, other.name], column: nature === "emf" ? null : one.column, turn: (term) => (term.part === one.name ? turns[0](term) : turns[1](term)) };
}

/** For every resistance and every emf of the circuit the sizes that may stand in its place. */
const inPlace = (list) => ({ live, sizes }) => live.flatMap(({ name, column, drop, rise }) => [
  ...(drop ? list(drop, sizes.drops).map((value) => ({ part: name, column, turn: replace(name, "resistance", value) })) : []),
  ...(rise ? list(size(rise), sizes.rises).map((value) => ({ part: name, column: null, turn: replace(name, "emf", value) })) : []),
]);

/** For each slip of the whole circuit its rule. */
export const wholeRules = {
  "battery-reversed": reversedBatteries,
  "arrow-turned": turnedArrows,
  "missing-everywhere": inPlace(() => [0n]),
  "prefix-everywhere": inPlace((own) => [own * 1000n, own / 1000n]),
  "other-value-everywhere": inPlace((own, values) => values.filter((value) => value !== own)),
  "swapped-everywhere": swapped,
};

/** Every way to make one slip in all equations. */
export const listWholeWays = (laws) => Object.entries(wholeRules).flatMap(([slip, rule]) => rule(laws).map((way) => ({ ...way, slip })));

/** A law with every term turned by a slip. */
export function turnRow(law, turn) {
  const row = law.row.map(() => 0n);
  for (const term of law.terms) row[term.column] += law.rule === "loop" ? turn(term) : term.value;
  return row;
}
