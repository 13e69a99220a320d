/** In which units an equation is meant, and what tells that a value has another prefix than the rest. */
import { rowKey } from "./check-laws.mjs";
import { fraction, ONE } from "./fraction.mjs";

/** The choices of units in which a text may be meant: the page's own first, millivolts only where they are typed. */
export const listChoices = (text, { choices }) => choices.filter(({ symbols }, at) => !at || symbols.voltage === "V" || `${text}`.includes(symbols.voltage));

/** Whether units are the page's or V, Ω and A. */
export const isUsual = (choice, laws) => choice === laws.choices[0] || choice.current.equals(ONE);

/** By how much a row that was typed in a choice of units is larger than a law. */
export const scaleOf = ({ times, choice }, laws) => (law) => {
  const factor = law.rule === "junction" ? times : times.over(choice.resistance).over(fraction(laws.scale));
  return { above: factor.numerator, below: factor.denominator };
};

/**
 * Whether a true row is meant in its choice of units. In others than the page's a value is what stands in the figure, not a
 * thousand times that: else a slip would come out true. The factor is by how much the row is larger than a loop's.
 */
export function isMeant({ choice, times }, factor, laws) {
  const larger = factor.times(choice.resistance).times(fraction(laws.scale)).over(times).size();
  return choice === laws.choices[0] || ![1000n, 1000000n].some((power) => larger.equals(fraction(power)) || larger.equals(fraction(1n, power)));
}

/** The units to name beside a law that was typed in others than the page's. */
export function otherUnits({ choice, typed }, law, laws) {
  return law.rule === "loop" && choice !== laws.choices[0] && !typed.at(-1).isZero ? { units: choice.symbols } : {};
}

/** A loop whose resistances all have the wrong prefix, beside its emfs. */
export function findPowers(readings, laws) {
  for (const reading of readings) {
    for (const power of [1000n, 1000000n]) {
      const row = reading.row.map((value, at) => (at === reading.row.length - 1 ? value * power : value));
      const law = row.at(-1) && laws.first.get(rowKey(row));
      if (law) return { reading, slip: { slip: "prefix-of-all", law, part: null, column: null, match: { law, natural: true, agreeing: 1, changes: new Map(), factor: { above: 1n, below: 1n } } } };
    }
  }
  return null;
}

/** Whether several resistances have the wrong prefix beside an emf as it stands in the figure: then the emf is not to blame. */
export function isAllButEmf({ reading: { typed, choice }, slip: { law } }, laws) {
  const emf = fraction(law.row.at(-1), laws.scale);
  return law.terms.filter(({ nature, value }) => nature === "resistance" && value).length > 1 && choice === laws.choices[0] && typed.at(-1).times(choice.voltage).size().equals(emf.size());
}
