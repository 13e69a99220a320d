/**
 * Sentences with their places filled, as text or as trees. Mirrors circuit/sentences.py and page/telling.py.
 *
 * A tree is a text, or [tag, attributes, ...trees]; an attribute that is empty or false is left out. Sentences stand in
 * a file for each part of a page that is fetched by itself, so that nothing is loaded which cannot be said.
 */

import ways from "../way-sentences.mjs";

/** @typedef {string | [string, Record<string, string>, ...Tree[]]} Tree */

/** The key of a sentence; a count chooses between one and many. */
const keyOf = (key, count) => (count === undefined ? key : `${key}.${count === 1 ? "one" : "many"}`);

/**
 * Who says the sentences of some files.
 *
 * `say` fills the places of a sentence with texts: `say(key, values)`; a value named `count` chooses between one and
 * many, and fills its place. `tell` makes trees: `**strong**`, `*stressed*` and `[a section](#id)` become elements, and
 * places take trees, lists of trees or numbers.
 * @param {...Record<string, string>} files
 * @returns {{say: (key: string, values?: Record<string, string | number>) => string,
 *   tell: (key: string, values?: Record<string, Tree | Tree[] | number>) => Tree[]}}
 */
export function speaking(...files) {
  const sentences = Object.assign({}, ...files);
  return {
    say: (key, values = {}) => sentences[keyOf(key, values.count)].replace(/\{(\w+)\}/g, (_, name) => values[name]),
    tell: (key, values = {}) => markUp(sentences[keyOf(key, values.count)], values),
  };
}

/** The words of direction, which every part of a page may need. */
export const { say } = speaking(ways);

const MARKS = /\*\*(?<strong>.+?)\*\*|\*(?<em>.+?)\*|\[(?<a>.+?)\]\((?<href>#[\w-]+)\)|\{(?<place>\w+)\}/;

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
