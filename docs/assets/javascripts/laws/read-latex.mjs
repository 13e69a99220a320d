/** LaTeX that was pasted, as it would have been typed: I_{1} R_{1} - 12\,\mathrm{V} = 0, \frac{12}{4}, $…$. */

const SIGNS = {
  cdot: "*", times: "*", ast: "*", div: "/", approx: "=", Omega: "Ω", omega: "Ω", ohm: "Ω", mu: "µ", epsilon: "ε", varepsilon: "ε",
  quad: " ", qquad: " ", ",": " ", ";": " ", ":": " ", " ": " ", "!": "", "\\": "", "(": "", ")": "", "[": "", "]": "", "{": "(", "}": ")",
  left: "", right: "", big: "", Big: "", bigl: "", bigr: "", displaystyle: "", mathrm: "", text: "", mathit: "", textrm: "", rm: "", mathcal: "", mathsf: "", operatorname: "",
};
const FRACTION = /^[dtc]?frac$/;

/**
 * The text with its LaTeX read; what cannot be read stays, with its backslash.
 * @param {string} typed
 * @returns {{text: string, places: number[]}} places: where each character of the text, and its end, stood in what was typed
 */
export function readLatex(typed) {
  const signs = [];
  const places = [];
  const put = (text, at) => {
    for (const sign of text) {
      signs.push(sign);
      places.push(at);
    }
  };
  if (/[\\$]|\{,\}/.test(typed)) copy(typed, 0, typed.length, put);
  else keep(typed, 0, typed.length, put);
  return { text: signs.join(""), places: [...places, typed.length] };
}

/** As it is typed, sign by sign. */
function keep(typed, from, end, put) {
  for (let at = from; at < end; at += 1) put(typed[at], at);
  return end;
}

function copy(typed, from, end, put) {
  let at = from;
  while (at < end) at = copyOne(typed, at, put);
}

/** One sign, command or group; returns where the next begins. */
function copyOne(typed, at, put) {
  if (typed.startsWith("{,}", at)) return put(",", at), at + 3;
  if ("$&".includes(typed[at])) return at + 1;
  if (typed[at] !== "\\") return put(typed[at] === "~" ? " " : typed[at], at), at + 1;
  const [command, word, sign] = /\\(?:([A-Za-z]+) ?|([^A-Za-z]?))/.exec(typed.slice(at));
  const name = word ?? sign;
  const next = at + command.length;
  if (FRACTION.test(name)) return copyFraction(typed, at, next, put);
  if (!Object.hasOwn(SIGNS, name)) return keep(typed, at, next, put);
  put(SIGNS[name], at);
  const inside = word && !SIGNS[name] ? findGroup(typed, next) : null;
  if (!inside) return next;
  copy(typed, ...inside, put);
  return inside[1] + 1;
}

function copyFraction(typed, at, next, put) {
  const above = findGroup(typed, next);
  const below = above && findGroup(typed, above[1] + 1);
  if (!below) return keep(typed, at, next, put);
  put("((", at);
  copy(typed, ...above, put);
  put(")", above[1]);
  put("/(", above[1] + 1);
  copy(typed, ...below, put);
  put(")", below[1]);
  put(")", below[1] + 1);
  return below[1] + 1;
}

/** Where the inside of a group in braces begins and ends. */
function findGroup(typed, at) {
  if (typed[at] !== "{") return null;
  let depth = 0;
  for (let end = at; end < typed.length; end += 1) {
    depth += Number(typed[end] === "{") - Number(typed[end] === "}");
    if (!depth) return [at + 1, end];
  }
  return null;
}
