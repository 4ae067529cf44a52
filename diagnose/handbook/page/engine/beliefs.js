// What to believe of every cause, given all evidence: exact up to a stated width, bounded beyond it.
var presslore = presslore || {};

(function () {
  'use strict';

  const { WIDEST, MOST, BOUNDED } = presslore.shared.beliefs;

  /**
   * Posteriors by cause index: `alive` (still there), `present` (there at first), `behind` (there, and helping to
   * bring on what is still seen), with `unknown`, `logEvidence`, `exact` and `bounds`.
   * @type {Engine['believe']}
   */
  function believe(net, evidence, widest = WIDEST, most = MOST, mostBounded = MOST) {
    const given = presslore.factors(net, evidence);
    return beliefsBy(given, division(given, widest, most, mostBounded));
  }

  /**
   * All loud findings to be swept where the width and the work allow it, else as many as those of bounding allow.
   * @type {BeliefsParts['division']}
   */
  function division(given, widest, most, mostBounded) {
    const louds = given.loud;
    if (louds.length <= presslore.bounds.MOST_LOUD && !presslore.sweep.crowded(louds, widest)) {
      const needs = presslore.sweep.effort(given, louds);
      if (needs.width <= widest && needs.work <= most) return { kept: louds, leftOut: [], aside: [] };
    }
    return presslore.bounds.within(given, Math.min(widest, BOUNDED), mostBounded);
  }

  /**
   * The beliefs with the loud findings divided like that; right for the causes wanted only, where any are.
   * @type {BeliefsParts['beliefsBy']}
   */
  function beliefsBy(given, parts, wanted) {
    if (!parts.leftOut.length && !parts.aside.length) {
      const { steps } = presslore.sweep.plan(given, parts.kept, wanted);
      return beliefs(presslore.sweep.sweep(given, steps, wanted), []);
    }
    const bounded = presslore.bounds.bound(given, parts, wanted);
    return beliefs(bounded.swept, bounded.bounds);
  }

  /** @param {Swept} swept @param {Span[]} bounds */
  function beliefs(swept, bounds) {
    return {
      alive: swept.alive,
      present: swept.present,
      behind: swept.behind,
      unknown: swept.unknown,
      logEvidence: swept.logEvidence,
      exact: !bounds.length,
      bounds
    };
  }

  presslore.believe = believe;
  presslore.beliefs = { WIDEST, division, beliefsBy };
})();
