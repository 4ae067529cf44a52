// How strongly a run of units speaks for each owner: word by word, and by the whole names found in it.
var presslore = presslore || {};

(function () {
  'use strict';

  const MOST_TIMES = 2; // a word said oftener adds nothing
  const LEAST_SHARE = 0.3; // of a name, below which it is not taken for found
  const WHOLE = 0.8;
  const WHOLE_BONUS = 1;
  const FURTHER = [0.5, 0.3, 0.2]; // what the best, second and third name of an owner count for
  const words = presslore.words;
  const sum = presslore.numbers.sum;

  /**
   * Looks every unit up once. `gains`: for each unit, owner -> gain. `found`: name -> its parts, where enough of it
   * is there; a part is [unit of the text, unit of the name, surety].
   */
  function Evidence(index, units) {
    this.index = index;
    this.units = units;
    const parts = new Map();
    const said = new Map();
    this.gains = units.map((unit, number) => {
      const best = new Map();
      const times = (said.get(unit.features[0][0]) || 0) + 1;
      said.set(unit.features[0][0], times);
      if (times > MOST_TIMES) return best;
      unit.features.forEach((pair) => {
        index.gains(pair[0]).forEach((gain) => {
          best.set(gain[0], Math.max(best.get(gain[0]) || 0, gain[1] * pair[1]));
        });
        (index.places.get(pair[0]) || []).forEach((place) => {
          if (index.names[place[0]].field !== words.SAID) return;
          if (!parts.has(place[0])) parts.set(place[0], []);
          parts.get(place[0]).push([number, place[1], pair[1]]);
        });
      });
      return best;
    });
    this.found = new Map(Array.from(parts).filter((entry) => share(index, entry[0], entry[1]) > LEAST_SHARE));
    this.namesOf = new Map(); // owner -> its names in `found`
    this.found.forEach((_, name) => {
      const owner = index.names[name].owner;
      if (!this.namesOf.has(owner)) this.namesOf.set(owner, []);
      this.namesOf.get(owner).push(name);
    });
  }

  /** Owner -> score for the units from first up to (without) last. */
  Evidence.prototype.scores = function (first, last) {
    const from = first || 0;
    const to = last === undefined ? this.units.length : last;
    const totals = new Map();
    this.gains.slice(from, to).forEach((gains) => {
      gains.forEach((gain, owner) => totals.set(owner, (totals.get(owner) || 0) + gain));
    });
    this.namesWithin(from, to).forEach((values, owner) => {
      const best = values.sort((one, other) => other - one).slice(0, FURTHER.length);
      totals.set(owner, (totals.get(owner) || 0) + sum(best.map((value, i) => FURTHER[i] * value)));
    });
    return totals;
  };

  /** The owner with the highest score among some: {owner, score}; null where there is none. */
  Evidence.prototype.best = function (scores) {
    const owners = Array.from(scores.keys());
    const owner = presslore.numbers.least(owners, (one) => [-scores.get(one), this.index.owners[one]]);
    return owner === undefined ? null : { owner, score: scores.get(owner) };
  };

  /** The units from first up to last that speak for an owner. */
  Evidence.prototype.because = function (owner, first, last) {
    const result = [];
    for (let number = first; number < last; number++) {
      if (this.gains[number].get(owner)) result.push(number);
    }
    return result;
  };

  /** How nearly the units from first up to last are one name of an owner, no less and no more: 0 to 1. */
  Evidence.prototype.closeness = function (owner, first, last) {
    const run = new Map();
    for (let number = first; number < last; number++) run.set(number, this.unitWeight(number));
    const total = sum(Array.from(run.values())) || 1;
    let best = 0;
    (this.namesOf.get(owner) || []).forEach((name) => {
      const within = this.found.get(name).filter((part) => first <= part[0] && part[0] < last);
      const covered = sum(Array.from(new Set(within.map((part) => part[0])), (number) => run.get(number)));
      best = Math.max(best, Math.min(share(this.index, name, within), covered / total));
    });
    return best;
  };

  Evidence.prototype.unitWeight = function (number) {
    const features = this.units[number].features;
    return features.length ? Math.min(...features.map((pair) => this.index.weight(pair[0]))) : 0;
  };

  /** Owner -> the value of every name of which enough is found between first and last. */
  Evidence.prototype.namesWithin = function (first, last) {
    const values = new Map();
    this.found.forEach((parts, name) => {
      const value = this.value(
        name,
        parts.filter((part) => first <= part[0] && part[0] < last)
      );
      if (!value) return;
      const owner = this.index.names[name].owner;
      if (!values.has(owner)) values.set(owner, []);
      values.get(owner).push(value);
    });
    return values;
  };

  Evidence.prototype.value = function (name, parts) {
    const there = share(this.index, name, parts);
    if (there <= LEAST_SHARE) return 0;
    return (this.index.name(name).total + (there >= WHOLE ? WHOLE_BONUS : 0)) * Math.pow(there, 3);
  };

  /** How much of a name is there, by weight. */
  function share(index, name, parts) {
    const best = new Map();
    parts.forEach((part) => {
      if (part[2] > (best.get(part[1]) || 0)) best.set(part[1], part[2]);
    });
    const known = index.name(name);
    return sum(Array.from(best, (pair) => known.weights[pair[0]] * pair[1])) / (known.total || 1);
  }

  words.Evidence = Evidence;
})();
