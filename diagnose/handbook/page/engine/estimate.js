// What a good print is expected to take, where the doubt is too wide for the rollout to follow: the doubt taken
// away at the going rate, then just the cause that is left put right.
var presslore = presslore || {};

(function () {
  'use strict';

  const { LEAST_TOLD } = presslore.shared.estimate;
  const sum = presslore.numbers.sum;
  const least = presslore.numbers.least;

  /**
   * Doubt at the going rate, then the cheapest cure of each hypothesis, tried until it works.
   * @type {Engine['estimate']['findingOut']}
   */
  function findingOut(trouble) {
    const weights = trouble.weights;
    const rate = goingRate(trouble.questions, weights);
    const left = doubt(weights);
    const cures = cheapestCures(trouble);
    return {
      cost: rate[0] * left + sum(weights.map((w, h) => w * cures[h][0])),
      minutes: rate[1] * left + sum(weights.map((w, h) => w * cures[h][1])),
      waits: rate[2] * left + sum(weights.map((w, h) => w * cures[h][2]))
    };
  }

  /**
   * How far it is open what is behind it, in nats.
   * @param {number[]} weights
   */
  function doubt(weights) {
    return sum(weights.map((w) => (w > 0 ? w * Math.log(1 / w) : 0)));
  }

  /**
   * How many questions a dialogue still takes, the next one included: as if each left half of what may be behind it.
   * @type {Engine['estimate']['questionsLeft']}
   */
  function questionsLeft(weights) {
    return doubt(weights) / Math.log(2);
  }

  /**
   * What a nat of doubt costs to take away, its minutes and its waiting, by the question that tells most for its price.
   * @param {Question[]} questions @param {number[]} weights
   */
  function goingRate(questions, weights) {
    const rates = [[Infinity, Infinity, Infinity]];
    questions.forEach((question) => {
      const tells = presslore.outlook.told(question.likelihoods, weights);
      if (tells > LEAST_TOLD) rates.push([question.cost, question.minutes, question.waits].map((each) => each / tells));
    });
    return least(rates, (rate) => rate) || rates[0];
  }

  /**
   * For each hypothesis the price, minutes and waiting of its cheapest cure; calling where there is none.
   * @param {Trouble} trouble
   */
  function cheapestCures(trouble) {
    const best = trouble.weights.map(() => [trouble.call, trouble.callMinutes, 0]);
    trouble.actions.forEach((action) => {
      action.cures.forEach((cure) => {
        const own = [action.cost, action.minutes, action.waits].map((each) => each / cure[1]);
        best[cure[0]] = least([best[cure[0]], own], (price) => price) || own;
      });
    });
    return best;
  }

  presslore.estimate = { findingOut, questionsLeft };
})();
