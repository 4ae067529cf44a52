// Beliefs past the width: some loud findings stay out of the sweep; what they could change is bounded
// by Bonferroni's inequalities, and estimated by the product of what each takes away. Where even that is too much work,
// the heaviest are left aside altogether, and the bounds say nothing any more.
var presslore = presslore || {};

(function () {
  'use strict';

  /** @typedef {{ silent: Swept, ratio: number }} Loss what leaving one finding out loses */

  const numbers = presslore.numbers;
  const sum = numbers.sum;
  const { MOST_LOUD } = presslore.shared.bounds;

  /**
   * The loud findings divided so that the width and the work are kept to: {kept, leftOut, aside}, the last too many even
   * for being left out. Left out are answers before defects still seen, and those that touch most causes first.
   * @type {Bounds['within']}
   */
  function within(given, widest, most) {
    const lightest = numbers.sorted(given.loud, (loud) => [loud.lasting ? 0 : 1, loud.pulls.size, loud.id]);
    const ranked = lightest.slice(0, MOST_LOUD);
    const known = new Map();
    /** @param {number} count */
    function needs(count) {
      if (!known.has(count)) {
        const { width, work } = presslore.sweep.effort(given, ranked.slice(0, count));
        known.set(count, { width, work: work + presslore.sweep.A_FOLD * given.touched.length });
      }
      return known.get(count);
    }
    let count = fitting(needs, widest, ranked.length);
    let less = 1;
    while (count > 1 && needs(count).work * (1 + ranked.length - count) > most) {
      count = Math.max(1, count - less);
      less *= 2;
    }
    const more = count + Math.max(0, Math.floor(most / (needs(count).work || 1)) - 1);
    return {
      kept: ranked.slice(0, count),
      leftOut: ranked.slice(count, more).reverse(),
      aside: ranked.slice(Math.max(count, more)).concat(lightest.slice(MOST_LOUD))
    };
  }

  /**
   * How many of the lightest findings fit the width.
   * @param {(count: number) => Effort} needs @param {number} widest @param {number} length
   */
  function fitting(needs, widest, length) {
    let reach = 1;
    while (reach < length && needs(reach).width <= widest) reach *= 2;
    let low = 0;
    let high = Math.min(reach, length) + 1;
    while (low < high) {
      const middle = Math.floor((low + high) / 2);
      if (widest < needs(middle).width) high = middle;
      else low = middle + 1;
    }
    return low - 1;
  }

  /**
   * The same division of the loud findings of other evidence, of which none is new.
   * @type {Bounds['divided']}
   */
  function divided(parts, louds) {
    /** @param {Loud[]} some */
    const idsOf = (some) => new Set(some.map((loud) => loud.id));
    const leftOut = idsOf(parts.leftOut);
    const aside = idsOf(parts.aside);
    return {
      kept: louds.filter((loud) => !leftOut.has(loud.id) && !aside.has(loud.id)),
      leftOut: louds.filter((loud) => leftOut.has(loud.id) && !aside.has(loud.id)),
      aside: louds.filter((loud) => aside.has(loud.id))
    };
  }

  /**
   * Estimates of all that a sweep finds, and bounds on `present`; of the causes wanted only, where any are.
   * @type {Bounds['bound']}
   */
  function bound(given, parts, wanted) {
    const { kept, leftOut } = parts;
    leftOut.forEach((loud) => {
      given = given.reweighed(loud, possible);
    });
    const base = swept(given, kept, wanted);
    const losses = leftOut.map((loud) => {
      const silent = swept(given.reweighed(loud, unexplained), kept, wanted);
      return { silent, ratio: Math.exp(numbers.lesser(0, silent.logEvidence - base.logEvidence)) };
    });
    const causes = wanted || base.present.map((_, cause) => cause);
    /** @type {Span[]} */
    let bounds = losses.length ? causes.map((cause) => settle(base, losses, cause)) : [];
    if (parts.aside.length) bounds = base.present.map(() => [0, 1]);
    base.unknown = unknown(base, kept, leftOut, losses);
    base.logEvidence += sum(losses.map((loss) => presslore.logOf(1 - loss.ratio)));
    return { swept: base, bounds };
  }

  /** @param {Given} given @param {Loud[]} louds @param {number[]} [wanted] */
  function swept(given, louds, wanted) {
    return presslore.sweep.sweep(given, presslore.sweep.plan(given, louds, wanted).steps, wanted);
  }

  /**
   * The chance that a pull does not contradict the finding.
   * @param {Pull} pull
   */
  function possible(pull) {
    return pull.b + pull.c;
  }

  /** @param {Pull} pull */
  function unexplained(pull) {
    return part(pull.c, pull);
  }

  /** @param {number} value @param {Pull} pull */
  function part(value, pull) {
    return value ? value / possible(pull) : 0;
  }

  /**
   * An estimate of `unknown`, of the findings kept and of those left out.
   * @param {Swept} base @param {Loud[]} kept @param {Loud[]} leftOut @param {Loss[]} losses
   */
  function unknown(base, kept, leftOut, losses) {
    let result = left(
      base.unknown,
      losses.map((loss) => loss.ratio * loss.silent.unknown)
    ).likely;
    losses.forEach((loss) => {
      result /= 1 - loss.ratio || 1;
    });
    result = numbers.lesser(result, kept.filter((loud) => loud.lasting).length);
    leftOut.forEach((loud, i) => {
      const ratio = losses[i].ratio;
      if (loud.lasting && ratio < 1) result += Math.min(1, part(loud.leak.b, loud.leak) / (1 - ratio));
    });
    return result;
  }

  /**
   * Put the estimates for a cause into `base`; its bounds.
   * @param {Swept} base @param {Loss[]} losses @param {number} cause
   */
  function settle(base, losses, cause) {
    /** @param {(silent: Swept) => number} weigh */
    function lost(weigh) {
      return losses.map((loss) => loss.ratio * weigh(loss.silent));
    }
    const present = base.present[cause];
    const there = left(
      present,
      lost((silent) => silent.present[cause])
    );
    const absent = left(
      1 - present,
      lost((silent) => 1 - silent.present[cause])
    );
    const alive = left(
      base.alive[cause],
      lost((silent) => silent.alive[cause])
    );
    const behind = left(
      base.behind[cause],
      lost((silent) => silent.behind[cause])
    );
    const least = share(there.least, absent.most);
    const most = share(there.most, absent.least);
    const total = there.likely + absent.likely || 1;
    base.present[cause] = numbers.lesser(numbers.greater(share(there.likely, absent.likely), least), most);
    base.alive[cause] = numbers.lesser(alive.likely / total, base.present[cause]);
    base.behind[cause] = numbers.lesser(behind.likely / total, base.alive[cause]);
    return /** @type {Span} */ ([least, most]);
  }

  /**
   * What is left of a weight when all findings left out must be explained, each of which alone loses some.
   * @param {number} weight @param {number[]} lost
   */
  function left(weight, lost) {
    let likely = weight;
    lost.forEach((loss) => {
      likely *= weight ? 1 - Math.min(1, loss / weight) : 0;
    });
    return {
      least: Math.max(0, weight - sum(lost)),
      likely,
      most: Math.max(0, weight - lost.reduce((most, loss) => Math.max(most, loss), 0))
    };
  }

  /** @param {number} one @param {number} other */
  function share(one, other) {
    return one + other ? one / (one + other) : 0;
  }

  presslore.bounds = { MOST_LOUD, within, divided, bound };
})();
