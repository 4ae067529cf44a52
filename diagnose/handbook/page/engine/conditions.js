// Conditions on the job: which facts must hold. A fact that nobody knows leaves a condition undecided, and so does one
// that is usually this and may be that: {shares: [[value, chance], ...]}, the usual value first.
var presslore = presslore || {};

(function () {
  'use strict';

  const { MOST_WORLDS } = presslore.shared.conditions;

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
    if (typeof value !== 'object') return fits(test, value);
    const held = new Set(value.shares.map((share) => fits(test, share[0])));
    return held.size === 1 ? held.has(true) : null;
  }

  /** @param {Test} test @param {Value} value */
  function fits(test, value) {
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

  /**
   * The facts that the conditions speak of, each once, in their order.
   * @type {Conditions['factsAsked']}
   */
  function factsAsked(conditions) {
    return Array.from(new Set(conditions.flatMap((tests) => tests.map((test) => test.fact))));
  }

  /**
   * What the job may be as far as these facts go, each with its chance; together 1.
   * @type {Conditions['worlds']}
   */
  function worlds(job, facts) {
    /** @type {[Job, number][]} */
    let found = [[job, 1]];
    facts.forEach((fact) => {
      const usual = job.get(fact);
      if (typeof usual !== 'object') return;
      /** @type {[Value, number][]} */
      const likeliest = [[usual.shares[0][0], 1]];
      const shares = found.length * usual.shares.length <= MOST_WORLDS ? usual.shares : likeliest;
      found = found.flatMap(([world, chance]) =>
        shares.map(([value, share]) => /** @type {[Job, number]} */ ([new Map(world).set(fact, value), chance * share]))
      );
    });
    return found;
  }

  /**
   * The job once it is known that these conditions hold: of what may be, only what fits is left.
   * @type {Conditions['learnt']}
   */
  function learnt(job, told) {
    const now = new Map(job);
    told.flat().forEach((test) => {
      const left = leftOf(test, now.get(test.fact));
      const total = presslore.numbers.sum(left.map((each) => each[1]));
      now.delete(test.fact);
      if (left.length === 1) now.set(test.fact, left[0][0]);
      else if (left.length) now.set(test.fact, { shares: left.map(([value, share]) => [value, share / total]) });
    });
    return now;
  }

  /**
   * What fits of that which a fact may be; else the value that is told, where it is a single one.
   * @param {Test} test @param {Value | Usual | undefined} value
   * @returns {[Value, number][]}
   */
  function leftOf(test, value) {
    /** @type {[Value, number][]} */
    const shares = value === undefined ? [] : typeof value === 'object' ? value.shares : [[value, 1]];
    const fitting = shares.filter((each) => fits(test, each[0]));
    if (fitting.length) return fitting;
    return test.values && test.values.length === 1 ? [[test.values[0], 1]] : [];
  }

  presslore.conditions = { holds, mayHold, factsAsked, worlds, learnt };
})();
