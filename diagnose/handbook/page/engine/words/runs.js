// Which runs of words tell what: the strongest telling takes its words first, and what it has used no other uses.
var presslore = presslore || {};

(function () {
  'use strict';

  const { INSIDE, REACH, TELLS_BY_LACK } = presslore.shared.runs;
  const words = presslore.words;
  const numbers = presslore.numbers;
  /** @type {Map<number, number>} */
  const NOTHING = new Map();

  /**
   * What the tokens of a text say by one layer. `alike`, `alikePaired`: of every class; `own`, `paired`: by class, by
   * token; a pair counts at its second token. `denials`: [first token that is denied, last + 1].
   */
  class Spoken {
    /** @param {Layer} layer @param {TextToken[]} tokens */
    constructor(layer, tokens) {
      this.layer = layer;
      this.tokens = tokens;
      /** @type {WeightsOfClasses} */
      this.own = new Map();
      /** @type {WeightsOfClasses} */
      this.paired = new Map();
      this.alike = tokens.map((token, place) => this.add(this.own, place, token.features));
      this.alikePaired = tokens.map((token, place) => {
        const beside = place ? words.pair(tokens[place - 1], token) : '';
        return this.add(this.paired, place, beside ? [beside] : []);
      });
      this.denials = denialsIn(tokens);
    }

    /** @param {WeightsOfClasses} weights @param {number} place @param {string[]} features */
    add(weights, place, features) {
      let alike = 0;
      features.forEach((feature) => {
        const row = this.layer.row(feature);
        alike += row.alike;
        row.own.forEach((weight, told) => {
          let by = weights.get(told);
          if (!by) {
            by = new Map();
            weights.set(told, by);
          }
          by.set(place, (by.get(place) || 0) + weight);
        });
      });
      return alike;
    }

    /** The classes that anything speaks for, by number. */
    told() {
      return Array.from(this.own.keys()).sort((one, other) => one - other);
    }

    /**
     * The run {told, gain, first, last} of free tokens that speaks most for a class; null where there is none.
     * @param {number} told @param {boolean[]} free
     */
    best(told, free) {
      const own = this.own.get(told) || NOTHING;
      const paired = this.paired.get(told) || NOTHING;
      const unsaid = this.unsaid(told);
      /** @type {Run | null} */
      let found = null;
      let gain = 0;
      let first = -1;
      const end = Math.max(-1, ...own.keys());
      for (let place = own.size ? Math.min(...own.keys()) : 0; place <= end; place++) {
        if (!free[place]) {
          first = -1;
          continue;
        }
        const said = this.alike[place] + (own.get(place) || 0);
        const here = unsaid.has(place) ? Math.min(said, 0) : said;
        const begun = this.oneClause(place) ? -INSIDE : 0;
        const on = gain + this.alikePaired[place] + (paired.get(place) || 0);
        if (first < 0 || begun > on) {
          gain = begun + here;
          first = place;
        } else gain = on + here;
        const reached = gain + this.layer.bias[told] - (this.oneClause(place + 1) ? INSIDE : 0);
        if (!found || reached > found.gain) found = { told, gain: reached, first, last: place + 1 };
      }
      return found;
    }

    /**
     * Whether a token stands in the clause of the one before it.
     * @param {number} place
     */
    oneClause(place) {
      return place > 0 && place < this.tokens.length && this.tokens[place].clause === this.tokens[place - 1].clause;
    }

    /**
     * No run speaks more for a class than this.
     * @param {number} told
     */
    most(told) {
      const positive = [this.own, this.paired].map((each) =>
        numbers.sum(Array.from((each.get(told) || NOTHING).values()).filter((weight) => weight > 0))
      );
      return this.layer.bias[told] + numbers.sum(positive);
    }

    /**
     * The best run of each class that comes to `least`.
     * @param {number} least @param {boolean[]} free
     */
    each(least, free) {
      const likely = this.told().filter((told) => this.most(told) >= least);
      return reaching(
        likely.map((told) => this.best(told, free)),
        least
      );
    }

    /**
     * The same, the strongest first.
     * @param {number} least
     */
    ranked(least) {
      return numbers.sorted(
        this.each(
          least,
          this.tokens.map(() => true)
        ),
        order
      );
    }

    /**
     * The division of the text: the strongest run first, each class once. `taken`: tokens told already; `named`: runs that
     * are worth more than their words say.
     * @param {number} least @param {Set<number>} taken @param {Run[]} named
     */
    divided(least, taken, named) {
      const free = this.tokens.map((_, place) => !taken.has(place));
      let runs = this.each(least, free);
      let names = named.filter((run) => run.gain >= least && free.slice(run.first, run.last).every(Boolean));
      /** @type {Run[]} */
      const kept = [];
      for (;;) {
        const top = numbers.least([...runs, ...names], order);
        if (!top) return kept;
        kept.push(top);
        free.fill(false, top.first, top.last);
        names = names.filter((run) => run.told !== top.told && apart(run, top));
        const rest = runs.filter((run) => run.told !== top.told);
        runs = reaching(
          rest.map((run) => (apart(run, top) ? run : this.best(run.told, free))),
          least
        );
      }
    }

    /**
     * What the tokens from first up to last say for a class.
     * @param {number} told @param {number} first @param {number} last
     */
    gain(told, first, last) {
      const own = this.own.get(told) || NOTHING;
      const paired = this.paired.get(told) || NOTHING;
      let each = 0;
      for (let place = first; place < last; place++) each += this.alike[place] + (own.get(place) || 0);
      let both = 0;
      for (let place = first + 1; place < last; place++) both += this.alikePaired[place] + (paired.get(place) || 0);
      return each + both + this.layer.bias[told];
    }

    /**
     * What is denied: of each denial the class that the denied words would speak for most.
     * @param {number} least
     */
    denied(least) {
      /** @type {Run[]} */
      const found = [];
      this.denials.forEach(([first, last]) => {
        /** @type {Run[]} */
        const runs = [];
        this.own.forEach((own, told) => {
          const there = Array.from(own.keys()).some((place) => first <= place && place < last);
          if (!there || this.byLack(told, first)) return;
          for (let end = first + 1; end <= last; end++) {
            runs.push({ told, gain: this.gain(told, first, end), first, last: end });
          }
        });
        const top = numbers.least(runs, order);
        if (top && top.gain >= least) found.push(top);
      });
      return found;
    }

    /**
     * Whether the "not" before a token tells a class together with it.
     * @param {number} told @param {number} first
     */
    byLack(told, first) {
      return ((this.paired.get(told) || NOTHING).get(first) || 0) >= TELLS_BY_LACK;
    }

    /**
     * The tokens that a "not" takes out of what is said for a class.
     * @param {number} told
     */
    unsaid(told) {
      /** @type {Set<number>} */
      const places = new Set();
      this.denials.forEach((span) => {
        if (!this.byLack(told, span[0])) words.addSpan(places, span);
      });
      return places;
    }
  }

  /**
   * The tokens of its clause that each "not" reaches over.
   * @param {TextToken[]} tokens
   */
  function denialsIn(tokens) {
    /** @type {Span[]} */
    const found = [];
    tokens.forEach((token, place) => {
      if (token.key !== words.NOT) return;
      let last = place + 1;
      while (last < tokens.length && last <= place + REACH && isReached(tokens[last], token.clause)) last++;
      if (last > place + 1) found.push([place + 1, last]);
    });
    return found;
  }

  /** @param {TextToken} token @param {number} clause */
  function isReached(token, clause) {
    return token.clause === clause && token.key !== words.NOT && !words.CONTRAST.has(token.key);
  }

  /** @param {(Run | null)[]} runs @param {number} least */
  function reaching(runs, least) {
    /** @type {Run[]} */
    const kept = [];
    runs.forEach((run) => {
      if (run && run.gain >= least) kept.push(run);
    });
    return kept;
  }

  /** @param {Run} run */
  function order(run) {
    return [-run.gain, run.first, run.told];
  }

  /** @param {Run} one @param {Run} other */
  function apart(one, other) {
    return one.first >= other.last || one.last <= other.first;
  }

  words.Spoken = Spoken;
})();
