/** "My set": which of the typed equations say something new, and what is still missing. */
import { checkEquation, readAll } from "./check-equation.mjs";
import { findLaws, valueOf } from "./check-laws.mjs";
import { MOST_ROWS } from "./check-words.mjs";
import { IndependentRows } from "./elimination.mjs";
import { fraction } from "./fraction.mjs";
import { MINUS, plain } from "./numeral.mjs";

/**
 * Judges a set of equations, in the order in which they were typed.
 * @param {object} example what `solve --json` prints
 * @param {string[]} texts as typed
 * @param {{flip?: string[]}} [choices]
 * @returns {{rows: {verdict: string, isNew: boolean, sum: {number: number, factor: string}[], say: object | null}[],
 *   independent: number, needed: number, missing: number,
 *   next: {rule: string, origin: string, walk: string[], open: string[]} | null}}
 *   sum: for an equation that says nothing new, how it is made of those before it, counted from 1; next: a law that would
 *   add something, with its parts whose current is in no equation yet
 */
export function checkSet(example, texts, choices = {}) {
  const laws = findLaws(example, choices);
  const known = new IndependentRows();
  const earlier = [];
  const rows = texts.map((text, at) => judge(text, at + 1, { example, choices, laws, known, earlier }));
  const independent = rows.filter(({ isNew }) => isNew).length;
  const needed = laws.unknowns.length;
  const touched = new Set(rows.flatMap(({ columns }) => columns));
  return {
    rows: rows.map(({ columns: _, row: __, ...told }) => told), independent, needed, missing: needed - independent,
    // Found only when it is asked for: there are many laws to try.
    get next() {
      return findNext(laws, rows.flatMap(({ row }) => (row ? [row] : [])), touched, needed - independent);
    },
  };
}

function judge(text, number, { example, choices, laws, known, earlier }) {
  const { verdict, say: told } = checkEquation(example, text, choices);
  const reading = ["unreadable", "false"].includes(verdict) ? null : readAll(text, laws).find(({ row }) => valueOf(row, laws.answer).isZero);
  if (!reading) return { verdict, isNew: false, sum: [], say: null, columns: [] };
  if (told.key === "is-answer") return { verdict, isNew: false, sum: [], say: { key: "no-law", values: {} }, columns: [] };
  const { row, times, choice } = reading;
  // As large as it was typed, so that a sum of equations is the one that the student sees; in V and Ω, whatever its own units.
  const fractions = row.map((value) => fraction(value).over(times).times(choice.resistance));
  const recipe = known.add(fractions);
  const isNew = recipe === null;
  const again = isNew ? null : findAgain(fractions, earlier);
  const sum = again ? [again] : [...(recipe ?? [])].map(([at, factor]) => ({ number: earlier[at].number, factor }));
  earlier.push({ number, fractions });
  const say = recipe ? { key: sum.length > MOST_ROWS ? "no-new-long" : "no-new", values: { sum: write(sum) } } : null;
  return { verdict, isNew, sum: sum.map((each) => ({ ...each, factor: `${each.factor}` })), say, row: isNew ? fractions : null, columns: row.flatMap((value, at) => (value ? [at] : [])) };
}

/** The very same equation among those before it, also one that said nothing new itself; perhaps with all signs turned. */
function findAgain(row, earlier) {
  for (const sign of [fraction(1n), fraction(-1n)]) {
    const same = earlier.find(({ fractions }) => fractions.every((value, at) => value.times(sign).equals(row[at])));
    if (same) return { number: same.number, factor: sign };
  }
  return null;
}

function write(sum) {
  const order = [...sum].sort((one, other) => Number(one.factor.isNegative) - Number(other.factor.isNegative) || one.number - other.number);
  return order.map(({ number, factor }) => `${factor.isNegative ? MINUS : "+"} ${factor.size().equals(fraction(1n)) ? "" : `${plain(factor.size())} × `}(${number})`).join(" ").replace(/^\+ /, "");
}

/** A law that adds something: first a loop with a part of no equation yet, then a junction, then any. */
function findNext(laws, rows, touched, missing) {
  if (missing <= 0) return null;
  const isFresh = ({ row }) => addsTo(rows, row.map((value) => fraction(value)));
  const isOpen = ({ row }) => row.slice(0, -1).some((value, at) => value && !touched.has(at));
  const find = (isWanted) => laws.laws.find((law) => isWanted(law) && isFresh(law));
  const law = find((each) => each.rule === "loop" && each.named && isOpen(each)) ?? find(({ rule }) => rule === "junction") ?? find(() => true);
  if (!law) return null;
  const untouched = law.walk.filter((part) => law.terms.some((term) => term.part === part && !touched.has(term.column)));
  return { rule: law.rule, origin: law.origin, walk: law.walk, open: untouched };
}

/** Whether a row is new beside rows that are new themselves. */
function addsTo(rows, row) {
  const known = new IndependentRows();
  rows.forEach((each) => known.add(each));
  return known.add(row) === null;
}
