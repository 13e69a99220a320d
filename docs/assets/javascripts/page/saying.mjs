/**
 * Sentences with their places filled, as text or as trees. Mirrors circuit/sentences.py and page/telling.py.
 *
 * A tree is a text, or [tag, attributes, ...trees]; an attribute that is empty or false is left out.
 */

import sentences from "../sentences.mjs";

/** @typedef {string | [string, Record<string, string>, ...Tree[]]} Tree */

/** The sentence with its places still open; a count chooses between one and many. */
function findSentence(key, count) {
  return sentences[count === undefined ? key : `${key}.${count === 1 ? "one" : "many"}`];
}

/**
 * A sentence with its places filled.
 * @param {string} key
 * @param {Record<string, string | number>} [values] `count` chooses between one and many, and fills its place
 * @returns {string}
 */
export function say(key, values = {}) {
  return findSentence(key, values.count).replace(/\{(\w+)\}/g, (_, name) => values[name]);
}

const MARKS = /\*\*(?<strong>.+?)\*\*|\*(?<em>.+?)\*|\[(?<a>.+?)\]\((?<href>#[\w-]+)\)|\{(?<place>\w+)\}/;

/**
 * A sentence as trees: `**strong**`, `*stressed*` and `[a section](#id)` become elements, and places take trees.
 * @param {string} key
 * @param {Record<string, Tree | Tree[] | number>} [values] a list is a list of trees
 * @returns {Tree[]}
 */
export function tell(key, values = {}) {
  return markUp(findSentence(key, values.count), values);
}

function markUp(text, values) {
  const found = MARKS.exec(text);
  if (!found) return text ? [text] : [];
  const before = text.slice(0, found.index);
  return [...(before ? [before] : []), ...fillMark(found.groups, values), ...markUp(text.slice(found.index + found[0].length), values)];
}

function fillMark({ strong, em, a, href, place }, values) {
  if (place) return asTrees(values[place]);
  const tag = strong ? "strong" : em ? "em" : "a";
  return [[tag, href ? { href } : {}, ...markUp(strong ?? em ?? a, values)]];
}

/** One tree, a list of trees or a number, as a list of trees; nothing for an empty text. */
function asTrees(value) {
  if (!Array.isArray(value)) return value === "" ? [] : [String(value)];
  return isTree(value) ? [value] : value;
}

const isTree = (value) => typeof value[0] === "string" && typeof value[1] === "object" && !Array.isArray(value[1]);

/** Names as a sentence lists them: "E1, R2 and W1". */
export function listed(names) {
  if (names.length < 2) return names.join();
  return `${names.slice(0, -1).join(", ")} ${say("listed.and")} ${names.at(-1)}`;
}

/** Trees with the same tree between each two. */
export const joined = (trees, between) => trees.flatMap((tree, at) => (at ? [between, tree] : [tree]));
