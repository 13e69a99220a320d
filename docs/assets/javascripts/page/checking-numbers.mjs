/** What is said of a student's own numbers. */

import { checkNumbers } from "../laws/check-numbers.mjs";
import { askedCurrents } from "../laws/circuit.mjs";
import { prepareLaws, tellSaid, viewSpot, viewWays } from "./checking.mjs";
import { listed, say } from "./check-saying.mjs";
import { setText } from "./prose.mjs";

/**
 * What the typed currents are.
 * @param {Record<string, string>} values by current
 * @param {string[]} equations the student's own, if there are any
 * @param {import("./checking.mjs").Place} place
 * @returns {{says: import("./saying.mjs").Tree[], verdict: string, unread: string[]}}
 */
export function answerNumbers(values, equations, place) {
  const result = checkNumbers(place.example, values, { flip: place.flip, equations });
  const views = { right: viewRight, wrong: viewWrong, unreadable: viewUnread };
  return { verdict: result.verdict, unread: result.unread.map(({ current }) => current), says: views[result.verdict](result, place, values) };
}

/** Does once, ahead of time, what the first verdict would wait for. */
export function* prepare(place) {
  yield* prepareLaws(place);
  answerNumbers(Object.fromEntries(place.example.unknowns.map((name, at) => [name, `${at + 1}.11`])), [], place);
}

const paragraph = (...trees) => ["p", {}, ...trees];

/** Right, and where an arrow was turned that its sign was meant so. */
function viewRight({ say: said, numbers }, place) {
  const turned = numbers.map(({ current }) => current).filter((current) => place.flip.includes(current));
  const open = said.key === "right-so-far" ? askedCurrents(place.topology).filter((current) => !numbers.some((each) => each.current === current)) : [];
  const told = open.length ? { key: "right-asked", values: { currents: listed(open) } } : said;
  const arrows = turned.length ? [" ", ...setText(say("check.numbers.turned", { currents: listed(turned) }), place.topology)] : [];
  return [paragraph(["strong", {}, ...tellSaid(told, place)], ...arrows)];
}

function viewUnread({ say: said, unread }, place, values) {
  const [first] = unread;
  if (!first) return [paragraph(...tellSaid(said, place))];
  return [paragraph(...setText(`${first.current}: `, place.topology), ...tellSaid(said, place)), ...viewSpot(values[first.current], first.at, first.length)];
}

/** The student's own equations; the first law that does not hold; then the slip or the number that explains it, if there is one to name. */
function viewWrong({ broken, slips, say: said, close, own, missing, alone }, place) {
  // Whether they fit, too few figures cannot tell.
  if (said.key === "rough") return [paragraph(...tellSaid(said, place))];
  const law = close ? null : broken[0];
  // A number that was rounded has no slip in its algebra.
  const theirs = own && !close ? [{ key: own === "algebra" ? "not-own" : "fits-own", values: {} }] : [];
  const isSilent = said.key === "no-slip" || (law?.say === said && !missing.length);
  // Beside the student's own equations nobody needs to ask for them.
  const silent = alone ? { key: "alone", values: { ...alone, others: listed(alone.others) } } : own ? null : { key: "no-slip", values: {} };
  const told = [...theirs, ...(law ? [law.say] : []), ...(isSilent ? (silent ? [silent] : []) : law?.say === said ? [] : [said])];
  const ways = slips.length ? slips : law ? [law] : [];
  return [...told.map((each) => paragraph(...tellSaid(each, place))), ...(ways.length ? viewWays(ways, place) : [])];
}
