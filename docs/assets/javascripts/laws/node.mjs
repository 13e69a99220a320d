/** Which names belong together. Mirrors laws/node.py. */

/** Sets of names that grow together; each is known by the name that came first. */
export class NodeSets {
  constructor(names) {
    this.order = new Map([...new Set(names)].map((name, number) => [name, number]));
    this.above = new Map([...this.order.keys()].map((name) => [name, name]));
  }

  /** The first name of the set. */
  find(name) {
    while (this.above.get(name) !== name) name = this.above.get(name);
    return name;
  }

  /** Makes two sets one. */
  join(one, other) {
    const [first, second] = [this.find(one), this.find(other)].sort((a, b) => this.order.get(a) - this.order.get(b));
    this.above.set(second, first);
  }
}
