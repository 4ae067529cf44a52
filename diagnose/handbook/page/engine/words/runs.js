// Which runs of words tell what: the strongest telling takes its words first, and what it has used no other uses.
var presslore = presslore || {};

(function () {
  'use strict';

  const { INSIDE, MUCH, ONE_MORE, REACH, MOST_BETWEEN, LEADS_ON, OR, NOTHING, LACK_ALONE, ANSWERS, TELLS_BY_LACK } =
    presslore.shared.runs;
  const STOPS = new Set(presslore.shared.runs.STOPS);
  const DENIERS = new Set(presslore.shared.runs.DENIERS);
  const RID = new Set(presslore.shared.runs.RID);
  const STILL_THERE = new Set(presslore.shared.runs.STILL_THERE);
  const WEAK = new Set(presslore.shared.runs.WEAK);
  const words = presslore.words;
  const numbers = presslore.numbers;
  /** @type {Map<number, number>} */
  const EMPTY = new Map();

  /**
   * What the tokens of a text say by one layer. `alike`, `alikePaired`: of every class; `own`, `paired`: by class, by
   * token; a pair counts at its second token. `denials`: [token that denies, first token, last + 1].
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
     * The run {told, gain, first, last} of free tokens that speaks most for a class; null where there is none. `denied`: of
     * what is denied, from which a "not" takes nothing and which it sets apart.
     * @param {number} told @param {boolean[]} free @param {boolean} [denied]
     */
    best(told, free, denied) {
      const own = this.own.get(told) || EMPTY;
      const paired = this.paired.get(told) || EMPTY;
      const unsaid = denied ? EMPTY : this.unsaid(told);
      const inside = denied ? 0 : INSIDE;
      const [start, end] = this.reach(told);
      /** @type {Run | null} */
      let found = null;
      let gain = 0;
      let first = -1;
      for (let place = start; place < end; place++) {
        if (!free[place]) {
          first = -1;
          continue;
        }
        const most = unsaid.has(place) ? 0 : Infinity;
        const here = Math.min(this.alike[place] + (own.get(place) || 0), most);
        const both = Math.min(this.alikePaired[place] + (paired.get(place) || 0), most);
        const begun = this.oneClause(place) ? -inside : 0;
        const on = gain + both;
        if (first < 0 || begun > on) {
          gain = begun + here;
          first = place;
        } else gain = on + here;
        const whole = gain + this.layer.bias[told] - (this.oneClause(place + 1) ? inside : 0);
        if (!found || whole > found.gain) found = { told, gain: whole, first, last: place + 1 };
      }
      return found;
    }

    /**
     * From the first token that speaks for a class, alone or with the one beside it, up to after the last.
     * @param {number} told
     * @returns {Span}
     */
    reach(told) {
      const paired = Array.from((this.paired.get(told) || EMPTY).keys());
      const places = [...(this.own.get(told) || EMPTY).keys(), ...paired, ...paired.map((place) => place - 1)];
      return places.length ? [Math.min(...places), Math.max(...places) + 1] : [0, 0];
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
        numbers.sum(Array.from((each.get(told) || EMPTY).values()).filter((weight) => weight > 0))
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
        const strongest = numbers.least([...runs, ...names], order);
        if (!strongest) return kept;
        const top = this.withoutOthers(strongest, [...names, ...runs], free, least);
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
     * A run without clauses that tell something else, where the two together tell more: "it is pale" before "there is a
     * second copy" is no part of that.
     * @param {Run} run @param {Run[]} others @param {boolean[]} free @param {number} least
     */
    withoutOthers(run, others, free, least) {
      numbers.sorted(others, order).forEach((other) => {
        if (other.told === run.told || other.gain < MUCH || other.first < run.first || other.last > run.last) return;
        const clauses = [this.tokens[other.first].clause, this.tokens[other.last - 1].clause];
        const apart = free.map((each, place) => each && clauses.indexOf(this.tokens[place].clause) < 0);
        const rest = this.best(run.told, apart);
        if (rest && rest.gain >= least && rest.gain + other.gain - ONE_MORE >= run.gain) run = rest;
      });
      return run;
    }

    /**
     * What the tokens from first up to last say for a class.
     * @param {number} told @param {number} first @param {number} last
     */
    gain(told, first, last) {
      const own = this.own.get(told) || EMPTY;
      const paired = this.paired.get(told) || EMPTY;
      let each = 0;
      for (let place = first; place < last; place++) each += this.alike[place] + (own.get(place) || 0);
      let both = 0;
      for (let place = first + 1; place < last; place++) both += this.alikePaired[place] + (paired.get(place) || 0);
      return each + both + this.layer.bias[told];
    }

    /**
     * Let a "not" reach no farther than up to a token.
     * @param {Denial} denial @param {number} last
     */
    narrow(denial, last) {
      /** @type {Denial} */
      const less = [denial[0], denial[1], last];
      this.denials = this.denials.map((each) => (each[0] === denial[0] ? less : each));
    }

    /**
     * Whether the "not" before a token, alone or together with it, tells a class more than the token by itself. An
     * answer is told by a lack as soon as the two together speak for it ("not taped").
     * @param {number} told @param {number} first
     */
    byLack(told, first) {
      const own = this.own.get(told) || EMPTY;
      const both = (this.paired.get(told) || EMPTY).get(first) || 0;
      const alone = own.get(first - 1) || 0;
      const word = own.get(first) || 0;
      const tells = both >= TELLS_BY_LACK && (both > word || this.layer.table.number === ANSWERS);
      return tells || (alone >= LACK_ALONE && alone >= word);
    }

    /**
     * The tokens that a "not" takes out of what is said for a class.
     * @param {number} told
     */
    unsaid(told) {
      /** @type {Set<number>} */
      const places = new Set();
      this.denials.forEach(([, first, last]) => {
        if (!this.byLack(told, first)) words.addSpan(places, [first, last]);
      });
      return places;
    }
  }

  /**
   * Where each "not" stands, and the tokens of its clause that it reaches over.
   * @param {TextToken[]} tokens
   */
  function denialsIn(tokens) {
    /** @type {Denial[]} */
    const found = [];
    tokens.forEach((token, place) => {
      if (!denies(tokens, place)) return;
      let last = place + 1;
      let reach = token.key === NOTHING ? 1 : REACH; // "nothing melted"
      while (last < tokens.length && reach && goesOn(tokens, place, last)) {
        if (tokens[last].key === OR) reach = REACH;
        else if (!WEAK.has(tokens[last].key)) reach -= 1;
        last++;
      }
      if (last > place + 1 && !isThere(tokens, place)) found.push([place, place + 1, last]);
    });
    return found;
  }

  /**
   * Whether a "not" that reaches a token reaches the next: not where something is named anew.
   * @param {TextToken[]} tokens @param {number} place @param {number} next
   */
  function goesOn(tokens, place, next) {
    const token = tokens[next];
    const anew = next - 1 !== place && token.word - tokens[next - 1].word > MOST_BETWEEN;
    return token.clause === tokens[place].clause && token.key !== words.NOT && !STOPS.has(token.key) && !anew;
  }

  /** @param {TextToken[]} tokens @param {number} place */
  function denies(tokens, place) {
    const before = place ? tokens[place - 1].key : '';
    return DENIERS.has(tokens[place].key) || RID.has(`${before} ${tokens[place].key}`);
  }

  /**
   * Whether a "not" denies something else than what follows: "no idea why", "cannot get rid of".
   * @param {TextToken[]} tokens @param {number} place
   */
  function isThere(tokens, place) {
    const { clause, word } = tokens[place];
    const next = tokens.slice(place + 1, place + 2 + LEADS_ON).filter((token) => token.clause === clause);
    if (next.some((token) => STILL_THERE.has(token.key))) return true;
    const before = tokens[place - 1];
    return Boolean(before && before.key === words.NOT && before.clause === clause && word > before.word + 1);
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
