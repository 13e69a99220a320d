/** What is true by chance: of these values only, most often because a current is zero. It is no law, and belongs in no set. */
import { chooseApart, nameNatural, nameValue, tell } from "./check-faults.mjs";
import { rowKey } from "./check-laws.mjs";
import { findMatches, nameSlips } from "./check-nearest.mjs";
import { scaleOf } from "./check-units.mjs";
import { pairs } from "./slip.mjs";

/**
 * Whether a true combination is true by chance, and the slips that it may come from.
 * @param {object} reading
 * @param {{isLong: boolean, natural: boolean}} sum isLong: it is no sum that could be told; natural: all its loops count alike
 * @param {object} laws what findLaws gives
 * @returns {{key: "true-only-here" | "true-by-values", doubts: object[]} | null}
 */
export function findChance(reading, { isLong, natural }, laws) {
  const isHidden = isLong && isLawButForZeros(reading, laws) && !isSumOfTwo(reading, laws);
  const doubts = isHidden ? findHidden(reading, laws) : natural ? [] : findByValues(reading, laws);
  if (!isHidden && !doubts.length) return null;
  // Without a zero, or where a current itself was left out, the numbers happen to agree.
  const byZero = laws.answer.some((current) => current.isZero) && !doubts.some(({ slip }) => slip === "missing-factor");
  return { key: byZero ? "true-only-here" : "true-by-values", doubts };
}

/** What is wrong in the terms of currents that happen to be zero, where all else is a law's: a slip of any kind, else a number. */
function findHidden(reading, laws) {
  const isHidden = ({ natural, changes }) => natural && changes.size && [...changes.keys()].every((column) => laws.answer[column]?.isZero);
  const matches = findMatches(reading, scaleOf(reading, laws), laws).filter(isHidden);
  const slips = matches.flatMap((match) => nameSlips(match, laws));
  const values = matches.filter(({ changes }) => changes.size === 1).flatMap((match) => nameValue(match, reading, laws));
  return tell(slips.length ? chooseApart(slips, reading, laws) : values, reading, laws);
}

/** A slip that these values make true. */
function findByValues(reading, laws) {
  return tell(nameNatural(reading, laws).filter(({ slip }) => /sign|missing|extra/.test(slip)), reading, laws);
}

/** Whether a row is that of a law in all but the terms of currents that happen to be zero. */
function isLawButForZeros({ row }, { laws, answer }) {
  const counts = row.map((_, column) => !answer[column]?.isZero);
  return laws.some((law) => {
    const pivot = law.row.findIndex((value, column) => value && counts[column]);
    return pivot >= 0 && row[pivot] && row.every((value, column) => !counts[column] || value * law.row[pivot] === law.row[column] * row[pivot]);
  });
}

/** Whether a row is the sum or the difference of two laws of one rule, in the set of the page or not. */
function isSumOfTwo({ row }, { laws }) {
  const wanted = rowKey(row);
  return pairs(laws).some(([one, other]) => one.rule === other.rule && [1n, -1n].some((sense) => rowKey(one.row.map((value, at) => value + sense * other.row[at])) === wanted));
}
