// What to believe of every cause, given all evidence: exact up to a stated width, bounded beyond it.
var presslore = presslore || {};

(function () {
  'use strict';

  const WIDEST = 17; // open findings at a time; beyond that the answer is bounded, not exact
  const BOUNDED = 13; // open findings at a time while bounding

  /**
   * Posteriors by cause index: `alive` (still there), `present` (there at first), `behind` (there, and helping to
   * bring on what is still seen), with `unknown`, `logEvidence`, `exact` and `bounds`.
   */
  function believe(net, evidence, widest) {
    const most = widest === undefined ? WIDEST : widest;
    const given = presslore.factors(net, evidence);
    const planned = presslore.sweep.plan(given, given.loud);
    if (planned.width <= most) return beliefs(presslore.sweep.sweep(given, planned.steps), []);
    const parts = presslore.bounds.within(given, Math.min(most, BOUNDED));
    const bounded = presslore.bounds.bound(given, parts.kept, parts.leftOut);
    return beliefs(bounded.swept, bounded.bounds);
  }

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
})();
