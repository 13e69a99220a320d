/** What is said of a student's own numbers. */

import { checkNumbers } from "../laws/check-numbers.mjs";
import { tellSaid, viewSpot, viewWays } from "./checking.mjs";
import { listed, say } from "./saying.mjs";
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

const paragraph = (...trees) => ["p", {}, ...trees];

/** Right, and where an arrow was turned that its sign was meant so. */
function viewRight({ say: said, numbers }, place) {
  const turned = numbers.map(({ current }) => current).filter((current) => place.flip.includes(current));
  const arrows = turned.length ? [" ", ...setText(say("check.numbers.turned", { currents: listed(turned) }), place.topology)] : [];
  return [paragraph(["strong", {}, ...tellSaid(said, place)], ...arrows)];
}

function viewUnread({ say: said, unread }, place, values) {
  const [first] = unread;
  if (!first) return [paragraph(...tellSaid(said, place))];
  return [paragraph(...setText(`${first.current}: `, place.topology), ...tellSaid(said, place)), ...viewSpot(values[first.current], first.at, first.length)];
}

/** The first law that does not hold; then the slip that explains exactly these numbers, if there is one to name. */
function viewWrong(result, place) {
  const { broken, slips, say: said, close, own } = result;
  const [law] = broken;
  const first = law && !close ? [paragraph(...tellSaid(law.say, place))] : [];
  const second = law?.say === said ? [] : [paragraph(...tellSaid(said, place))];
  const silent = law && law.say === said && !result.missing.length && !own ? [paragraph(...tellSaid({ key: "no-slip", values: {} }, place))] : [];
  const theirs = own ? [paragraph(...tellSaid({ key: own === "algebra" ? "not-own" : "fits-own", values: {} }, place))] : [];
  return [...first, ...second, ...silent, ...theirs, ...viewWhere(slips, law, close, place)];
}

function viewWhere(slips, law, close, place) {
  if (slips.length) return viewWays(slips.map((slip) => ({ ...slip, rule: slip.slip.includes("current") || slip.slip.includes("junction") ? "junction" : "loop" })), place);
  return law && !close ? viewWays([law], place) : [];
}
