/** One equation whose first terms, or all of them, are the student's: its fields, and what is said to them. */

import { countYours, hasSize, judgeTerm } from "../page/fading.mjs";
import { setName } from "../page/prose.mjs";
import { joined, speaking } from "../page/telling.mjs";
import { setWalked, tellTerm } from "../page/terms.mjs";
import page from "../sentences.mjs";
import sentences from "../help-sentences.mjs";
import { build } from "./build.mjs";

const { say, tell } = speaking(page, sentences);
const signs = { "+": "help.plus", "-": "help.minus", 0: "help.neither" };

export class YourEquation {
  /**
   * @param {{place: Element, equation: object, help: string, worked: object, answers: Map<string, object>,
   *   onChange: (says: string) => void, onTyped: () => void}} given place: the item of a junction or the walk of a loop
   */
  constructor({ place, equation, help, worked, answers, onChange, onTyped }) {
    Object.assign(this, { place, equation, worked, answers, onChange, onTyped });
    this.made = [];
    this.withheld = [];
    this.rule = this.#keep("rule", { rule: "" });
    this.terms = equation.terms.map((term, at) => ({ term, at, ...this.#keepTerm(term, at < countYours(equation, help)) }));
    this.#withhold([...place.children].filter((each) => each.matches(".equation, .set-repeats")));
    if (equation.rule === "junction") this.#writeJunction();
    else this.#writeLoop();
    this.#finish();
  }

  get isConnected() {
    return this.place.isConnected && this.made.every((each) => each.isConnected);
  }

  /** How many terms do not stand yet. */
  get missing() {
    return this.terms.filter(({ answer }) => answer && !answer.stands).length;
  }

  /** The first term that does not stand yet. */
  get next() {
    return this.#nameOf(this.terms.find(({ answer }) => answer && !answer.stands).term);
  }

  /** Go to its fields. */
  focus() {
    this.place.querySelector(".your-term select").focus();
  }

  #nameOf(term) {
    if (this.equation.rule === "junction") return term.current;
    return build(["span", {}, ...setWalked(term, this.worked.topology)]).textContent;
  }

  /** Take all fields away and show the equation as it is worked out. */
  remove() {
    for (const element of this.made) element.remove();
    for (const element of this.withheld) element.removeAttribute("data-withheld");
  }

  #keep(name, fresh) {
    const key = `${this.equation.rule} ${this.equation.origin} ${name}`;
    if (!this.answers.has(key)) this.answers.set(key, fresh);
    return this.answers.get(key);
  }

  /** A size outlasts a sign that was turned round. */
  #keepTerm(term, isYours) {
    const about = `${term.origin} ${term.current} ${term.factor.size()}`;
    const before = [...this.answers].find(([key]) => key.startsWith(`${this.equation.rule} ${this.equation.origin} ${about} `));
    return isYours ? { answer: this.#keep(`${about} ${term.reason}`, { sign: "", size: before?.[1].size ?? "", stands: "" }) } : {};
  }

  #withhold(elements) {
    this.withheld.push(...elements);
    for (const element of elements) element.setAttribute("data-withheld", "");
  }

  #put(element, put) {
    this.made.push(element);
    put(element);
    return element;
  }

  /** What enters and what leaves is the answer, so the sentence waits with the equation. */
  #writeJunction() {
    const says = this.place.querySelector("p");
    this.#withhold([says]);
    const prompt = build(["p", {}, ...tell("help.junction", { name: setName(this.equation.origin, "point"), others: this.#tellOthers() })]);
    this.#put(prompt, (made) => says.before(made));
    this.#put(this.#makeRule(), (made) => prompt.after(made));
    const list = this.#put(build(["ul", { class: "your-terms" }]), (made) => says.before(made));
    for (const each of this.terms) list.append(this.#makeItem(each));
  }

  #tellOthers() {
    const { name, points } = this.worked.topology.junctions.find((each) => each.name === this.equation.origin);
    const others = points.filter((point) => point !== name).map((point) => setName(point, "point"));
    return others.length ? tell("junctions.others", { points: joined(others, ", ") }) : "";
  }

  #makeItem(each) {
    const item = build(["li", { class: "your-term" }]);
    if (each.answer) this.#fillTerm(item, each);
    else item.append(...build(["span", {}, ...tellTerm(this.equation, each.term, this.worked.topology)]).childNodes);
    return item;
  }

  #writeLoop() {
    const frame = this.place.querySelector(".table-frame");
    this.#put(this.#makeRule(), (made) => frame.before(made));
    const [heading, ...rows] = this.place.querySelectorAll("table.walk tr");
    this.#nameColumn(heading);
    for (const each of this.terms) if (each.answer) this.#writeRow(rows[each.at], each);
  }

  /** While fields stand in a table, its heading says what goes into them. */
  #nameColumn(heading) {
    if (!this.missing) return;
    this.#withhold([...heading.cells].slice(1));
    this.column = this.#put(build(["th", { scope: "col", colspan: "2" }, say("help.column")]), (made) => heading.append(made));
  }

  #writeRow(row, each) {
    this.#withhold([...row.cells].slice(1));
    const cell = this.#put(build(["td", { class: "your-term", colspan: "2" }]), (made) => row.append(made));
    this.#fillTerm(cell, { ...each, onStand: () => this.#showRow(row, cell) });
    if (each.answer.stands) this.#showRow(row, cell);
  }

  #showRow(row, cell) {
    const hadFocus = cell.contains(document.activeElement);
    cell.remove();
    this.made = this.made.filter((each) => each !== cell);
    for (const each of row.cells) each.removeAttribute("data-withheld");
    if (hadFocus) this.#focusNext();
  }

  #focusNext() {
    const next = this.place.querySelector(".your-term :is(select, input):not([hidden])") ?? this.place.querySelector(".term-key") ?? this.place;
    next.focus();
  }

  #fillTerm(place, each) {
    const { term, answer } = each;
    const name = this.#nameOf(term);
    const says = build(["p", { class: "feedback" }]);
    const sign = this.#makeSign(name, answer);
    const size = hasSize(this.equation) ? this.#makeSize(term, name, answer) : null;
    const show = build(["button", { type: "button", class: "quiet-button", "aria-label": say("help.show_term", { name }) }, say("help.show")]);
    const fields = build(["div", { class: "your-fields" }]);
    fields.append(sign, ...(size ? [size] : []), build(["span", { class: "your-name" }, ...(term.current ? [size ? `${this.worked.units.resistance} ` : "", setName(term.current, "current")] : [this.worked.units.voltage])]), show);
    place.append(fields, says);
    const view = { ...each, sign, size, says, fields };
    const judge = () => (sign.value !== answer.sign || (size && size.value !== answer.size)) && this.#check(view);
    onChosen(sign, judge);
    size?.addEventListener("change", judge);
    size?.addEventListener("input", () => {
      answer.typed = size.value;
      this.onTyped();
    });
    show.addEventListener("click", () => this.#stand(view, "shown"));
    if (answer.stands) this.#showStanding(view);
    else if (answer.sign) this.#judge(view);
  }

  #makeSign(name, answer) {
    const select = build(["select", { "aria-label": say("help.sign", { name }) }]);
    const kinds = hasSize(this.equation) ? ["+", "-", "0"] : ["+", "-"];
    select.append(new Option("±", ""), ...kinds.map((sign) => new Option(say(signs[sign]), sign)));
    select.value = answer.sign;
    return select;
  }

  #makeSize(term, name, answer) {
    const { units } = this.worked;
    const unit = term.current ? units.resistance : units.voltage;
    const input = build(["input", { type: "text", inputmode: "decimal", autocomplete: "off", "aria-label": say("help.size", { name, unit }), placeholder: say("help.size_field"), size: "5" }]);
    input.value = answer.typed ?? answer.size;
    return input;
  }

  #check(view) {
    const { answer, sign, size, says } = view;
    answer.sign = sign.value;
    answer.size = size?.value ?? "";
    if (this.#judge(view)) this.#stand(view, "right");
    else this.onChange(says.textContent);
  }

  /** Whether a term is right; what is wrong with it is said beside it, after a reload as well. */
  #judge({ term, answer, sign, size, says }) {
    if (size) size.disabled = sign.value === "0";
    const { verdict, fault, says: trees } = judgeTerm(this.equation, term, answer, this.worked);
    for (const each of [sign, size].filter(Boolean)) each.removeAttribute("aria-invalid");
    if (verdict === "wrong") (fault === "sign" ? sign : size).setAttribute("aria-invalid", "true");
    if (verdict === "right") return true;
    says.replaceChildren(...build(["span", {}, ...trees]).childNodes);
    return false;
  }

  /** A term stands: found, or shown because it was asked for. */
  #stand(view, how) {
    view.answer.stands = how;
    const why = say(`help.${how}`, { why: build(["span", {}, ...tellTerm(this.equation, view.term, this.worked.topology)]).textContent });
    if (view.onStand) view.onStand();
    else this.#showStanding(view);
    this.#finish();
    this.onChange(why);
  }

  #showStanding({ term, answer, fields, says }) {
    const hadFocus = fields.contains(document.activeElement);
    fields.remove();
    says.replaceChildren(...build(["span", {}, ...tell(`help.${answer.stands}`, { why: tellTerm(this.equation, term, this.worked.topology) })]).childNodes);
    if (hadFocus) this.#focusNext();
  }

  /** When the last term stands, the whole equation does. */
  #finish() {
    if (this.missing) return;
    for (const element of this.withheld) element.removeAttribute("data-withheld");
    this.column?.remove();
    this.made = this.made.filter((each) => each !== this.column);
  }

  #makeRule() {
    const { rule } = this.equation;
    const select = build(["select", {}]);
    select.append(new Option(say("help.choose"), ""), ...["junction", "loop", "power"].map((each) => new Option(say(`help.rule.${each}`), each)));
    select.value = this.rule.rule;
    const says = build(["p", { class: "feedback" }]);
    const tellRule = () => (select.value ? say(`help.${select.value === rule ? "named" : "not"}.${rule}`) : "");
    says.textContent = tellRule();
    onChosen(select, () => {
      if (select.value === this.rule.rule) return;
      this.rule.rule = select.value;
      says.textContent = tellRule();
      this.onChange(says.textContent);
    });
    const made = build(["div", { class: "your-rule" }, ["label", {}, `${say("help.rule")} `]]);
    made.firstChild.append(select);
    made.append(says);
    return made;
  }
}

/** Do something once a choice is made: by keys not on the way to it, but with Enter or when its list is left. */
function onChosen(select, action) {
  let onTheWay = false;
  select.addEventListener("keydown", ({ key }) => {
    onTheWay = key !== "Enter";
    if (!onTheWay) action();
  });
  select.addEventListener("pointerdown", () => (onTheWay = false));
  select.addEventListener("change", () => onTheWay || action());
  // By then it is known what has the focus instead.
  select.addEventListener("focusout", () => setTimeout(() => select.isConnected && action()));
}
