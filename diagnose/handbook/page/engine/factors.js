// Evidence as factors on the causes: what each cause must not have done, and what must be explained.
// A cause is absent, or there still (its first mode), or was there until the n-th fix (a mode for each such fix).
// A present cause either explains a finding (chance b) or leaves it as it is (c).
var presslore = presslore || {};

(function () {
  'use strict';

  const { ALIVE, IMPROVES, FANCIED, FADED } = presslore.shared.factors;
  const sum = presslore.numbers.sum;
  const known = presslore.known;

  /**
   * The natural logarithm; minus infinity for 0.
   * @type {Engine['logOf']}
   */
  function logOf(value) {
    return value > 0 ? Math.log(value) : -Infinity;
  }

  /** Weights by cause: `absent`, and `modes` as {deaths, weights}, the living mode first. */
  class Factors {
    /** @param {number[]} priors */
    constructor(priors) {
      this.priors = priors;
      /** @type {number[]} */
      this.absent = [];
      /** @type {Modes[]} */
      this.modes = [];
      /** @type {number[]} */
      this.touched = []; // causes with modes, in the order they were touched
      /** @type {Loud[]} */
      this.loud = [];
      this.logQuiet = 0;
    }

    /**
     * The modes of a cause, from its prior where nothing has touched it yet.
     * @param {number} cause
     */
    of(cause) {
      if (!this.modes[cause]) {
        this.touched.push(cause);
        this.absent[cause] = 1 - this.priors[cause];
        this.modes[cause] = { deaths: [ALIVE], weights: [this.priors[cause]] };
      }
      return this.modes[cause];
    }

    /**
     * These factors times those of one finding, given what each pull is worth.
     * @param {Loud} loud @param {(pull: Pull) => number} worth
     */
    reweighed(loud, worth) {
      const result = new Factors(this.priors);
      const modes = this.modes;
      result.absent = this.absent.slice();
      result.touched = this.touched;
      result.loud = this.loud;
      this.touched.forEach((cause) => {
        const pulls = loud.pulls.get(cause);
        const weights = modes[cause].weights.map((weight, at) => (pulls ? weight * worth(pulls[at]) : weight));
        result.modes[cause] = { deaths: modes[cause].deaths, weights };
      });
      result.logQuiet = this.logQuiet + logOf(worth(loud.leak));
      result.settle();
      return result;
    }

    /** Let the weights of each cause sum to 1. */
    settle() {
      for (let i = 0; i < this.touched.length; i++) {
        const cause = this.touched[i];
        const weights = this.modes[cause].weights;
        const total = this.absent[cause] + sum(weights);
        this.logQuiet += logOf(total);
        if (total) {
          this.absent[cause] /= total;
          for (let at = 0; at < weights.length; at++) weights[at] /= total;
        }
      }
    }
  }

  /**
   * The factors of the evidence on the network. Throws for what the network does not know.
   * @type {Engine['factors']}
   */
  function factors(net, evidence) {
    const result = new Factors(net.priors);
    evidence.tried.forEach((tried, before) => {
      curesOf(net, tried).forEach((cure, cause) => {
        const modes = result.of(cause);
        modes.deaths.push(before + 1);
        modes.weights.push(modes.weights[0] * cure);
        modes.weights[0] *= 1 - cure;
      });
    });
    observations(net, evidence).forEach((observed) => {
      if (observed.level > 0) putLoud(result, observed);
      else if (observed.change) putSame(result, observed);
      else putQuiet(result, observed);
    });
    evidence.weighed.forEach((weighed) => {
      weigh(result, weighed);
    });
    result.settle();
    return result;
  }

  /**
   * A figure speaks of its cause as it was when the figure was read. The larger weight is kept at 1.
   * @param {Given} result @param {Weighed} weighed
   */
  function weigh(result, weighed) {
    const there = Math.min(1, weighed.ratio);
    const absent = Math.min(1, 1 / weighed.ratio);
    const modes = result.of(weighed.cause);
    modes.deaths.forEach((death, at) => {
      modes.weights[at] *= death > weighed.period ? there : absent;
    });
    result.absent[weighed.cause] *= absent;
  }

  /** @param {Network} net @param {Tried} tried */
  function curesOf(net, tried) {
    return net.cures.get(tried.fix) || new Map();
  }

  /**
   * What was observed: a node at a level, in a period; `until` is the fix that made a defect go away.
   * @param {Network} net @param {Known} evidence
   */
  function observations(net, evidence) {
    /** @type {Observed[]} */
    const result = [];
    /** @type {Map<string, number>} */
    const went = new Map();
    evidence.tried.forEach((tried, before) => {
      tried.gone.forEach((defect) => {
        went.set(defect, before + 1);
      });
    });
    evidence.seen.forEach((defect) => {
      const until = went.get(defect) || 0;
      const node = known(net.defects, defect);
      result.push({ node, level: 1, period: evidence.tried.length, until, lasting: !until });
    });
    evidence.notSeen.forEach((defect) => {
      result.push({ node: known(net.defects, defect), level: 0, period: 0, until: 0, lasting: false });
    });
    evidence.answers.forEach((answer, check) => {
      const node = known(net.checks, check).told(answer.times);
      const level = node.outcomes.indexOf(answer.outcome);
      if (level < 0) throw new RangeError(`no such outcome: ${check} ${answer.outcome}`);
      result.push({ node, level, period: answer.period, until: 0, lasting: false });
    });
    evidence.tried.forEach((tried, before) => {
      if (tried.change === 'better' || tried.change === 'same') result.push(change(net, evidence, tried, before + 1));
    });
    return result;
  }

  /**
   * Whether things got better is itself a finding, brought on by the causes that this fix put right.
   * @param {Network} net @param {Known} evidence @param {Tried} tried @param {number} number
   */
  function change(net, evidence, tried, number) {
    /** @type {Set<number>} */
    const linked = new Set();
    evidence.seen.forEach((defect) => {
      known(net.defects, defect).links.forEach((_, cause) => {
        linked.add(cause);
      });
    });
    /** @type {Map<number, number[]>} */
    const links = new Map();
    curesOf(net, tried).forEach((_, cause) => {
      if (linked.has(cause)) links.set(cause, [IMPROVES]);
    });
    const node = { id: `change after ${tried.fix}`, leak: [FANCIED], links, outcomes: [] };
    const level = tried.change === 'better' ? 1 : 0;
    return { node, level, period: number, until: 0, lasting: false, change: true };
  }

  /** @param {Given} result @param {Observed} observed */
  function putLoud(result, observed) {
    let leak = split(observed.node.leak, observed.level);
    if (observed.until) leak = { b: leak.b * FADED, c: leak.c };
    /** @type {Loud} */
    const loud = { id: observed.node.id, leak, pulls: new Map(), lasting: observed.lasting };
    observed.node.links.forEach((link, cause) => {
      const pull = split(link, observed.level);
      loud.pulls.set(
        cause,
        result.of(cause).deaths.map((death) => pullOf(observed, pull, death))
      );
    });
    result.loud.push(loud);
  }

  /**
   * What a cause with this death does to the finding.
   * @param {Observed} observed @param {Pull} pull @param {number} death
   */
  function pullOf(observed, pull, death) {
    if (observed.change) return death === observed.period ? pull : { b: 0, c: 1 };
    if (!observed.until) return death > observed.period ? pull : { b: 0, c: 1 };
    if (death === observed.until) return pull;
    return { b: 0, c: death > observed.until ? pull.c : 1 };
  }

  /** @param {Given} result @param {Observed} observed */
  function putQuiet(result, observed) {
    result.logQuiet += logOf(split(observed.node.leak, 0).c);
    observed.node.links.forEach((link, cause) => {
      const c = split(link, 0).c;
      const modes = result.of(cause);
      modes.deaths.forEach((death, at) => {
        if (death > observed.period) modes.weights[at] *= c;
      });
    });
  }

  /**
   * Nothing changed: only causes that died of this very fix speak against it.
   * @param {Given} result @param {Observed} observed
   */
  function putSame(result, observed) {
    result.logQuiet += logOf(1 - FANCIED);
    observed.node.links.forEach((_, cause) => {
      const modes = result.of(cause);
      modes.weights[modes.deaths.indexOf(observed.period)] *= 1 - IMPROVES;
    });
  }

  /**
   * The chance of picking just this level, and of picking a lower one.
   * @param {number[]} chances @param {number} level
   */
  function split(chances, level) {
    const rest = Math.max(0, 1 - sum(chances));
    if (level === 0) return { b: 0, c: rest };
    return { b: chances[level - 1], c: rest + sum(chances.slice(0, level - 1)) };
  }

  presslore.factors = factors;
  presslore.logOf = logOf;
})();
