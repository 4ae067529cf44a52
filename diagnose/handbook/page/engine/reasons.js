// Why a cause is believed: the weight of each finding for and against it, and what would change the answer.
var presslore = presslore || {};

(function () {
  'use strict';

  /** @typedef {{ finding: Finding, without: Known }} Weighable a finding, and the evidence as it would be without it */

  const { NAMED, LATELY, THEN, HEAVIEST, LIGHTEST, SURE, MOST_WEIGHED, MOST_TURNED, MOST_BOUNDED, MOST_LINKED } =
    presslore.shared.reasons;
  const numbers = presslore.numbers;
  const changed = presslore.evidence.changed;

  /**
   * Each finding {kind, id, detail}, with the evidence as it would be without it.
   * @type {Reasons['findings']}
   */
  function findings(evidence) {
    /** @type {Weighable[]} */
    const result = [];
    /** @param {string} kind @param {string} id @param {string} detail @param {Known} without */
    function add(kind, id, detail, without) {
      result.push({ finding: { kind, id, detail }, without });
    }
    evidence.seen.forEach((defect) => {
      add('seen', defect, '', changed(evidence, { seen: but(evidence.seen, defect) }));
    });
    evidence.notSeen.forEach((defect) => {
      add('not-seen', defect, '', changed(evidence, { notSeen: but(evidence.notSeen, defect) }));
    });
    evidence.answers.forEach((answer, check) => {
      const answers = new Map(evidence.answers);
      answers.delete(check);
      add('answer', check, answer.outcome, changed(evidence, { answers }));
    });
    const told = evidence.weighed.filter((one) => one.measure === NAMED || one.measure === LATELY);
    told.forEach((named) => {
      const weighed = evidence.weighed.filter((one) => one !== named);
      add(named.measure, named.id || '', '', changed(evidence, { weighed }));
    });
    const measured = evidence.weighed.filter((one) => !told.includes(one));
    Array.from(new Set(measured.map((one) => one.measure))).forEach((measure) => {
      const weighed = evidence.weighed.filter((one) => one.measure !== measure);
      if (measure.startsWith(THEN)) add('then', measure.slice(THEN.length), '', changed(evidence, { weighed }));
      else add('reading', measure, '', changed(evidence, { weighed }));
    });
    evidence.tried.forEach((tried, number) => {
      add('tried', tried.fix, tried.change, untried(evidence, number));
    });
    return result;
  }

  /** @param {string[]} ids @param {string} gone */
  function but(ids, gone) {
    return ids.filter((one) => one !== gone);
  }

  /**
   * The evidence without one fix: what was answered after it moves one period forward.
   * @param {Known} evidence @param {number} number
   */
  function untried(evidence, number) {
    const answers = new Map();
    evidence.answers.forEach((answer, check) => {
      const period = answer.period > number ? answer.period - 1 : answer.period;
      answers.set(check, { ...answer, period });
    });
    const tried = evidence.tried.filter((_, at) => at !== number);
    const weighed = evidence.weighed.map((one) => (one.period > number ? { ...one, period: one.period - 1 } : one));
    return changed(evidence, { answers, weighed, tried });
  }

  /**
   * For each of the causes, every finding that moves it, the heaviest first: Map<cause, [{finding, weight}]>. Where that
   * is too much work, the weights are estimates, and where the findings are very many, only those that bear on the causes
   * themselves are weighed.
   * @type {Reasons['reasons']}
   */
  function reasons(net, evidence, beliefs, causes) {
    /** @type {Map<number, Reason[]>} */
    const result = new Map(causes.map((cause) => [cause, []]));
    if (!causes.length) return result;
    const { WIDEST, division, beliefsBy } = presslore.beliefs;
    const told = nearest(net, findings(evidence), causes, Math.floor(MOST_LINKED / (linksOf(net, evidence) || 1)));
    const given = presslore.factors(net, evidence);
    const share = (/** @type {number} */ all) => Math.floor(all / (told.length || 1));
    const parts = division(given, WIDEST, share(MOST_WEIGHED), share(MOST_BOUNDED));
    if (parts.leftOut.length || parts.aside.length || !beliefs.exact) beliefs = beliefsBy(given, parts, causes);
    told.forEach((one) => {
      const left = presslore.factors(net, one.without);
      const other = beliefsBy(left, presslore.bounds.divided(parts, left.loud), causes);
      causes.forEach((cause) => {
        let weight = decibans(beliefs.alive[cause]) - decibans(other.alive[cause]);
        weight = Math.max(-HEAVIEST, Math.min(HEAVIEST, weight));
        if (Math.abs(weight) >= LIGHTEST) presslore.known(result, cause).push({ finding: one.finding, weight });
      });
    });
    result.forEach((own, cause) => {
      result.set(cause, heaviestFirst(own));
    });
    return result;
  }

  /**
   * The reasons in the order in which they are told.
   * @type {Reasons['heaviestFirst']}
   */
  function heaviestFirst(found) {
    return numbers.sorted(found, (one) => [-settled(Math.abs(one.weight)), one.finding.kind, one.finding.id]);
  }

  /**
   * How many pairs of a cause and a finding the evidence speaks of.
   * @param {Network} net @param {Known} evidence
   */
  function linksOf(net, evidence) {
    const defects = evidence.seen.concat(evidence.notSeen).map((defect) => presslore.known(net.defects, defect));
    const checks = Array.from(evidence.answers.keys(), (check) => presslore.known(net.checks, check));
    return numbers.sum(defects.concat(checks).map((node) => node.links.size));
  }

  /**
   * At most so many of the findings: those that bear most surely on any of the causes.
   * @param {Network} net @param {Weighable[]} told @param {number[]} causes @param {number} most
   */
  function nearest(net, told, causes, most) {
    if (told.length <= most) return told;
    /** @param {Weighable} one */
    function bearing(one) {
      const node = (one.finding.kind === 'answer' ? net.checks : net.defects).get(one.finding.id);
      return Math.max(...causes.map((cause) => numbers.sum((node && node.links.get(cause)) || [0])));
    }
    const ranked = numbers.sorted(told, (one) => [-bearing(one), one.finding.kind, one.finding.id]);
    return ranked.slice(0, Math.max(1, most));
  }

  /**
   * The odds of a probability as 10 log10, kept within what can be said.
   * @param {number} probability
   */
  function decibans(probability) {
    const p = Math.min(1 - SURE, Math.max(SURE, probability));
    return 10 * Math.log10(p / (1 - p));
  }

  /**
   * Which outcomes of these checks would put another cause first: {check, outcome, chance, leads, probability}.
   * @type {Reasons['turns']}
   */
  function turns(net, evidence, beliefs, checks) {
    const leading = leader(beliefs);
    /** @type {Turn[]} */
    const found = [];
    const count = numbers.sum(checks.map((check) => presslore.known(net.checks, check).outcomes.length));
    const share = (/** @type {number} */ all) => Math.floor(all / (count || 1));
    checks.forEach((check) => {
      presslore.known(net.checks, check).outcomes.forEach((outcome) => {
        const after = presslore.evidence.withAnswer(evidence, { check, outcome });
        const then = presslore.believe(net, after, undefined, share(MOST_TURNED), share(MOST_BOUNDED));
        const first = leader(then);
        if (first === leading) return;
        const chance = Math.exp(numbers.lesser(0, then.logEvidence - beliefs.logEvidence));
        found.push({ check, outcome, chance, leads: first, probability: then.alive[first] });
      });
    });
    return numbers.sorted(found, (turn) => [-settled(turn.chance), turn.check, turn.outcome]);
  }

  /** @param {Beliefs} beliefs */
  function leader(beliefs) {
    const behind = beliefs.behind.map(settled);
    return behind.reduce((best, own, i) => (own > behind[best] ? i : best), 0);
  }

  /**
   * A figure as far as it orders things: what differs beyond that is the machine's rounding.
   * @param {number} value
   */
  function settled(value) {
    return numbers.rounded(value, 9);
  }

  presslore.reasons = { findings, reasons, turns, heaviestFirst, decibans };
})();
