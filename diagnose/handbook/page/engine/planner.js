// The next best step: what lowers the expected cost of getting a good print.
// Acting only, then the asking rule built from it, then rollout of each candidate by that rule.
// A trouble is {weights, actions, questions, call, callMinutes}; weights are masses by hypothesis.
// An action is {id, cost, minutes, waits, cures: [[hypothesis, chance]]}, a question {id, cost, minutes, waits, likelihoods}.
var presslore = presslore || {};

(function () {
  'use strict';

  /** @typedef {{ rank: number, i: number }} Ranked an action by its number, and what it is worth for its price */

  const { EPSILON } = presslore.shared.planner;
  const numbers = presslore.numbers;
  const sum = numbers.sum;

  /**
   * The mass that the action cures.
   * @param {Action} action @param {number[]} weights
   */
  function cured(action, weights) {
    let result = 0;
    for (let i = 0; i < action.cures.length; i++) result += weights[action.cures[i][0]] * action.cures[i][1];
    return result;
  }

  /**
   * Takes what the action cures off the masses.
   * @param {Action} action @param {number[]} masses
   */
  function strike(action, masses) {
    for (let i = 0; i < action.cures.length; i++) masses[action.cures[i][0]] *= 1 - action.cures[i][1];
  }

  /**
   * The masses left where the action was tried and did not cure.
   * @param {Action} action @param {number[]} weights
   */
  function failed(action, weights) {
    const left = weights.slice();
    strike(action, left);
    return left;
  }

  /**
   * The masses where an outcome with this likelihood was seen.
   * @param {number[]} likelihood @param {number[]} weights
   */
  function answered(likelihood, weights) {
    const result = new Array(weights.length);
    for (let h = 0; h < weights.length; h++) result[h] = weights[h] * likelihood[h];
    return result;
  }

  /**
   * Expected cost of trying actions in re-ordered p/c order, calling from where that is cheaper.
   * @param {number[]} weights @param {Action[]} actions @param {number} call
   */
  function actingOnly(weights, actions, call) {
    const plan = actingPlan(weights, actions, call);
    let cost = 0;
    for (let i = 0; i < plan.keep; i++) cost += plan.tried[i].cost * plan.masses[i];
    return cost + call * plan.left;
  }

  /**
   * The actions worth trying, in order: the first `keep` of `tried`, with the masses that get to each, and the mass
   * left to call. A gain only ever falls, so a stale rank is a bound: what comes up stale is ranked anew.
   * @param {number[]} weights @param {Action[]} actions @param {number} call
   */
  function actingPlan(weights, actions, call) {
    const left = weights.slice();
    let mass = sum(left);
    const gains = [];
    /** @type {Ranked[]} */
    const queue = []; // {rank, i}, best last
    for (let i = 0; i < actions.length; i++) {
      gains.push(cured(actions[i], left));
      if (gains[i] > 0) insert(queue, { rank: -gains[i] / actions[i].cost, i });
    }
    let most = sum(gains);
    const tried = [];
    const masses = [];
    while (queue.length) {
      const best = queue[queue.length - 1];
      const action = actions[best.i];
      const gain = cured(action, left);
      const rank = -gain / action.cost;
      most -= gains[best.i] - gain;
      gains[best.i] = gain;
      if (rank > best.rank + EPSILON) {
        queue.pop();
        best.rank = rank;
        insert(queue, best);
        continue;
      }
      if (-rank * call <= mass - most / 2) break;
      queue.pop();
      most -= gain;
      tried.push(action);
      masses.push(mass);
      strike(action, left);
      mass = sum(left);
    }
    return stopped(tried, masses, mass, call);
  }

  /**
   * Puts an entry into its place: ranks fall towards the end, and of equal ones the earlier action is nearer to it.
   * @param {Ranked[]} queue @param {Ranked} entry
   */
  function insert(queue, entry) {
    let at = queue.length;
    while (at > 0 && before(queue[at - 1], entry)) at--;
    queue.splice(at, 0, entry);
  }

  /** @param {Ranked} one @param {Ranked} other */
  function before(one, other) {
    return one.rank < other.rank || (one.rank === other.rank && one.i < other.i);
  }

  /**
   * The part of the order that is worth going through, and the mass left after it.
   * @param {Action[]} tried @param {number[]} masses @param {number} mass @param {number} call
   */
  function stopped(tried, masses, mass, call) {
    let value = call * mass;
    let keep = tried.length;
    let left = mass;
    for (let i = tried.length - 1; i >= 0; i--) {
      value += tried[i].cost * masses[i];
      if (call * masses[i] <= value) {
        value = call * masses[i];
        keep = i;
        left = masses[i];
      }
    }
    return { tried, masses, keep, left };
  }

  /**
   * Expected cost of asking this question now and only acting from then on.
   * @param {number[]} weights @param {Action[]} actions @param {Question} question @param {number} call
   */
  function askingThenActing(weights, actions, question, call) {
    let value = question.cost * sum(weights);
    for (let o = 0; o < question.likelihoods.length; o++) {
      value += actingOnly(answered(question.likelihoods[o], weights), actions, call);
    }
    return value;
  }

  /** @param {Action} action @param {number[]} weights */
  function worth(action, weights) {
    return -cured(action, weights) / action.cost;
  }

  /**
   * The action with the best chance of cure over price; ties by id. Null where nothing can cure.
   * @param {number[]} weights @param {Action[]} actions
   */
  function firstAction(weights, actions) {
    const best = numbers.least(actions, (action) => [worth(action, weights), action.id]);
    return best && cured(best, weights) > EPSILON ? best : null;
  }

  /**
   * The asking rule's next step; null to call for help.
   * @param {number[]} weights
   * @param {Action[]} actions
   * @param {Question[]} questions
   * @param {number} call
   */
  function byTheRule(weights, actions, questions, call) {
    const value = actingOnly(weights, actions, call);
    const action = firstAction(weights, actions);
    const best = numbers.least(priced(weights, actions, questions, call), (ask) => [ask.cost, ask.question.id]);
    if (!best || best.cost >= value - EPSILON) return value < call * sum(weights) - EPSILON ? action : null;
    if (!action) return best.question;
    const later = askingThenActing(failed(action, weights), but(actions, action), best.question, call);
    return action.cost * sum(weights) + later < best.cost ? action : best.question;
  }

  /**
   * @param {number[]} weights
   * @param {Action[]} actions
   * @param {Question[]} questions
   * @param {number} call
   */
  function priced(weights, actions, questions, call) {
    return questions.map((question) => ({
      cost: askingThenActing(weights, actions, question, call),
      question
    }));
  }

  /**
   * @template {Step} Some
   * @param {Some[]} steps @param {Step} gone
   */
  function but(steps, gone) {
    return steps.filter((step) => step !== gone);
  }

  /**
   * What acting only spends from these weights.
   * @param {Trouble} trouble @param {number[]} weights
   */
  function justActing(trouble, weights) {
    const plan = actingPlan(weights, trouble.actions, trouble.call);
    let cost = 0;
    let minutes = 0;
    let waits = 0;
    for (let i = 0; i < plan.keep; i++) {
      cost += plan.tried[i].cost * plan.masses[i];
      minutes += plan.tried[i].minutes * plan.masses[i];
      waits += plan.tried[i].waits * plan.masses[i];
    }
    return { cost: cost + trouble.call * plan.left, minutes: minutes + trouble.callMinutes * plan.left, waits };
  }

  /**
   * Follow the asking rule from these weights; branches below the floor are charged with acting only.
   * @param {Trouble} trouble @param {number[]} weights @param {number} floor
   * @returns {Spending}
   */
  function followingTheRule(trouble, weights, floor) {
    const mass = sum(weights);
    if (mass <= floor) return justActing(trouble, weights);
    const step = byTheRule(weights, trouble.actions, trouble.questions, trouble.call);
    if (!step) return { cost: trouble.call * mass, minutes: trouble.callMinutes * mass, waits: 0 };
    return after(trouble, step, weights, floor);
  }

  /**
   * What taking this step and following the asking rule from then on costs.
   * @param {Trouble} trouble @param {Step} step @param {number[]} weights @param {number} floor
   * @returns {Spending}
   */
  function after(trouble, step, weights, floor) {
    const mass = sum(weights);
    const rest = { ...trouble, actions: but(trouble.actions, step), questions: but(trouble.questions, step) };
    const branches = step.likelihoods
      ? step.likelihoods.map((likelihood) => answered(likelihood, weights))
      : [failed(step, weights)];
    const parts = branches.map((branch) => followingTheRule(rest, branch, floor));
    return {
      cost: step.cost * mass + sum(parts.map((part) => part.cost)),
      minutes: step.minutes * mass + sum(parts.map((part) => part.minutes)),
      waits: step.waits * mass + sum(parts.map((part) => part.waits))
    };
  }

  /**
   * Every candidate for the next step, cheapest first: {step (null: call), cost, minutes, waits}.
   * @type {Engine['planner']['options']}
   */
  function options(trouble, widest, floor) {
    const weights = trouble.weights;
    const mass = sum(weights);
    const actions = numbers
      .sorted(trouble.actions, (action) => [worth(action, weights), action.id])
      .slice(0, widest)
      .filter((action) => cured(action, weights) > EPSILON);
    const asks = priced(weights, trouble.actions, trouble.questions, trouble.call);
    const questions = numbers
      .sorted(asks, (ask) => [ask.cost, ask.question.id])
      .slice(0, widest)
      .map((ask) => ask.question);
    const narrowed = { ...trouble, questions };
    /** @type {Step[]} */
    const steps = [...actions, ...questions];
    const found = steps.map((step) => {
      const spending = after(narrowed, step, weights, floor * mass);
      return /** @type {Choice} */ ({ step, ...spending });
    });
    found.push({ step: null, cost: trouble.call * mass, minutes: trouble.callMinutes * mass, waits: 0 });
    return numbers.sorted(found, rank);
  }

  /** @param {Choice} option */
  function rank(option) {
    const step = option.step;
    return [numbers.rounded(option.cost, 9), step ? step.cost : Infinity, step ? step.id : ''];
  }

  presslore.planner = { options };
})();
