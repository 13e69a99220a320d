/**
 * Words of direction: which way a current or a walk goes, in the figure's own left, right, up and down. Mirrors
 * figure/words.py and body_leg of figure/layout.py. A layout is the page's `figure` block; null where nothing is drawn.
 */

import { stepEnd, stepStart, turnSteps } from "../laws/circuit.mjs";
import { listed, say } from "./telling.mjs";

const AXIS_TOLERANCE = 20;
const SAME_SPOT = 0.5;
const SAME_LENGTH = 0.5;
const NO_AREA = 1;

const distance = ([x1, y1], [x2, y2]) => Math.hypot(x2 - x1, y2 - y1);

/** Says which way the current of a branch goes: as assumed, or the opposite way. */
export function wayInWords({ start, end, steps }, layout, isOpposite = false) {
  return isOpposite ? wayOf(end, start, turnSteps(steps), layout) : wayOf(start, end, steps, layout);
}

/** Says what the answer for one branch means; `size` is the current without its sign, `asAssumed` null for no current. */
export function currentSentence(branch, layout, size, asAssumed) {
  if (asAssumed === null) return say("current.none", { parts: listed(branch.steps.map((step) => step.part.name)) });
  const way = wayInWords(branch, layout, !asAssumed);
  const key = asAssumed ? "as_assumed" : layout ? "against" : "opposite";
  return say(`current.${key}`, { size, colon: way.includes(": ") ? ", " : ": ", way });
}

/** Says how a loop is walked, and each battery from which end to which. */
export function loopWords({ start, steps }, layout) {
  const begin = [turning(steps, layout), say("way.from", { start })].filter(Boolean).join(" ");
  return `${begin}: ${phrases(steps, layout, withSigns).join("; ")}`;
}

const plainName = (step) => step.part.name;

function withSigns(step) {
  if (step.part.kind !== "battery") return step.part.name;
  return say(step.forward ? "way.forward" : "way.backward", { name: step.part.name });
}

/** Says which way a step goes where its part's body sits; empty where nothing is drawn. */
function heading({ part, forward }, layout) {
  if (!layout) return "";
  const route = layout.routes[part.name];
  const leg = bodyLeg(route, part.kind);
  return forward ? direction(route[leg], route[leg + 1]) : direction(route[leg + 1], route[leg]);
}

/** On which leg of its route a part's body sits: the longest; in a tie the most upright for a battery, else the flattest. */
function bodyLeg(route, kind) {
  const lengths = route.slice(1).map((spot, at) => distance(route[at], spot));
  const longest = Math.max(...lengths);
  const tied = lengths.flatMap((length, at) => (length > longest - SAME_LENGTH ? [at] : []));
  const upright = tied.map((at) => Math.abs(route[at + 1][1] - route[at][1]));
  const wanted = kind === "battery" ? Math.max(...upright) : Math.min(...upright);
  return tied[upright.findIndex((height) => Math.abs(height - wanted) < SAME_LENGTH)];
}

/** Says which way it is from one spot to another; empty where they are one. */
function direction(here, there) {
  if (distance(here, there) < SAME_SPOT) return "";
  const turned = (Math.atan2(here[1] - there[1], there[0] - here[0]) * 180) / Math.PI;
  const angle = ((turned % 360) + 360) % 360;
  const axis = Math.round(angle / 90);
  const isAlong = Math.abs(angle - 90 * axis) <= AXIS_TOLERANCE;
  return say(`compass.${isAlong ? (2 * axis) % 8 : 2 * Math.floor(angle / 90) + 1}`);
}

/** Says whether a closed walk turns clockwise or anticlockwise; empty where it encloses no area or is not drawn. */
export function turning(steps, layout) {
  if (!layout) return "";
  const corners = outline(steps, layout);
  const area = corners.reduce((sum, [x1, y1], at) => {
    const [x2, y2] = corners[(at + 1) % corners.length];
    return sum + (x1 * y2 - x2 * y1) / 2;
  }, 0);
  // y runs downwards, so a positive area is one that is walked clockwise as seen.
  return Math.abs(area) < NO_AREA ? "" : say(area > 0 ? "way.clockwise" : "way.anticlockwise");
}

function endsInWords(start, end, steps, layout) {
  if (start !== end) return say("way.ends", layout ? { start: stepStart(steps[0]), end: stepEnd(steps.at(-1)) } : { start, end });
  return [turning(steps, layout), say("way.round", { start })].filter(Boolean).join(" ");
}

/** Says a way from end to end; its first word of direction follows a comma, several follow a colon. */
function wayOf(start, end, steps, layout) {
  const ends = endsInWords(start, end, steps, layout);
  const [first = "", ...rest] = phrases(steps, layout);
  if (rest.length) return `${ends}: ${[first, ...rest].join(say("way.then"))}`;
  const word = first && heading(steps[0], layout);
  if (!word) return `${ends} ${first}`.trimEnd();
  if (steps.every((step) => step.part.kind === "wire")) return `${ends} ${passage(steps, plainName)}, ${word}`;
  return `${ends}, ${first}`;
}

/** One phrase for each run of steps that go the same way. */
function phrases(steps, layout, named = plainName) {
  return runsOf(steps, (step) => heading(step, layout)).map(([word, run]) => [word, passage(run, named)].filter(Boolean).join(" "));
}

/** Names the parts of a run: "through R1 and along the bare wire W1". */
function passage(steps, named) {
  const runs = runsOf(steps, (step) => step.part.kind === "wire");
  return listed(runs.map(([isWire, run]) => runInWords(run.map(named), isWire)));
}

function runInWords(names, isWire) {
  return isWire ? say("way.wires", { count: names.length, names: listed(names) }) : say("way.through", { names: listed(names) });
}

/** Neighbours with the same key, together. */
function runsOf(items, keyOf) {
  const runs = [];
  for (const item of items) {
    const key = keyOf(item);
    if (runs.length && runs.at(-1)[0] === key) runs.at(-1)[1].push(item);
    else runs.push([key, [item]]);
  }
  return runs;
}

/** Every corner of a closed walk, plain lines between its parts included. */
export function outline(steps, layout) {
  const ways = steps.map(({ part, forward }) => (forward ? layout.routes[part.name] : [...layout.routes[part.name]].reverse()));
  return ways.flatMap((way, at) => [...way, ...cornersBetween(way.at(-1), ways[(at + 1) % ways.length][0], layout.lines)]);
}

/** The corners on the plain lines that lead from one spot to another; none where no lines do. */
function cornersBetween(here, there, lines) {
  const bothWays = [...lines, ...lines.map((line) => [...line].reverse())];
  const seen = [here];
  const waiting = [[here]];
  while (waiting.length) {
    const way = waiting.shift();
    if (distance(way.at(-1), there) < SAME_SPOT) return way.slice(1, -1);
    for (const line of bothWays) {
      if (distance(line[0], way.at(-1)) >= SAME_SPOT || seen.some((spot) => distance(line.at(-1), spot) < SAME_SPOT)) continue;
      seen.push(line.at(-1));
      waiting.push([...way, ...line.slice(1)]);
    }
  }
  return [];
}
