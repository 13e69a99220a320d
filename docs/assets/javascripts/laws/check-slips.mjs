/**
 * Which single slips give exactly these numbers.
 *
 * Nothing is solved to find candidates: a slip is one where the numbers fit the wrong row and everything else, over all
 * junctions and all simple loops, whichever the student used. Each candidate is then worked out once, exactly, and its
 * digits are compared. Slips of all kinds are searched together, for only then does one of them say that another is not
 * the only explanation.
 */
import { changed, findLine, holds, isRoundedFrom, meet, solveRows } from "./check-fit.mjs";
import { listWholeWays, turnRow } from "./slip-whole.mjs";
import { listWays } from "./slip.mjs";

/**
 * The slips that explain the numbers, those with one effect together.
 * @param {object[]} typed every current
 * @param {object} scaled the same as whole numbers
 * @param {object} laws
 * @returns {object[][]} groups of ways; the page's laws first in each
 */
export function explain(typed, scaled, laws) {
  const held = laws.laws.filter((law) => holds(law.row, scaled));
  const found = [...findRowSlips(typed, scaled, laws, held), ...findWholeSlips(typed, scaled, laws, held), ...findAlwaysMinus(typed, scaled, laws, held)];
  const groups = new Map();
  for (const way of absorb(found)) {
    const key = subjectOf(way);
    groups.set(key, [...(groups.get(key) ?? []), way]);
  }
  return [...groups.values()];
}

/** Slips that are seen in an equation but too far-fetched to explain numbers by: they would only hide what is likelier. */
const UNLIKELY = new Set(["wrong-current", "twice", "current-twice", "missing-factor", "battery-turned", "branch-turned"]);

/** Slips in several terms, or beliefs, that are no explanation of their own where one term gives the same currents exactly. */
const COMPOUND = new Set(["equal-split", "arrow-turned", "all-minus", "always-minus", "swapped-values", "missing-branch", "branch-sign"]);

function absorb(found) {
  const keyOf = ({ currents }) => currents.join(" ");
  const simple = new Set(found.filter(({ slip }) => !COMPOUND.has(slip)).map(keyOf));
  return found.filter((way) => !COMPOUND.has(way.slip) || !simple.has(keyOf(way)));
}

/** Slips in one equation: all but one of the independent laws hold, and the numbers fit a wrong row in its place. */
function findRowSlips(typed, scaled, laws, held) {
  const line = findLine(held, laws.unknowns.length);
  if (!line) return [];
  const broken = laws.laws.filter((law) => !held.includes(law));
  const ways = [...broken.flatMap((law) => listWays(law, laws).filter(({ slip, change }) => !UNLIKELY.has(slip) && holds(changed(law.row, change), scaled))), ...listBeliefs(laws)];
  return ways.flatMap((way) => {
    const row = way.row ?? changed(way.law.row, way.change);
    const currents = holds(row, scaled) ? meet(line, row) : null;
    return currents && isRoundedFrom(currents, typed) ? [{ ...way, currents }] : [];
  });
}

/** The parts that are a branch of their own without resistance and emf. */
export const listBareWires = ({ live }) => live.filter(({ column }) => live.every((part) => part.column !== column || (!part.drop && !part.rise)));

/** Rows that stand for what people believe of a junction or a bare wire. */
function listBeliefs(laws) {
  const { unknowns } = laws;
  const empty = () => Array.from({ length: unknowns.length + 1 }, () => 0n);
  const nothing = listBareWires(laws).map(({ name, column }) => ({ slip: "nothing-in-wire", part: name, column, law: null, row: Object.assign(empty(), { [column]: 1n }) }));
  const forks = laws.laws.filter(({ rule, terms }) => rule === "junction" && terms.length === 3);
  const shares = forks.flatMap((law) => law.terms.map((alone) => {
    const [one, other] = law.terms.filter((term) => term !== alone);
    return { slip: "equal-split", part: null, column: alone.column, law, row: Object.assign(empty(), { [one.column]: one.value, [other.column]: -other.value }) };
  }));
  return [...nothing, ...shares];
}

/** Slips in all equations: every junction holds, and every loop of the page as the slip makes it. */
function findWholeSlips(typed, scaled, laws, held) {
  const page = laws.laws.filter(({ named }) => named);
  if (page.some((law) => law.rule === "junction" && !held.includes(law))) return [];
  return listWholeWays(laws).flatMap((way) => {
    const rows = [];
    for (const law of page) {
      const row = turnRow(law, way.turn);
      if (!holds(row, scaled)) return [];
      rows.push(row);
    }
    const currents = solveRows(rows);
    return currents && isRoundedFrom(currents, typed) ? [{ ...way, law: null, currents }] : [];
  });
}

/** Minus at every resistor in all loops of the page, each walked in either sense; in a single loop it is a slip of that loop. */
function findAlwaysMinus(typed, scaled, laws, held) {
  const page = laws.laws.filter(({ named }) => named);
  if (page.some((law) => law.rule === "junction" && !held.includes(law))) return [];
  const rows = page.map((law) => (law.rule === "junction" ? [law.row] : [1n, -1n].map((sense) => turnRow(law, ({ value, nature }) => (nature === "emf" ? value : value < 0n ? sense * value : -sense * value))).filter((row) => holds(row, scaled))));
  if (rows.some((choices) => !choices.length) || page.filter((law) => !held.includes(law)).length < 2) return [];
  const currents = solveRows(rows.map(([row]) => row));
  return currents && isRoundedFrom(currents, typed) ? [{ slip: "always-minus", part: null, column: null, law: null, currents }] : [];
}

/**
 * What a slip is about. A part left out of one loop or counted in another that it is not on has one effect on the
 * currents, and nobody can tell which it was.
 */
function subjectOf({ slip, part, parts, column }) {
  if (slip === "all-minus" || slip === "always-minus") return "minus";
  if (slip.startsWith("swapped")) return [...parts].sort().join();
  return slip === "branch-sign" || part === null ? `current ${column}` : part;
}
