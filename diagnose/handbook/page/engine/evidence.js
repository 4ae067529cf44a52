// What is known of a case so far: defects seen or not, answers to checks, fixes tried, in their order.
// Each fix tried opens a new period. {seen, notSeen, answers: Map<check, {outcome, period}>, tried,
// weighed: what measured figures say, [{measure, cause, ratio, period}]}
var presslore = presslore || {};

(function () {
  'use strict';

  function none() {
    return { seen: [], notSeen: [], answers: new Map(), tried: [], weighed: [] };
  }

  /**
   * The same evidence but for some parts.
   * @type {EvidenceParts['changed']}
   */
  function changed(evidence, parts) {
    return { ...evidence, ...parts };
  }

  /**
   * The defects that are still there.
   * @type {EvidenceParts['left']}
   */
  function left(evidence) {
    const gone = new Set();
    evidence.tried.forEach((tried) => {
      tried.gone.forEach((defect) => {
        gone.add(defect);
      });
    });
    return evidence.seen.filter((defect) => !gone.has(defect));
  }

  /** @type {EvidenceParts['withAnswer']} */
  function withAnswer(evidence, check, outcome) {
    const answers = new Map(evidence.answers);
    answers.set(check, { outcome, period: evidence.tried.length });
    return changed(evidence, { answers });
  }

  presslore.evidence = { none, changed, left, withAnswer };
})();
