/** The plain lines of a drawing on the way round a loop, where its parts do not meet at one spot. */

/** Spots nearer to each other than this are one [px]. */
const SAME = 0.3;

/**
 * The lines, as the figure draws them.
 * @param {Element} article
 * @param {import("../laws/circuit.mjs").Step[]} steps of the loop, or of a walk that may become one
 * @returns {Element[]}
 */
export function linesOn(article, steps) {
  const { lines = [], routes = {} } = article.querySelector("live-example")?.layout ?? {};
  const drawn = article.querySelectorAll(".figure-frame svg .joined");
  const walked = ({ part, forward }) => (forward ? routes[part.name] : routes[part.name].toReversed());
  return steps.flatMap((step, at) => findWay(lines, walked(step).at(-1), walked(steps[(at + 1) % steps.length])[0]).map((line) => drawn[lines.indexOf(line)]));
}

/**
 * The fewest lines that lead from one spot to another; none where the spots are one, or no lines join them.
 * @param {number[][][]} lines each as its spots [px]
 */
export function findWay(lines, from, goal) {
  if (distance(from, goal) < SAME) return [];
  const ways = lines.filter((line) => touches(line, from)).map((line) => [line]);
  const seen = new Set(ways.flat());
  for (const way of ways) {
    const last = way.at(-1);
    if (touches(last, goal)) return way;
    for (const line of lines.filter((each) => !seen.has(each) && meet(last, each))) {
      seen.add(line);
      ways.push([...way, line]);
    }
  }
  return [];
}

const distance = ([x, y], [left, top]) => Math.hypot(x - left, y - top);
const ends = (line) => [line[0], line.at(-1)];
const meet = (one, other) => ends(one).some((spot) => touches(other, spot)) || ends(other).some((spot) => touches(one, spot));

/** Whether a spot lies on a line: then the ways to it from both ends of a piece are together no longer than the piece. */
const touches = (line, spot) => line.some((end, at) => at && distance(line[at - 1], spot) + distance(spot, end) - distance(line[at - 1], end) < SAME / 10);
