// From beliefs to the next step: which causes are worth planning for, what may be done and asked, at what price.
var presslore = presslore || {};

(function () {
  'use strict';

  /** @typedef {{ tells: number, question: Question }} Scored */

  const { HYPOTHESES, COVERED, TWO_FIXES_FOR, QUESTIONS, CANDIDATES, NOT_FREE, FLOOR, LEVEL, SOFT } =
    presslore.shared.planning;
  const numbers = presslore.numbers;
  const sum = numbers.sum;

  /**
   * The step with the least expected cost to a good print: {kind, id, cost, minutes, waits, options}.
   * @type {Engine['advise']}
   */
  function advise(net, beliefs, evidence, desk) {
    const trouble = troubleOf(net, beliefs, evidence, desk);
    const found = presslore.planner.options(trouble, CANDIDATES, FLOOR);
    const best = found[0];
    const rough = presslore.estimate.findingOut(trouble);
    const expected = best.step && rough.cost < best.cost ? rough : best;
    const kind = !best.step ? 'call' : best.step.likelihoods ? 'check' : 'fix';
    return {
      kind,
      id: best.step ? best.step.id : '',
      cost: expected.cost,
      minutes: expected.minutes,
      questions: presslore.estimate.questionsLeft(trouble.weights),
      waits: expected.waits,
      options: found
    };
  }

  /**
   * The planner's problem. The last weight stands for something unknown, or too unlikely to plan for yet.
   * @param {Network} net @param {Beliefs} beliefs @param {Known} evidence @param {Desk} desk
   */
  function troubleOf(net, beliefs, evidence, desk) {
    const rates = desk.knowledge.rates;
    const { kept, weights } = hypotheses(beliefs);
    return {
      weights,
      actions: actions(net, evidence, desk, kept, weights),
      questions: questions(net, beliefs, desk, kept, weights),
      call: rates.help + rates.helpMinutes * rates.minute,
      callMinutes: rates.helpMinutes
    };
  }

  /**
   * The likeliest causes, and the weight of each: the chance that it is the first of them at work. The last weight
   * stands for something unknown.
   * @type {Engine['hypotheses']}
   */
  function hypotheses(beliefs) {
    const total = presslore.outlook.atWork(beliefs);
    const kept = likeliest(beliefs, total);
    const behind = kept.map((cause) => beliefs.behind[cause]);
    const weights = presslore.outlook.firsts(behind, total - sum(behind));
    weights.push(Math.max(0, 1 - sum(weights)));
    return { kept, weights };
  }

  /** @param {Beliefs} beliefs @param {number} total */
  function likeliest(beliefs, total) {
    const behind = beliefs.behind;
    const ranked = numbers.sorted(Array.from(behind.keys()), (cause) => [
      -numbers.rounded(behind[cause], LEVEL),
      cause
    ]);
    const kept = [];
    let covered = 0;
    for (let i = 0; i < Math.min(HYPOTHESES, ranked.length); i++) {
      if (behind[ranked[i]] <= 0 || covered > COVERED * total) break;
      kept.push(ranked[i]);
      covered += behind[ranked[i]];
    }
    return kept;
  }

  /**
   * The fixes worth planning with. One on trial counts for a cause only where no settled one is left for it.
   * @param {Network} net
   * @param {Known} evidence
   * @param {Desk} desk
   * @param {number[]} hypotheses
   * @param {number[]} weights
   */
  function actions(net, evidence, desk, hypotheses, weights) {
    const waiting = (/** @type {string} */ fix) => presslore.known(desk.knowledge.fixes, fix).trial;
    const left = leftToDo(net, evidence, desk);
    /** @type {Set<number>} */
    const settled = new Set();
    left.forEach((cures, fix) => {
      if (!waiting(fix)) cures.forEach((_, cause) => settled.add(cause));
    });
    const column = new Map(hypotheses.map((cause, h) => [cause, h]));
    /** @type {Action[]} */
    const all = [];
    left.forEach((cures, fix) => {
      const waits = waiting(fix);
      /** @type {Chance[]} */
      const wanted = [];
      cures.forEach((cure, cause) => {
        const own = column.get(cause);
        if (own !== undefined && !(waits && settled.has(cause))) wanted.push([own, cure]);
      });
      if (wanted.length)
        all.push(
          action(
            desk,
            fix,
            numbers.sorted(wanted, (cure) => cure)
          )
        );
    });
    const kept = new Map();
    hypotheses.forEach((_, h) => {
      /** @type {{ key: Key, action: Action }[]} */
      const ratios = [];
      all.forEach((one) => {
        one.cures.forEach((cure) => {
          if (cure[0] === h)
            ratios.push({ key: [-numbers.rounded((weights[h] * cure[1]) / one.cost, LEVEL), one.id], action: one });
        });
      });
      numbers
        .sorted(ratios, (ratio) => ratio.key)
        .slice(0, h < TWO_FIXES_FOR ? 2 : 1)
        .forEach((ratio) => {
          kept.set(ratio.action.id, ratio.action);
        });
    });
    return numbers.sorted(Array.from(kept.values()), (one) => [one.id]);
  }

  /**
   * The fixes that were not tried yet and can be done: by id, what each cures.
   * @param {Network} net @param {Known} evidence @param {Desk} desk
   */
  function leftToDo(net, evidence, desk) {
    const tried = new Set(evidence.tried.map((one) => one.fix));
    /** @type {Map<string, Map<number, number>>} */
    const left = new Map();
    net.cures.forEach((cures, fix) => {
      const cured = new Map(Array.from(cures).filter((pair) => pair[1] > 0));
      if (cured.size && !tried.has(fix) && !desk.closed.has(fix)) left.set(fix, cured);
    });
    return left;
  }

  /** @param {Desk} desk @param {string} id @param {Chance[]} cures */
  function action(desk, id, cures) {
    const fix = presslore.known(desk.knowledge.fixes, id);
    const cost = price(desk, fix.minutes, fix) + testPress(desk);
    const minutes = fix.minutes + testMinutes(desk.item);
    return { id, cost: Math.max(NOT_FREE, cost), cures, minutes, waits: fix.waits.time };
  }

  /**
   * @param {Network} net
   * @param {Beliefs} beliefs
   * @param {Desk} desk
   * @param {number[]} hypotheses
   * @param {number[]} weights
   */
  function questions(net, beliefs, desk, hypotheses, weights) {
    const asking = desk.knowledge.rates.asking;
    const count = presslore.outlook.atWork(beliefs);
    /** @type {Scored[]} */
    const scored = [];
    leftToAsk(net, desk, hypotheses).forEach((id) => {
      const node = presslore.known(net.checks, id);
      const first = desk.doubted.get(id);
      const rows =
        first === undefined
          ? presslore.outlook.likelihoods(node.told(1), hypotheses, beliefs, count)
          : presslore.doubt.secondLook(node, first, hypotheses, beliefs, count);
      const check = presslore.known(desk.knowledge.checks, id);
      const minutes = check.minutes + asking;
      const cost = Math.max(NOT_FREE, price(desk, minutes, check));
      const question = { id, cost, likelihoods: rows, minutes, waits: check.waits.time };
      scored.push({ tells: presslore.outlook.told(rows, weights), question });
    });
    const kept = new Map();
    /** @param {(one: Scored) => Key} key */
    function keep(key) {
      numbers
        .sorted(scored, key)
        .slice(0, QUESTIONS)
        .forEach((one) => {
          kept.set(one.question.id, one.question);
        });
    }
    keep((one) => [-numbers.rounded(one.tells, LEVEL), one.question.id]);
    keep((one) => [-numbers.rounded(one.tells / one.question.cost, LEVEL), one.question.id]);
    return numbers.sorted(Array.from(kept.values()), (question) => [question.id]);
  }

  /**
   * The checks not answered yet, or not surely, that speak of a hypothesis. One on trial waits while a settled one speaks of the same.
   * @param {Network} net @param {Desk} desk @param {number[]} hypotheses
   */
  function leftToAsk(net, desk, hypotheses) {
    const trial = (/** @type {string} */ id) => presslore.known(desk.knowledge.checks, id).trial;
    const linksOf = (/** @type {string} */ id) => presslore.known(net.checks, id).links;
    const spoken = (/** @type {string} */ id) => hypotheses.filter((cause) => linksOf(id).has(cause));
    const open = (/** @type {string} */ id) => !desk.closed.has(id) || desk.doubted.has(id);
    const left = Array.from(net.checks.keys()).filter((id) => open(id) && spoken(id).length);
    const settled = new Set(left.filter((id) => !trial(id)).flatMap(spoken));
    return left.filter((id) => !trial(id) || !spoken(id).some((cause) => settled.has(cause)));
  }

  /**
   * What a step costs: its minutes, its waiting and what it uses up, with the item's own blank where it is known.
   * @param {Desk} desk @param {number} minutes @param {Work} step
   */
  function price(desk, minutes, { waits, spends }) {
    const rates = desk.knowledge.rates;
    const blank = desk.item ? desk.item.blankPrice : rates.blank;
    const taken = minutes * rates.minute + waits.time * rates.waiting;
    return taken + (spends.paper || 0) * rates.paper + (spends.blank || 0) * blank + (spends.money || 0);
  }

  /**
   * What one test press costs: its minutes, a sheet, and scrap cloth or a blank.
   * @param {Desk} desk
   */
  function testPress(desk) {
    const rates = desk.knowledge.rates;
    let piece = desk.item ? desk.item.blankPrice : rates.blank;
    if (desk.item && SOFT.indexOf(desk.item.family) >= 0) piece = Math.min(piece, rates.scrap);
    return testMinutes(desk.item) * rates.minute + rates.paper + piece;
  }

  /** @param {Item | null} item */
  function testMinutes(item) {
    return item ? item.testMinutes : 5;
  }

  presslore.advise = advise;
  presslore.hypotheses = hypotheses;
  presslore.prices = { testMinutes };
})();
