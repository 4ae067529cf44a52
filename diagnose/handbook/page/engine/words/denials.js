// What is said of a fault without saying that it is there: denied, feared, refused to hear, asked.
var presslore = presslore || {};

(function () {
  'use strict';

  const { LEAST, HEAD } = presslore.shared.denials;
  const FEARS = new Set(presslore.shared.denials.FEARS);
  const SAYINGS = new Set(presslore.shared.denials.SAYINGS);
  const WEAK = new Set(presslore.shared.denials.WEAK);
  const words = presslore.words;

  /**
   * What is denied: after a "not", before one with nothing left to deny, or asked and answered with no.
   * @type {Words['denied']}
   */
  function denied(spoken) {
    const found = spoken.denied(LEAST);
    spoken.tokens.forEach((token, place) => {
      const span = token.key === words.NOT && endsHere(spoken.tokens, place) && before(spoken.tokens, place);
      if (!span) return;
      const inside = spoken.tokens.map((_, number) => span[0] <= number && number < span[1]);
      /** @type {Run[]} */
      const runs = [];
      spoken.own.forEach((_, told) => {
        const run = spoken.best(told, inside);
        if (run) runs.push(run);
      });
      const top = presslore.numbers.least(runs, (run) => [-run.gain, run.told]);
      if (!top || top.gain < LEAST) return;
      const paired = spoken.paired.get(top.told);
      if (!(paired && (paired.get(place) || 0) > 0)) found.push(top);
    });
    return found;
  }

  /**
   * Whether what a run tells is feared or refused to hear, not seen.
   * @type {Words['onlyThoughtOf']}
   */
  function onlyThoughtOf(tokens, run) {
    const head = tokens.slice(Math.max(0, run.first - HEAD), run.first + 1);
    const keys = head.filter((token) => token.clause === tokens[run.first].clause).map((token) => token.key);
    const refused = keys.slice(1).some((other, place) => keys[place] === words.NOT && SAYINGS.has(other));
    return refused || keys.some((key) => FEARS.has(key));
  }

  /**
   * Whether nothing is left in the clause for a "not" to deny.
   * @param {TextToken[]} tokens @param {number} place
   */
  function endsHere(tokens, place) {
    const clause = tokens[place].clause;
    return tokens.slice(place + 1).every((token) => token.clause !== clause || WEAK.has(token.key));
  }

  /**
   * The tokens that such a "not" speaks of: those before it in its clause, else the clause before.
   * @param {TextToken[]} tokens @param {number} place
   * @returns {Span | null}
   */
  function before(tokens, place) {
    if (!place) return null;
    const clause = tokens[place - 1].clause; // its own, where anything stands before it there
    return [tokens.findIndex((token) => token.clause === clause), place];
  }

  Object.assign(words, { denied, onlyThoughtOf });
})();
