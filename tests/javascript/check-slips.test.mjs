import assert from "node:assert/strict";
import { test } from "node:test";
import words from "../../docs/assets/javascripts/slips.mjs";
import { rowRules } from "../../docs/assets/javascripts/laws/slip.mjs";
import { wholeRules } from "../../docs/assets/javascripts/laws/slip-whole.mjs";

const KINDS = ["sign", "missing", "extra", "value", "emf sign"];
const SECTIONS = ["directions", "junctions", "loops", "equations", "by-hand", "matrix", "currents", "checks"];
// Slips that are recognised by other means than a rule of their own.
const WITHOUT_RULE = ["prefix-of-all", "wrong-value", "put-in-sign", "extra-wire", "extra-number", "current-sign", "current-prefix", "always-minus", "equal-split", "nothing-in-wire"];

test("every rule has its row and every row its rule", () => {
  const rows = words.slips.map(({ name }) => name).filter((name) => !WITHOUT_RULE.includes(name));
  assert.deepEqual(rows.sort(), [...Object.keys(rowRules), ...Object.keys(wholeRules)].sort());
});

test("every row says what it is, which rule it breaks and where that is explained", () => {
  for (const { name, kind, title, rule, section, sentence, sentences, source } of words.slips) {
    assert.ok(KINDS.includes(kind) && SECTIONS.includes(section) && ["loop rule", "junction rule"].includes(rule), name);
    assert.ok(title && (sentence || Object.keys(sentences).length > 1) && source !== undefined, name);
  }
});

test("no name stands twice", () => {
  assert.equal(new Set(words.slips.map(({ name }) => name)).size, words.slips.length);
});
