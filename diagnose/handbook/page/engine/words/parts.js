// Several defects in one text: which run of clauses speaks of which defect. Every way of dividing is weighed.
var presslore = presslore || {};

(function () {
  'use strict';

  const { PRICE, PRICE_OF_A_NAME, CLOSE, EXACTLY, FOR_A_NAME, LEAST, MOST_CLAUSES } = presslore.shared.parts;
  const numbers = presslore.numbers;

  /**
   * The best division of a text into {first, last, owner, score}; owners in `without` are not considered.
   * @type {Words['divide']}
   */
  function divide(evidence, without) {
    const starts = clauseStarts(evidence.units);
    /** @type {{ value: number, parts: Part[] }[]} */
    const best = [{ value: 0, parts: [] }];
    for (let end = 1; end < starts.length; end++) {
      const choices = [best[end - 1]];
      for (let begin = 0; begin < end; begin++) {
        const part = bestPart(evidence, starts[begin], starts[end], without);
        if (!part) continue;
        const value = best[begin].value + part.score - price(evidence, part);
        choices.push({ value, parts: best[begin].parts.concat([part]) });
      }
      best.push(numbers.least(choices, (choice) => [-choice.value, choice.parts.length]) || choices[0]);
    }
    const parts = best[best.length - 1].parts;
    if (parts.length) return oneEach(parts);
    const whole = bestPart(evidence, 0, evidence.units.length, without);
    return whole ? [whole] : [];
  }

  /**
   * The number of the first unit of each clause, and at the end that of all units.
   * @param {Unit[]} units
   */
  function clauseStarts(units) {
    /** @type {number[]} */
    const starts = [];
    units.forEach((unit, number) => {
      if (!number || unit.clause !== units[number - 1].clause) starts.push(number);
    });
    return starts.slice(0, MOST_CLAUSES).concat([units.length]);
  }

  /**
   * The defect that a run of units speaks of, if it says enough of any: where it is exactly a name, that name's.
   * @type {Words['bestPart']}
   */
  function bestPart(evidence, first, last, without) {
    const scores = evidence.scores(first, last);
    const nearest = evidence.closest(first, last);
    if (nearest.near >= EXACTLY && !(without && without.has(nearest.owner))) {
      const score = (scores.get(nearest.owner) || 0) + FOR_A_NAME;
      return { first, last, owner: nearest.owner, score };
    }
    if (without) without.forEach((owner) => scores.delete(owner));
    const best = evidence.best(scores);
    return best && best.score >= LEAST ? { first, last, owner: best.owner, score: best.score } : null;
  }

  /** @param {Heard} evidence @param {Part} part */
  function price(evidence, part) {
    const oneClause = evidence.units[part.first].clause === evidence.units[part.last - 1].clause;
    const named = oneClause && evidence.closeness(part.owner, part.first, part.last) >= CLOSE;
    return named ? PRICE_OF_A_NAME : PRICE;
  }

  /**
   * Of several parts about one defect, the one that says the most; then the best first.
   * @param {Part[]} parts
   */
  function oneEach(parts) {
    /** @type {Map<number, Part>} */
    const by = new Map();
    parts.forEach((part) => {
      const before = by.get(part.owner);
      if (!before || part.score > before.score) by.set(part.owner, part);
    });
    return numbers.sorted(Array.from(by.values()), (part) => [-part.score, part.first]);
  }

  Object.assign(presslore.words, { divide, bestPart });
})();
