// Beliefs past the width: some loud findings stay out of the sweep; what they could change is bounded
// by Bonferroni's inequalities, and estimated by the product of what each takes away.
var presslore = presslore || {};

(function () {
  'use strict';

  const numbers = presslore.numbers;
  const sum = numbers.sum;

  /** The loud findings that fit the width, and those left out: answers first, and those that touch most causes. */
  function within(given, widest) {
    const kept = given.loud.slice();
    const leftOut = [];
    while (presslore.sweep.plan(given, kept).width > widest) {
      const heaviest = kept.reduce((one, other) => (heavier(other, one) ? other : one));
      kept.splice(kept.indexOf(heaviest), 1);
      leftOut.push(heaviest);
    }
    return { kept, leftOut };
  }

  function heavier(one, other) {
    if (one.lasting !== other.lasting) return other.lasting;
    if (one.pulls.size !== other.pulls.size) return one.pulls.size > other.pulls.size;
    return numbers.byText(one.id, other.id) > 0;
  }

  /** Estimates of all that a sweep finds, and bounds on `present`. */
  function bound(given, kept, leftOut) {
    leftOut.forEach((loud) => {
      given = given.reweighed(loud, possible);
    });
    const base = swept(given, kept);
    const losses = leftOut.map((loud) => {
      const silent = swept(given.reweighed(loud, unexplained), kept);
      return { silent, ratio: Math.exp(numbers.lesser(0, silent.logEvidence - base.logEvidence)) };
    });
    const bounds = base.present.map((_, cause) => settle(base, losses, cause));
    base.unknown = unknown(base, kept, leftOut, losses);
    base.logEvidence += sum(losses.map((loss) => presslore.logOf(1 - loss.ratio)));
    return { swept: base, bounds };
  }

  function swept(given, louds) {
    return presslore.sweep.sweep(given, presslore.sweep.plan(given, louds).steps);
  }

  /** The chance that a pull does not contradict the finding. */
  function possible(pull) {
    return pull.b + pull.c;
  }

  function unexplained(pull) {
    return part(pull.c, pull);
  }

  function part(value, pull) {
    return value ? value / possible(pull) : 0;
  }

  /** An estimate of `unknown`, of the findings kept and of those left out. */
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

  /** Put the estimates for a cause into `base`; its bounds. */
  function settle(base, losses, cause) {
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
    return [least, most];
  }

  /** What is left of a weight when all findings left out must be explained, each of which alone loses some. */
  function left(weight, lost) {
    let likely = weight;
    lost.forEach((loss) => {
      likely *= weight ? 1 - Math.min(1, loss / weight) : 0;
    });
    return {
      least: Math.max(0, weight - sum(lost)),
      likely,
      most: Math.max(0, weight - Math.max.apply(null, lost))
    };
  }

  function share(one, other) {
    return one + other ? one / (one + other) : 0;
  }

  presslore.bounds = { within, bound };
})();
