// Conditions on the job: which facts must hold. A fact that nobody knows leaves a condition undecided.
var presslore = presslore || {};

(function () {
  'use strict';

  /**
   * True or false where the job's facts decide it, null where a fact is missing.
   * @type {Conditions['holds']}
   */
  function holds(tests, job) {
    let decided = true;
    for (let i = 0; i < tests.length; i++) {
      const held = passes(tests[i], job);
      if (held === false) return false;
      decided = decided && held !== null;
    }
    return decided ? true : null;
  }

  /**
   * Whether the condition holds or, for want of a fact, may hold.
   * @type {Conditions['mayHold']}
   */
  function mayHold(tests, job) {
    return holds(tests, job) !== false;
  }

  /** @param {Test} test @param {Job} job */
  function passes(test, job) {
    const value = job.get(test.fact);
    if (value === undefined) return null;
    if (test.values) return test.values.some((one) => same(one, value));
    return typeof value !== 'string' && within(test, Number(value));
  }

  /** @param {Value} one @param {Value} other */
  function same(one, other) {
    if (typeof one === 'string' || typeof other === 'string') return one === other;
    return Number(one) === Number(other);
  }

  /** @param {Test} test @param {number} value */
  function within(test, value) {
    if (test.least !== undefined && (value < test.least || (test.above && value === test.least))) return false;
    return test.most === undefined || value < test.most || (value === test.most && !test.below);
  }

  presslore.conditions = { holds, mayHold };
})();
