// Names by their features: what a text says is weighed against everything that can be meant (as BM25 weighs).
var presslore = presslore || {};

(function () {
  'use strict';

  const { DIGITS } = presslore.shared.index;
  const sum = presslore.numbers.sum;
  const rounded = presslore.numbers.rounded;

  /**
   * Of each name: its `owner`, its units in `rows` as numbers of kinds, and what they weigh in `totals`. Of
   * each kind of unit: its features, what it weighs, and where it is found: names and units in them, by turns.
   * @param {Array<string>} owners ids
   * @param {Array<Object>} names each {owner: number, units: features of each unit}
   */
  class Index {
    /** @param {string[]} owners @param {IndexedName[]} names */
    constructor(owners, names) {
      this.owners = owners;
      this.owner = names.map((name) => name.owner);
      /** @type {string[][]} */
      this.kinds = [];
      /** @type {number[][]} */
      this.places = [];
      /** @type {Map<string, number[]>} */
      this.ofFeature = new Map();
      /** @type {Map<string, [name: number, unit: number, weight: number][]>} */
      this.found = new Map();
      /** @type {Map<string, Map<number, number>>} */
      this.mentioned = new Map();
      /** @type {Map<string, number>} */
      this.weighed = new Map();
      /** @type {Map<string, number>} */
      const known = new Map();
      this.rows = names.map((name, number) =>
        name.units.map((features, place) => {
          const kind = this.kindOf(known, features);
          this.places[kind].push(number, place);
          return kind;
        })
      );
      this.kindWeights = this.kinds.map((features) => rounded(this.unitWeight(features), DIGITS));
      this.totals = this.rows.map((row) => rounded(sum(row.map((kind) => this.kindWeights[kind])), DIGITS));
    }

    /** @param {Map<string, number>} known @param {Feature[]} features */
    kindOf(known, features) {
      const own = features.map((pair) => pair[0]);
      const spelt = own.join('\t');
      let kind = known.get(spelt);
      if (kind === undefined) {
        kind = this.kinds.length;
        known.set(spelt, kind);
        this.kinds.push(own);
        this.places.push([]);
        own.forEach((feature) => add(this.ofFeature, feature, kind));
      }
      return kind;
    }

    /**
     * The units of this feature: [name, unit in it, weight].
     * @param {string} feature
     * @returns {[name: number, unit: number, weight: number][]}
     */
    at(feature) {
      return once(this.found, feature, () => {
        /** @type {[name: number, unit: number, weight: number][]} */
        const found = [];
        (this.ofFeature.get(feature) || []).forEach((kind) => {
          const places = this.places[kind];
          for (let i = 0; i < places.length; i += 2) {
            found.push([places[i], places[i + 1], this.kindWeights[kind]]);
          }
        });
        return found;
      });
    }

    /**
     * How often each owner is said to be so.
     * @param {string} feature
     * @returns {Map<number, number>}
     */
    mentions(feature) {
      return once(this.mentioned, feature, () => {
        /** @type {Map<number, number>} */
        const found = new Map();
        (this.ofFeature.get(feature) || []).forEach((kind) => {
          const places = this.places[kind];
          for (let i = 0; i < places.length; i += 2) {
            const owner = this.owner[places[i]];
            found.set(owner, (found.get(owner) || 0) + 1);
          }
        });
        return found;
      });
    }

    /**
     * How much a feature tells: more, the fewer owners use it.
     * @param {string} feature
     * @returns {number}
     */
    weight(feature) {
      return once(this.weighed, feature, () => {
        const used = sum(Array.from(this.mentions(feature).values(), (count) => Math.min(1, count)));
        return Math.log(1 + (this.owners.length - used + 0.5) / (used + 0.5));
      });
    }

    /**
     * A word that shares its meaning with others weighs half by itself, half by what it means.
     * @param {string[]} features
     */
    unitWeight(features) {
      const own = this.weight(features[0]);
      if (features.length === 1) return own;
      return (own + Math.min(...features.slice(1).map((feature) => this.weight(feature)))) / 2;
    }
  }

  /**
   * @template One
   * @param {Map<string, One[]>} map @param {string} name @param {One} value
   */
  function add(map, name, value) {
    const found = map.get(name);
    if (found) found.push(value);
    else map.set(name, [value]);
  }

  /**
   * Worked out when first asked for, and once.
   * @template Found
   * @param {Map<string, Found>} kept @param {string} wanted @param {() => Found} work
   * @returns {Found}
   */
  function once(kept, wanted, work) {
    if (!kept.has(wanted)) kept.set(wanted, work());
    return presslore.known(kept, wanted);
  }

  presslore.words.Index = Index;
})();
