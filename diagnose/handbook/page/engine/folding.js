// Causes that touch a single loud finding are folded into its leak before the sweep and unfolded after it.
var presslore = presslore || {};

(function () {
  'use strict';

  /**
   * The finding with the causes that touch no other loud one; `chain` grows from its leak by one cause at a time.
   * @type {Engine['folding']['fold']}
   */
  function fold(given, loud, causes) {
    const chain = [loud.leak];
    /** @type {Pull[]} */
    const pulls = [];
    causes.forEach((cause) => {
      const pull = together(given, cause, presslore.known(loud.pulls, cause));
      const before = chain[chain.length - 1];
      chain.push({ b: before.b * (pull.b + pull.c) + before.c * pull.b, c: before.c * pull.c });
      pulls.push(pull);
    });
    return { loud, causes, pulls, chain, leak: chain[chain.length - 1] };
  }

  /**
   * The pull of a cause, there or not.
   * @param {Given} given @param {number} cause @param {Pull[]} pulls
   */
  function together(given, cause, pulls) {
    let b = 0;
    let c = given.absent[cause];
    const weights = given.modes[cause].weights;
    for (let at = 0; at < weights.length; at++) {
      b += weights[at] * pulls[at].b;
      c += weights[at] * pulls[at].c;
    }
    return { b, c };
  }

  /**
   * Set down the leak and the folded causes, given what the rest makes of the finding unexplained and explained.
   * @type {Engine['folding']['unfold']}
   */
  function unfold(folded, given, unexplained, explained, swept) {
    const lasting = folded.loud.lasting;
    for (let i = folded.causes.length - 1; i >= 0; i--) {
      const cause = folded.causes[i];
      const rest = folded.chain[i];
      const weights = given.modes[cause].weights;
      const pulls = presslore.known(folded.loud.pulls, cause);
      const left = rest.c * unexplained + rest.b * explained;
      const done = (rest.b + rest.c) * explained;
      const shares = weights.map((weight, at) => weight * (pulls[at].c * left + pulls[at].b * done));
      swept.put(cause, given.absent[cause] * left, shares, lasting ? weights[0] * pulls[0].b * done : 0);
      unexplained = folded.pulls[i].c * unexplained + folded.pulls[i].b * explained;
      explained *= folded.pulls[i].b + folded.pulls[i].c;
    }
    const leak = folded.loud.leak;
    const total = leak.c * unexplained + leak.b * explained;
    if (lasting && total) swept.unknown += (leak.b * explained) / total;
  }

  presslore.folding = { fold, unfold };
})();
