/** Exact numbers: fractions of BigInts in lowest terms, denominator positive. Nothing is ever rounded. */

export class Fraction {
  /** Takes numbers that are in lowest terms already; everyone else calls `fraction`. */
  constructor(numerator, denominator) {
    this.numerator = numerator;
    this.denominator = denominator;
  }

  plus(other) {
    return this.denominator === other.denominator
      ? fraction(this.numerator + other.numerator, this.denominator)
      : fraction(this.numerator * other.denominator + other.numerator * this.denominator, this.denominator * other.denominator);
  }

  minus(other) {
    return this.plus(other.negated());
  }

  times(other) {
    return fraction(this.numerator * other.numerator, this.denominator * other.denominator);
  }

  over(other) {
    return fraction(this.numerator * other.denominator, this.denominator * other.numerator);
  }

  negated() {
    return new Fraction(-this.numerator, this.denominator);
  }

  /** The number without its sign. */
  size() {
    return this.numerator < 0n ? this.negated() : this;
  }

  get isZero() {
    return this.numerator === 0n;
  }

  get isNegative() {
    return this.numerator < 0n;
  }

  get isPositive() {
    return this.numerator > 0n;
  }

  get isWhole() {
    return this.denominator === 1n;
  }

  equals(other) {
    return this.numerator === other.numerator && this.denominator === other.denominator;
  }

  /** Below zero, zero or above it, as this is smaller than, equal to or larger than the other. */
  compare(other) {
    const difference = this.numerator * other.denominator - other.numerator * this.denominator;
    return difference < 0n ? -1 : difference > 0n ? 1 : 0;
  }

  /** As the JSON writes it: "3/2000", "-2". */
  toString() {
    return this.isWhole ? `${this.numerator}` : `${this.numerator}/${this.denominator}`;
  }

  /** The nearest floating-point number, or a neighbour of it where numerator or denominator is very long. */
  toNumber() {
    const spare = BigInt(Math.max(0, this.numerator.toString().length - 300, this.denominator.toString().length - 300));
    return Number(this.numerator / 10n ** spare) / Number(this.denominator / 10n ** spare);
  }
}

/**
 * The fraction of two whole numbers.
 * @param {bigint | number} numerator
 * @param {bigint | number} [denominator]
 * @returns {Fraction}
 */
export function fraction(numerator, denominator = 1n) {
  let [above, below] = [BigInt(numerator), BigInt(denominator)];
  if (below === 1n) return new Fraction(above, below);
  if (below === 0n) throw new RangeError("a fraction with denominator zero");
  if (below < 0n) [above, below] = [-above, -below];
  const common = greatestDivisor(above, below);
  return common === 1n ? new Fraction(above, below) : new Fraction(above / common, below / common);
}

/**
 * Reads "3/2000", "-2" and plain decimals such as "0.25".
 * @param {string} text
 * @returns {Fraction}
 */
export function parse(text) {
  const found = /^([+-]?)(\d+)(?:\/(\d+)|\.(\d+))?$/.exec(text);
  if (!found) throw new SyntaxError(`no fraction: ${text}`);
  const [, sign, whole, below = "1", places = ""] = found;
  const above = BigInt(whole + places);
  return fraction(sign === "-" ? -above : above, BigInt(below) * 10n ** BigInt(places.length));
}

/**
 * The sum of fractions; zero for none.
 * @param {Iterable<Fraction>} values
 * @returns {Fraction}
 */
export function total(values) {
  let sum = ZERO;
  for (const value of values) sum = sum.plus(value);
  return sum;
}

/** The greatest common divisor of two whole numbers, never negative. */
export function greatestDivisor(one, other) {
  let [a, b] = [one < 0n ? -one : one, other < 0n ? -other : other];
  // Numbers that a float holds exactly divide about five times faster as floats.
  if (a <= SAFE && b <= SAFE) {
    let [x, y] = [Number(a), Number(b)];
    while (y) [x, y] = [y, x % y];
    return BigInt(x);
  }
  while (b) [a, b] = [b, a % b];
  return a;
}

const SAFE = BigInt(Number.MAX_SAFE_INTEGER);

export const ZERO = new Fraction(0n, 1n);
export const ONE = new Fraction(1n, 1n);
