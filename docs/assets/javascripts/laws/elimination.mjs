/** Exact elimination on fractions: the only linear algebra the laws need. Mirrors laws/elimination.py. */

import { ONE, ZERO } from "./fraction.mjs";

/** Rows taken in one after the other, each either new or a combination of those before it. */
export class IndependentRows {
  #reduced = [];
  #count = 0;

  /**
   * Takes a row in.
   * @param {import("./fraction.mjs").Fraction[]} row
   * @returns {Map<number, import("./fraction.mjs").Fraction> | null} null where the row is new; else how it follows from
   *   earlier rows, by their numbers counted from 0 in the order they were taken in.
   */
  add(row) {
    let rest = [...row];
    const recipe = new Map();
    for (const { pivot, reduced, madeOf } of this.#reduced) {
      const factor = rest[pivot];
      if (factor.isZero) continue;
      rest = rest.map((value, column) => value.minus(factor.times(reduced[column])));
      for (const [earlier, share] of madeOf) recipe.set(earlier, (recipe.get(earlier) ?? ZERO).plus(factor.times(share)));
    }
    const shares = [...recipe].filter(([, share]) => !share.isZero);
    const number = this.#count++;
    const pivot = rest.findIndex((value) => !value.isZero);
    if (pivot < 0) return new Map(shares);
    const head = rest[pivot];
    const madeOf = new Map([[number, ONE.over(head)], ...shares.map(([earlier, share]) => [earlier, share.negated().over(head)])]);
    this.#reduced.push({ pivot, reduced: rest.map((value) => value.over(head)), madeOf });
    return null;
  }
}

/** How many of the rows are independent. */
export function rank(rows) {
  const known = new IndependentRows();
  return rows.filter((row) => known.add(row) === null).length;
}

/**
 * The one x with A x = b.
 * @param {import("./fraction.mjs").Fraction[][]} matrix A, with as many rows as columns
 * @param {import("./fraction.mjs").Fraction[]} right b
 * @throws {RangeError} where A is singular
 */
export function solve(matrix, right) {
  const rows = matrix.map((row, number) => [...row, right[number]]);
  for (let column = 0; column < rows.length; column += 1) {
    const pivot = rows.findIndex((row, number) => number >= column && !row[column].isZero);
    if (pivot < 0) throw new RangeError("the equation set does not decide every current");
    [rows[column], rows[pivot]] = [rows[pivot], rows[column]];
    const head = rows[column][column];
    rows[column] = rows[column].map((value) => value.over(head));
    rows.forEach((row, number) => {
      const factor = row[column];
      if (number !== column && !factor.isZero) rows[number] = row.map((value, at) => value.minus(factor.times(rows[column][at])));
    });
  }
  return rows.map((row) => row[row.length - 1]);
}
