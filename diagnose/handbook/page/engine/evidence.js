// What is known of a case so far: defects seen or not, answers to checks, fixes tried, in their order.
// Each fix tried opens a new period. {seen, notSeen, answers: Map<check, {outcome, period, times}>, tried,
// named: the causes that the person named, [{cause, period}],
// weighed: what those and measured figures say, [{measure, cause, ratio, period}]}
var presslore = presslore || {};

(function () {
  'use strict';

  const byText = presslore.numbers.byText;

  function none() {
    return { seen: [], notSeen: [], answers: new Map(), tried: [], named: [], weighed: [] };
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

  /**
   * The answer now given takes the place of an earlier one; where both say the same after another look, they stand
   * together.
   * @type {EvidenceParts['withAnswer']}
   */
  function withAnswer(evidence, { check, outcome, again }) {
    const answers = new Map(evidence.answers);
    const before = answers.get(check);
    const period = evidence.tried.length;
    const stands = again && before && before.outcome === outcome && before.period === period;
    answers.set(check, { outcome, period, times: stands ? before.times + 1 : 1 });
    return changed(evidence, { answers });
  }

  /**
   * The person names a cause. Named again, it counts once, from then on.
   * @type {EvidenceParts['withNamed']}
   */
  function withNamed(evidence, cause) {
    const others = evidence.named.filter((one) => one.cause !== cause);
    const named = others.concat([{ cause, period: evidence.tried.length }]);
    return changed(evidence, { named: named.sort((one, other) => byText(one.cause, other.cause)) });
  }

  presslore.evidence = { none, changed, left, withAnswer, withNamed };
})();
