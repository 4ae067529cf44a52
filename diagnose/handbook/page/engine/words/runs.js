// What the words of a text say for each thing that can be told, and the run of words that says most.
var presslore = presslore || {};

(function () {
  'use strict';

  const { INSIDE, REST, MENDED, REACH, MOST_BETWEEN, LEADS_ON, OR, NOTHING, LACK_ALONE, ANSWERS, TELLS_BY_LACK } =
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
      /** @type {number[]} */
      this.alike = [];
      /** @type {number[]} */
      this.alikePaired = [];
      this.weigh();
      this.alikes = [0];
      tokens.forEach((_, place) => this.alikes.push(this.alikes[place] + this.alike[place] + this.alikePaired[place]));
      this.denials = denialsIn(tokens);
      const [starts, stops] = boundsOf(tokens);
      this.starts = starts;
      this.stops = stops;
    }

    /** What a clause says again counts once. */
    weigh() {
      /** @type {Set<string>} */
      let said = new Set();
      this.tokens.forEach((token, place) => {
        if (place && this.tokens[place - 1].clause !== token.clause) said = new Set();
        const beside = place ? words.pair(this.tokens[place - 1], token) : '';
        const each = token.features.filter((feature) => !said.has(feature));
        const both = beside && !said.has(beside) ? [beside] : [];
        [...each, ...both].forEach((feature) => said.add(feature));
        this.alike.push(this.add(this.own, place, each, token.mended ? MENDED : 1));
        this.alikePaired.push(this.add(this.paired, place, both, 1));
      });
    }

    /** @param {WeightsOfClasses} weights @param {number} place @param {string[]} features @param {number} worth */
    add(weights, place, features, worth) {
      let alike = 0;
      features.forEach((feature) => {
        const row = this.layer.row(feature);
        alike += worth * row.alike;
        row.own.forEach((weight, told) => {
          let by = weights.get(told);
          if (!by) {
            by = new Map();
            weights.set(told, by);
          }
          by.set(place, (by.get(place) || 0) + worth * weight);
        });
      });
      return alike;
    }

    /** The classes that anything speaks for, by number. */
    told() {
      return Array.from(this.own.keys()).sort((one, other) => one - other);
    }

    /**
     * What the tokens say for a class. `denied`: of what is denied, from which a "not" takes nothing and which it sets
     * apart from the rest of its clause.
     * `others`: tokens that name another, and speak for none but that.
     * @param {number} told @param {boolean[]} free @param {boolean} [denied] @param {Set<number>} [others]
     * @returns {Said}
     */
    said(told, free, denied, others) {
      const own = this.own.get(told) || EMPTY;
      const paired = this.paired.get(told) || EMPTY;
      const unsaid = denied ? EMPTY : this.unsaid(told);
      /** @type {number[]} */
      const here = [];
      /** @type {number[]} */
      const on = [];
      const before = [0];
      this.tokens.forEach((_, place) => {
        const most = unsaid.has(place) || (others && others.has(place)) ? 0 : Infinity;
        here.push(Math.min(this.alike[place] + (own.get(place) || 0), most));
        on.push(here[place] + Math.min(this.alikePaired[place] + (paired.get(place) || 0), most));
        before.push(before[place] + (free[place] ? on[place] : 0));
      });
      /** @param {number} first @param {number} last */
      const rest = (first, last) =>
        last > first && !denied ? REST[this.layer.table.number] * (before[last] - before[first]) - INSIDE : 0;
      const [begins, ends] = this.reach(told);
      return {
        begin: here.map((each, place) => this.layer.bias[told] + each + rest(this.starts[place], place)),
        on,
        end: this.stops.map((stop, place) => rest(place, stop)),
        begins,
        ends
      };
    }

    /**
     * The run {told, gain, first, last} of free tokens that speaks most for a class; null where there is none. `denied`: as
     * in `said`.
     * @param {number} told @param {boolean[]} free @param {boolean} [denied]
     */
    best(told, free, denied) {
      const said = this.said(told, free, denied);
      /** @type {Run | null} */
      let found = null;
      let gain = 0;
      let first = -1;
      for (let place = said.begins; place < said.ends; place++) {
        if (!free[place]) {
          first = -1;
          continue;
        }
        const on = gain + said.on[place];
        if (first < 0 || said.begin[place] > on) {
          gain = said.begin[place];
          first = place;
        } else gain = on;
        const whole = gain + said.end[place + 1];
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
     * No run speaks more for a class than this.
     * @param {number} told
     */
    most(told) {
      const own = this.own.get(told) || EMPTY;
      const paired = this.paired.get(told) || EMPTY;
      // where a share counts of what a run leaves out, that may speak for it too
      if (REST[this.layer.table.number]) return this.layer.bias[told] + positive(own) + positive(paired);
      let gain = 0;
      let most = -Infinity;
      let end = 0;
      const places = Array.from(new Set([...own.keys(), ...paired.keys()])).sort((one, other) => one - other);
      places.forEach((place) => {
        const here = this.alike[place] + (own.get(place) || 0) + Math.max(paired.get(place) || 0, 0);
        gain = Math.max(gain + this.alikes[place] - this.alikes[end], 0) + here;
        most = Math.max(most, gain);
        end = place + 1;
      });
      return this.layer.bias[told] + most;
    }

    /**
     * How many tokens the clause of a token has.
     * @param {number} place
     */
    size(place) {
      return this.stops[this.starts[place] + 1] - this.starts[place];
    }

    /**
     * The best run of each class that comes to `least`, the strongest first.
     * @param {number} least
     */
    ranked(least) {
      const free = this.tokens.map(() => true);
      /** @type {Run[]} */
      const kept = [];
      this.told().forEach((told) => {
        const run = this.most(told) >= least ? this.best(told, free) : null;
        if (run && run.gain >= least) kept.push(run);
      });
      return numbers.sorted(kept, runOrder);
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

  /** @param {Map<number, number>} weights */
  function positive(weights) {
    return numbers.sum(Array.from(weights.values()).filter((weight) => weight > 0));
  }

  /**
   * Where the clause of each token begins, and where that of the token before each ends.
   * @param {TextToken[]} tokens
   * @returns {[starts: number[], stops: number[]]}
   */
  function boundsOf(tokens) {
    /** @param {number} place */
    const goesOn = (place) => place > 0 && tokens[place - 1].clause === tokens[place].clause;
    /** @type {number[]} */
    const starts = [];
    tokens.forEach((_, place) => starts.push(goesOn(place) ? starts[place - 1] : place));
    const stops = [...tokens.keys(), tokens.length];
    for (let place = tokens.length - 1; place > 0; place--) if (goesOn(place)) stops[place] = stops[place + 1];
    return [starts, stops];
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
      while (last < tokens.length && reach && reachesOn(tokens, place, last)) {
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
  function reachesOn(tokens, place, next) {
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

  /**
   * The strongest first.
   * @type {Words['runOrder']}
   */
  function runOrder(run) {
    return [-run.gain, run.first, run.told];
  }

  Object.assign(words, { Spoken, runOrder });
})();
