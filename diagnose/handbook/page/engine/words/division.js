// The best division of a text as a whole: which runs of words tell what, and which are idle (Viterbi 1967).
var presslore = presslore || {};

(function () {
  'use strict';

  const { IDLE, FEW } = presslore.shared.division;
  const NEVER = -Infinity;
  const words = presslore.words;
  const numbers = presslore.numbers;

  /**
   * What the text tells, each class once, the strongest first. `first`: what the first thing told must be worth;
   * `further`: the same for each other. `taken`: tokens told already; `named`: runs that are worth more than their words
   * say.
   * @type {Words['divided']}
   */
  function divided(spoken, first, further, taken, named) {
    const free = spoken.tokens.map((_, place) => !taken.has(place));
    const names = named.filter((run) => free.slice(run.first, run.last).every(Boolean));
    const likely = spoken.told().filter((each) => spoken.most(each) >= first);
    const told = Array.from(new Set([...likely, ...names.map((run) => run.told)])).sort((one, other) => one - other);
    const said = new Map(told.map((each) => [each, spoken.said(each, free, false, ofOthers(spoken, names, each))]));
    /** @type {Map<number, Run>} */
    const best = new Map();
    numbers.sorted(new Division(free, said, names, first, further).runs(), words.runOrder).forEach((run) => {
      if (!best.has(run.told)) best.set(run.told, run);
    });
    return Array.from(best.values());
  }

  /**
   * The tokens that are all of a clause but a few, a name of another class, and of this one not.
   * @param {Spoken} spoken @param {Run[]} named @param {number} told
   */
  function ofOthers(spoken, named, told) {
    /** @type {Set<number>} */
    const others = new Set();
    named.forEach((run) => {
      if (run.told === told) return;
      for (let place = run.first; place < run.last; place++) if (spoken.size(place) <= FEW) others.add(place);
    });
    named.forEach((run) => {
      if (run.told === told) for (let place = run.first; place < run.last; place++) others.delete(place);
    });
    return others;
  }

  /**
   * Token by token: `worth` of all before it where something has been told, by the run in `back`; `entry`: what a run
   * that begins there starts from; `going`: the best run of each class that may go on.
   */
  class Division {
    /** @param {boolean[]} free @param {Map<number, Said>} said @param {Run[]} named @param {number} first @param {number} further */
    constructor(free, said, named, first, further) {
      this.free = free;
      this.said = said;
      this.named = named;
      this.first = first;
      this.further = further;
      this.worth = [NEVER];
      /** @type {number[]} */
      this.entry = [];
      /** @type {Run[]} */
      this.back = [{ told: IDLE, gain: 0, first: 0, last: 0 }];
      /** @type {Map<number, OpenRun>} */
      this.going = new Map();
    }

    /** The runs that tell something, the last first. */
    runs() {
      this.free.forEach((free, place) => {
        this.entry.push(Math.max(-this.first, this.worth[place] - this.further));
        if (free) {
          this.goOn(place);
          this.takeNames(place + 1);
        }
        this.close(place + 1);
      });
      return this.worth[this.free.length] > 0 ? this.followed() : [];
    }

    /** @param {number} place */
    goOn(place) {
      const last = place + 1;
      this.said.forEach((said, told) => {
        if (place < said.begins || place >= said.ends) return;
        const going = this.going.get(told);
        const worth = this.entry[place] + said.begin[place];
        const on = going && going.last === place ? going.worth + said.on[place] : NEVER;
        this.going.set(
          told,
          going && on >= worth ? { worth: on, first: going.first, last } : { worth, first: place, last }
        );
      });
    }

    /** @param {number} last */
    takeNames(last) {
      this.named.forEach((run) => {
        if (run.last !== last) return;
        const going = this.going.get(run.told);
        const worth = this.entry[run.first] + run.gain;
        if (!going || going.last < last || worth > going.worth)
          this.going.set(run.told, { worth, first: run.first, last });
      });
    }

    /** @param {number} last */
    close(last) {
      let worth = this.worth[last - 1];
      let back = { told: IDLE, gain: 0, first: last - 1, last };
      this.said.forEach((said, told) => {
        const going = this.going.get(told);
        if (!going || going.last !== last || !(going.worth + said.end[last] > worth)) return;
        worth = going.worth + said.end[last];
        back = { told, gain: worth - this.entry[going.first], first: going.first, last };
      });
      this.worth.push(worth);
      this.back.push(back);
    }

    followed() {
      /** @type {Run[]} */
      const found = [];
      let last = this.free.length;
      while (last && this.worth[last] > NEVER) {
        const run = this.back[last];
        last = run.first;
        if (run.told === IDLE) continue;
        found.push(run);
        if (!(this.worth[last] - this.further > -this.first)) last = 0;
      }
      return found;
    }
  }

  words.divided = divided;
})();
