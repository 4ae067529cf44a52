// The causes that come up: those behind what is seen, likeliest first, down to a stated chance.
var presslore = presslore || {};

(function () {
  'use strict';

  const { SHOWN, MOST_SHOWN } = presslore.shared.ranking;
  const numbers = presslore.numbers;

  /**
   * At most MOST_SHOWN causes: {cause, index, present: that it is there, behind: that it is behind what is seen}.
   * @type {Engine['suspects']}
   */
  function suspects(net, beliefs) {
    /** @type {Suspect[]} */
    const found = [];
    net.causes.forEach((cause, i) => {
      if (!(beliefs.behind[i] >= SHOWN)) return;
      found.push({ cause, index: i, present: beliefs.alive[i], behind: beliefs.behind[i] });
    });
    return numbers.sorted(found, (one) => [-numbers.rounded(one.behind, 9), one.cause]).slice(0, MOST_SHOWN);
  }

  presslore.suspects = suspects;
})();
