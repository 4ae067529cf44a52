// Names by their features: what a text says is weighed against everything that can be meant (as BM25 weighs).
var presslore = presslore || {};

(function () {
  'use strict';

  const ONE_MENTION = 0.4;
  const OVER_AVERAGE = 1.6;
  const SAID = 1;
  const LOOKS = 0.25;
  const sum = presslore.numbers.sum;

  /**
   * @param {Array<string>} owners ids
   * @param {Array<Object>} names each {owner: number, field: SAID or LOOKS, units: features of each unit}
   */
  function Index(owners, names) {
    this.owners = owners;
    this.names = names;
    this.places = new Map(); // feature -> [name, unit in it]
    this.kept = { mentions: new Map(), weight: new Map(), gains: new Map(), name: new Map() };
    names.forEach((name, number) => {
      name.units.forEach((features, place) => {
        features.forEach((pair) => {
          if (!this.places.has(pair[0])) this.places.set(pair[0], []);
          this.places.get(pair[0]).push([number, place]);
        });
      });
    });
  }

  /** Worked out when first asked for, and once. */
  function once(kind, work) {
    return function (wanted) {
      const kept = this.kept[kind];
      if (!kept.has(wanted)) kept.set(wanted, work.call(this, wanted));
      return kept.get(wanted);
    };
  }

  /** How often each owner is said to be so; a description counts for less than a name. */
  Index.prototype.mentions = once('mentions', function (feature) {
    const found = new Map();
    (this.places.get(feature) || []).forEach((place) => {
      const name = this.names[place[0]];
      found.set(name.owner, (found.get(name.owner) || 0) + name.field);
    });
    return found;
  });

  /** How much a feature tells: more, the fewer owners use it. */
  Index.prototype.weight = once('weight', function (feature) {
    const used = sum(Array.from(this.mentions(feature).values(), (count) => Math.min(1, count)));
    return Math.log(1 + (this.owners.length - used + 0.5) / (used + 0.5));
  });

  /** How much a feature speaks for each owner: [owner, gain]. */
  Index.prototype.gains = once('gains', function (feature) {
    const mentions = this.mentions(feature);
    const weight = this.weight(feature);
    const usual = (3 * sum(Array.from(mentions.values()))) / this.owners.length;
    return Array.from(mentions, (pair) => {
      const count = pair[1];
      return [pair[0], (weight * count) / (count + ONE_MENTION) + OVER_AVERAGE * Math.log1p(count / usual)];
    });
  });

  /** The weight of each unit of a name, and their sum. */
  Index.prototype.name = once('name', function (number) {
    const weights = this.names[number].units.map((features) => this.unitWeight(features));
    return { weights, total: sum(weights) };
  });

  /** A word that shares its meaning with others weighs half by itself, half by what it means. */
  Index.prototype.unitWeight = function (features) {
    const own = this.weight(features[0][0]);
    if (features.length === 1) return own;
    return (own + Math.min(...features.slice(1).map((pair) => this.weight(pair[0])))) / 2;
  };

  Object.assign(presslore.words, { SAID, LOOKS, Index });
})();
