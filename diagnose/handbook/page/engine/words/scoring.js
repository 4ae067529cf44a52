// How strongly a run of units speaks for each owner: word by word, and by the whole names found in it.
var presslore = presslore || {};

(function () {
  'use strict';

  const { MOST_TIMES, LEAST_SHARE, WHOLE, WHOLE_BONUS, WORD_FOR_WORD, COVERED, LEAST_NAME, FURTHER } =
    presslore.shared.scoring;
  const words = presslore.words;
  const numbers = presslore.numbers;
  const sum = numbers.sum;

  /**
   * Looks every unit up once. `gains`: for each unit, owner -> gain; `pairGains`: the same for each unit with the one
   * after it. `found`: name -> its parts, where enough of it is there; a part is [unit of the text, unit of the name,
   * surety, weight]. `idle`: units that need be in no name, having been said twice before or telling something else.
   */
  class Evidence {
    /** @param {NameIndex} index @param {Unit[]} units */
    constructor(index, units) {
      this.index = index;
      this.units = units;
      /** @type {Set<number>} */
      this.idle = new Set();
      /** @type {Map<string, number>} */
      const said = new Map();
      this.gains = units.map((unit, number) => {
        const times = (said.get(unit.features[0][0]) || 0) + 1;
        said.set(unit.features[0][0], times);
        /** @type {Map<number, number>} */
        const best = new Map();
        if (times > MOST_TIMES) this.idle.add(number);
        else unit.features.forEach((pair) => raise(best, index.gains(pair[0]), pair[1]));
        return best;
      });
      this.pairGains = units.slice(1).map((unit, number) => {
        /** @type {Map<number, number>} */
        const best = new Map();
        const skipped = this.idle.has(number) || this.idle.has(number + 1);
        if (skipped || units[number].clause !== unit.clause) return best;
        words.pairsOf(units[number].features, unit.features).forEach((pair) => raise(best, index.pairGains(pair), 1));
        return best;
      });
      this.found = this.names();
    }

    /** The names of which enough is there. First whatever may be enough at most, then what is. */
    names() {
      const index = this.index;
      /** @type {{ number: number, surety: number, places: [name: number, unit: number, weight: number][] }[]} */
      const lookedUp = [];
      this.units.forEach((unit, number) => {
        if (this.idle.has(number)) return;
        unit.features.forEach((pair) => lookedUp.push({ number, surety: pair[1], places: index.at(pair[0]) }));
      });
      /** @type {Map<number, number>} */
      const most = new Map();
      lookedUp.forEach((each) => {
        each.places.forEach((place) => most.set(place[0], (most.get(place[0]) || 0) + place[2] * each.surety));
      });
      /** @type {Map<number, NamePart[]>} */
      const parts = new Map();
      lookedUp.forEach((each) => {
        each.places.forEach((place) => {
          const name = place[0];
          if (presslore.known(most, name) <= LEAST_SHARE * index.totals[name] || index.fields[name] !== words.SAID)
            return;
          /** @type {NamePart} */
          const part = [each.number, place[1], each.surety, place[2]];
          const before = parts.get(name);
          if (before) before.push(part);
          else parts.set(name, [part]);
        });
      });
      return new Map(Array.from(parts).filter((entry) => share(index, entry[0], entry[1]) > LEAST_SHARE));
    }

    /**
     * Owner -> score for the units from first up to (without) last.
     * @param {number} [first] @param {number} [last]
     */
    scores(first, last) {
      const from = first || 0;
      const to = last === undefined ? this.units.length : last;
      /** @type {Map<number, number>} */
      const totals = new Map();
      const pairs = this.pairGains.slice(from, Math.max(from, to - 1));
      this.gains
        .slice(from, to)
        .concat(pairs)
        .forEach((gains) => {
          gains.forEach((gain, owner) => totals.set(owner, (totals.get(owner) || 0) + gain));
        });
      this.namesWithin(from, to).forEach((values, owner) => {
        const best = values.sort((one, other) => other - one).slice(0, FURTHER.length);
        totals.set(owner, (totals.get(owner) || 0) + sum(best.map((value, i) => FURTHER[i] * value)));
      });
      return totals;
    }

    /**
     * The owner with the highest score among some: {owner, score}; null where there is none.
     * @param {Map<number, number>} scores
     */
    best(scores) {
      const owners = Array.from(scores.keys());
      const owner = numbers.least(owners, (one) => [-presslore.known(scores, one), this.index.owners[one]]);
      return owner === undefined ? null : { owner, score: presslore.known(scores, owner) };
    }

    /**
     * The units from first up to last that speak for an owner.
     * @param {number} owner @param {number} first @param {number} last
     */
    because(owner, first, last) {
      const result = [];
      for (let number = first; number < last; number++) {
        if (this.gains[number].get(owner)) result.push(number);
      }
      return result;
    }

    /**
     * Whether a name of an owner that tells something is there word for word, with next to nothing beside it.
     * @param {number} owner @param {number} first @param {number} last
     */
    isName(owner, first, last) {
      const run = this.weights(first, last);
      return Array.from(this.found).some((entry) => {
        const name = entry[0];
        if (this.index.owner[name] !== owner || this.index.totals[name] < LEAST_NAME) return false;
        const parts = within(entry[1], first, last);
        return run.covered(parts) >= COVERED && share(this.index, name, parts) >= WORD_FOR_WORD;
      });
    }

    /**
     * What the best name of an owner between first and last counts for.
     * @param {number} owner @param {number} first @param {number} last
     */
    valueOfBest(owner, first, last) {
      return Math.max(0, ...(this.namesWithin(first, last).get(owner) || []));
    }

    /**
     * How nearly the units from first up to last are one name of an owner, no less and no more: 0 to 1.
     * @param {number} owner @param {number} first @param {number} last
     */
    closeness(owner, first, last) {
      return this.closenesses(first, last).get(owner) || 0;
    }

    /**
     * The owner with the name that the units from first up to last are nearest to, {owner, near}; ties by id. `through`:
     * units of which one must be in the name.
     * @param {number} first @param {number} last @param {number[]} [through]
     */
    closest(first, last, through) {
      const best = this.best(this.closenesses(first, last, through));
      return best ? { owner: best.owner, near: best.score } : { owner: 0, near: 0 };
    }

    /** @param {number} first @param {number} last @param {number[]} [through] */
    closenesses(first, last, through) {
      const run = this.weights(first, last);
      /** @type {Map<number, number>} */
      const best = new Map();
      this.found.forEach((all, name) => {
        const parts = within(all, first, last);
        if (!parts.length || (through && !parts.some((part) => through.indexOf(part[0]) >= 0))) return;
        const near = Math.min(share(this.index, name, parts), run.covered(parts));
        const owner = this.index.owner[name];
        best.set(owner, Math.max(best.get(owner) || 0, near));
      });
      return best;
    }

    /**
     * What the units of a run weigh: `covered` tells how much of it some parts of a name cover.
     * @param {number} first @param {number} last
     */
    weights(first, last) {
      /** @type {number[]} */
      const run = [];
      for (let number = first; number < last; number++) run.push(this.unitWeight(number));
      const total = sum(run) || 1;
      return {
        covered: (/** @type {NamePart[]} */ parts) => {
          const units = Array.from(new Set(parts.map((part) => part[0]))).sort((one, other) => one - other);
          return sum(units.map((number) => run[number - first])) / total;
        }
      };
    }

    /** @param {number} number */
    unitWeight(number) {
      if (this.idle.has(number)) return 0;
      return this.index.unitWeight(this.units[number].features.map((pair) => pair[0]));
    }

    /**
     * Owner -> the value of every name of which enough is found between first and last.
     * @param {number} first @param {number} last
     */
    namesWithin(first, last) {
      /** @type {Map<number, number[]>} */
      const values = new Map();
      this.found.forEach((parts, name) => {
        const value = this.value(name, within(parts, first, last));
        if (!value) return;
        const owner = this.index.owner[name];
        const before = values.get(owner);
        if (before) before.push(value);
        else values.set(owner, [value]);
      });
      return values;
    }

    /** @param {number} name @param {NamePart[]} parts */
    value(name, parts) {
      const there = share(this.index, name, parts);
      if (there <= LEAST_SHARE) return 0;
      return (this.index.totals[name] + (there >= WHOLE ? WHOLE_BONUS : 0)) * Math.pow(there, 3);
    }
  }

  /** @param {Map<number, number>} best @param {Chance[]} gains @param {number} surety */
  function raise(best, gains, surety) {
    gains.forEach((gain) => best.set(gain[0], Math.max(best.get(gain[0]) || 0, gain[1] * surety)));
  }

  /** @param {NamePart[]} parts @param {number} first @param {number} last */
  function within(parts, first, last) {
    return parts.filter((part) => first <= part[0] && part[0] < last);
  }

  /**
   * How much of a name is there, by weight.
   * @param {NameIndex} index @param {number} name @param {NamePart[]} parts
   */
  function share(index, name, parts) {
    /** @type {Map<number, number>} */
    const best = new Map();
    parts.forEach((part) => {
      const value = part[2] * part[3];
      if (value > (best.get(part[1]) || 0)) best.set(part[1], value);
    });
    return sum(Array.from(best.values())) / (index.totals[name] || 1);
  }

  words.Evidence = Evidence;
})();
