// What a check would show: the chance of each outcome under each hypothesis about what is behind the case.
var presslore = presslore || {};

(function () {
  'use strict';

  const { TINY } = presslore.shared.outlook;
  const sum = presslore.numbers.sum;

  /**
   * How many things are behind what is seen, in expectation: causes and the unknown.
   * @type {Outlook['atWork']}
   */
  function atWork(beliefs) {
    return sum(beliefs.behind) + beliefs.unknown;
  }

  /**
   * The chance that a cause is there beside the one that is dealt with next.
   * @param {Beliefs} beliefs @param {number} cause @param {number} count
   */
  function beside(beliefs, cause, count) {
    const behind = beliefs.behind[cause];
    const apart = Math.max(0, beliefs.alive[cause] - behind) / Math.max(TINY, 1 - behind);
    const too = alsoThere(behind, count);
    return Math.min(1, too + (1 - too) * apart);
  }

  /**
   * The chance of each that it is at work and none before it is.
   * @type {Outlook['firsts']}
   */
  function firsts(behind, other) {
    const weights = [];
    let left = 1;
    let rest = behind.concat(Math.min(1, other));
    while (rest.length > 1) {
      const first = rest[0];
      const count = sum(rest);
      weights.push(left * first);
      left *= 1 - first;
      rest = rest.slice(1).map((chance) => without(first, chance, count));
    }
    return weights;
  }

  /**
   * The chance that one thing is at work where another is not.
   * @param {number} first @param {number} chance @param {number} count
   */
  function without(first, chance, count) {
    return Math.min(1, (chance - first * alsoThere(chance, count)) / Math.max(TINY, 1 - first));
  }

  /**
   * The chance that one thing is at work where another is: each has a place fewer to be in.
   * @param {number} behind @param {number} count
   */
  function alsoThere(behind, count) {
    return (behind * Math.max(0, count - 1)) / Math.max(TINY, count - behind);
  }

  /**
   * One row an outcome, one column a hypothesis and a last one for "something unknown".
   * @type {Outlook['likelihoods']}
   */
  function likelihoods(node, hypotheses, beliefs, count) {
    const levels = node.outcomes.length;
    const below = reaches(node.leak, levels);
    const own = new Map();
    node.links.forEach((link, cause) => {
      const present = beside(beliefs, cause, count);
      const reach = reaches(link, levels);
      for (let level = 0; level < levels; level++) {
        const shaded = 1 - present * (1 - reach[level]);
        below[level] *= shaded;
        reach[level] = shaded ? reach[level] / shaded : 0;
      }
      own.set(cause, reach);
    });
    const columns = hypotheses.map((cause) => {
      const factor = own.get(cause);
      return single(factor ? below.map((b, level) => b * factor[level]) : below);
    });
    columns.push(single(below));
    return below.map((_, level) => columns.map((column) => column[level]));
  }

  /**
   * The chances of staying at or below each level.
   * @param {number[]} chances @param {number} levels
   */
  function reaches(chances, levels) {
    const result = [];
    for (let level = 0; level < levels; level++) result.push(1 - sum(chances.slice(level)));
    return result;
  }

  /**
   * Chances of single levels from the chances of staying at or below each.
   * @param {number[]} cumulative
   */
  function single(cumulative) {
    return cumulative.map((chance, level) => Math.max(0, chance - (level ? cumulative[level - 1] : 0)));
  }

  /**
   * How much the outcomes tell about the hypotheses: their mutual information, in nats. Weights sum to 1.
   * @type {Outlook['told']}
   */
  function told(rows, weights) {
    let result = 0;
    rows.forEach((row) => {
      const chance = sum(weights.map((w, h) => w * row[h]));
      for (let h = 0; h < row.length; h++) {
        const mass = weights[h] * row[h];
        if (mass > 0) result += mass * Math.log(row[h] / chance);
      }
    });
    return result;
  }

  presslore.outlook = { atWork, firsts, likelihoods, told };
})();
