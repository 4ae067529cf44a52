// What each word speaks for: one table of weights, made ahead of time from ways of saying and read row by row.
var presslore = presslore || {};

(function () {
  'use strict';

  const { BETWEEN } = presslore.shared.table;
  const DIGITS = new Map(Array.from(presslore.shared.table.DIGITS, (sign, worth) => [sign, worth]));
  const WEIGHTS = new Map(Array.from(presslore.shared.table.WEIGHTS, (sign, place) => [sign, place + 1]));

  /**
   * `classes`: what can be told. `bias`: of each class, what speaks for it before a word is said. `extra`: what features
   * say of a shop's own classes.
   */
  class Layer {
    /**
     * @param {string[]} classes
     * @param {number[]} bias
     * @param {TableRows} table
     * @param {Map<string, Map<number, number>>} [extra]
     */
    constructor(classes, bias, table, extra) {
      this.classes = classes;
      this.bias = bias;
      this.table = table;
      /** @type {Map<string, Map<number, number>>} */
      this.extra = extra || new Map();
      /** @type {Map<string, TableRow>} */
      this.read = new Map();
    }

    /**
     * What a feature says of every class (`alike`), and beyond that of some by their numbers (`own`).
     * @param {string} feature
     * @returns {TableRow}
     */
    row(feature) {
      const before = this.read.get(feature);
      if (before) return before;
      const found = this.parsed(this.table.rows.get(feature) || '');
      const extra = this.extra.get(feature);
      if (extra) extra.forEach((weight, told) => found.own.set(told, weight));
      this.read.set(feature, found);
      return found;
    }

    /**
     * A row as it is written: a digit for the steps below 0 that it says of every class; then, for each of some classes,
     * how far it is from the one before, and the sign of its weight.
     * @param {string} text
     */
    parsed(text) {
      /** @type {TableRow} */
      const row = { alike: 0, own: new Map() };
      const part = text ? text.split(BETWEEN)[this.table.number] : '';
      if (!part) return row;
      row.alike = -presslore.known(DIGITS, part[0]) * this.table.step;
      let told = -1;
      let gap = 0;
      for (let at = 1; at < part.length; at++) {
        const steps = WEIGHTS.get(part[at]);
        if (steps === undefined) gap = gap * DIGITS.size + presslore.known(DIGITS, part[at]);
        else {
          told += gap;
          gap = 0;
          row.own.set(told, steps * this.table.step);
        }
      }
      return row;
    }
  }

  /**
   * The table of a vocabulary: `sights` are defects and what lies outside the trade, `answers` outcomes of checks and
   * causes.
   * @type {Words['table']}
   */
  function table(plain) {
    const texts = plain.rows.split('\n');
    const rows = new Map(plain.features.split('\n').map((feature, number) => [feature, texts[number]]));
    const [sights, answers] = [plain.sights, plain.answers].map(
      (each, number) => new Layer(each.classes, each.bias, { rows, step: plain.step, number })
    );
    return { sights, answers };
  }

  Object.assign(presslore.words, { Layer, table });
})();
