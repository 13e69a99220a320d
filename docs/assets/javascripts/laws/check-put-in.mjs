/** A loop's equation into which one current was put as a junction gives it: I1 − I2 for I3, with right signs or wrong ones. */
import { rowKey } from "./check-laws.mjs";
import { scaleOf } from "./check-units.mjs";
import { MINUS, SPACE } from "./numeral.mjs";

/**
 * Every loop, junction and current that a row is read as, where it has no other difference from the loop.
 * @param {{row: bigint[]}} reading
 * @param {object} laws what findLaws gives
 * @returns {{law: object, junction: object, column: number, right: string, written: string}[]} the page's laws first
 */
export function findPutIn(reading, laws) {
  const loops = laws.laws.filter(({ rule }) => rule === "loop");
  // Of two junctions with one equation the first is told.
  const junctions = laws.laws.filter((law) => law.rule === "junction" && laws.first.get(rowKey(law.row)) === law);
  return loops.flatMap((law) => [1n, -1n].flatMap((sense) => {
    const { above, below } = scaleOf(reading, laws)(law);
    const differences = reading.row.map((value, at) => value * below - sense * law.row[at] * above);
    return junctions.flatMap((junction) => readPutIn({ law, junction, differences, unit: sense * above, row: reading.row }, laws));
  }));
}

/** One loop with one junction: the current of the loop that is gone, and the signs that stand in its place. */
function readPutIn({ law, junction, differences, unit, row }, { unknowns }) {
  const gone = junction.terms.filter(({ column }) => law.row[column] && !row[column]);
  if (gone.length !== 1) return [];
  const [{ column, value }] = gone;
  const others = junction.terms.filter((term) => term.column !== column);
  const place = law.row[column] * unit;
  const isPutIn = (term) => [place, -place].includes(differences[term.column]);
  const isElsewhere = differences.some((difference, at) => difference && at !== column && !others.some((term) => term.column === at));
  if (isElsewhere || !others.every(isPutIn)) return [];
  const write = (isMinus) => writeSum(others.map((term) => [isMinus(term), unknowns[term.column]]));
  const right = write((term) => term.value === value);
  const written = write((term) => differences[term.column] === -place);
  return [{ law, junction, column, right, written }];
}

/** Currents with their signs, what counts plus first: I1 − I2. */
function writeSum(terms) {
  const order = [...terms].sort(([one], [other]) => Number(one) - Number(other));
  return order.map(([isMinus, name], at) => (at ? `${SPACE}${isMinus ? MINUS : "+"}${SPACE}` : isMinus ? MINUS : "") + name).join("");
}
