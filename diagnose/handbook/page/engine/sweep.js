// Exact posteriors of all causes by one sweep over them that remembers which loud findings are already explained.
// All terms are non-negative. The work grows with 2 to the number of findings open at a time.
var presslore = presslore || {};

(function () {
  'use strict';

  const weights = presslore.weights;
  const folding = presslore.folding;
  const logOf = presslore.logOf;
  const sum = presslore.numbers.sum;
  const { A_SWEEP, A_STEP, A_FOLD } = presslore.shared.sweep;

  /** What a sweep finds, cause by cause; at first what the quiet factors say. */
  class Swept {
    /** @param {Given} given */
    constructor(given) {
      this.alive = given.priors.slice();
      this.present = given.priors.slice();
      this.behind = given.priors.map(() => 0);
      this.unknown = 0;
      this.logEvidence = given.logQuiet;
      given.touched.forEach((cause) => {
        const own = given.modes[cause].weights;
        this.alive[cause] = own[0];
        this.present[cause] = sum(own);
      });
    }

    /**
     * Set down a cause, given the weights of its absence, of each mode, and of being behind the case.
     * @param {number} cause @param {number} absent @param {number[]} shares @param {number} behind
     */
    put(cause, absent, shares, behind) {
      const there = sum(shares);
      const total = absent + there || 1;
      this.alive[cause] = shares[0] / total;
      this.present[cause] = there / total;
      this.behind[cause] = Math.min(shares[0], behind) / total;
    }
  }

  /**
   * The greatest width of a sweep over the given loud findings, and its work: weights moved, or as much.
   * @type {Sweep['effort']}
   */
  function effort(given, louds) {
    const shared = sharedOf(louds);
    const opened = new Set();
    let width = 0;
    let folded = sum(louds.map((loud) => loud.pulls.size));
    shared.forEach((touched) => {
      folded -= touched.length;
    });
    let work = A_SWEEP + A_FOLD * folded;
    order(louds, shared).forEach((turn) => {
      turn.causes.forEach((cause) => {
        presslore.known(shared, cause).forEach((loud) => opened.add(loud));
        work += given.modes[cause].weights.length * (Math.pow(2, opened.size) + A_STEP);
      });
      opened.add(turn.closing);
      width = Math.max(width, opened.size);
      opened.delete(turn.closing);
    });
    return { width, work };
  }

  /**
   * Whether a single cause has more loud findings than may be open: a quick way to see that a sweep is too wide.
   * @type {Sweep['crowded']}
   */
  function crowded(louds, widest) {
    return Array.from(sharedOf(louds).values()).some((touched) => touched.length > widest);
  }

  /**
   * The causes that several findings share, each with these findings.
   * @param {Loud[]} louds
   */
  function sharedOf(louds) {
    /** @type {Map<number, Loud[]>} */
    const touching = new Map();
    louds.forEach((loud) => {
      loud.pulls.forEach((_, cause) => {
        if (!touching.has(cause)) touching.set(cause, []);
        presslore.known(touching, cause).push(loud);
      });
    });
    return new Map(Array.from(touching).filter((pair) => pair[1].length > 1));
  }

  /**
   * The steps of the sweep over the given loud findings, and its greatest width. `wanted`: the causes that are asked
   * for (none given: all); they come late, so that little has to be gone through twice.
   * @type {Sweep['plan']}
   */
  function plan(given, louds, wanted) {
    const shared = sharedOf(louds);
    const asked = (/** @type {number} */ cause) => !wanted || wanted.indexOf(cause) >= 0;
    /** @type {SweepStep[]} */
    const steps = [];
    /** @type {Loud[]} */
    const opened = []; // the findings in the state, by bit position
    let width = 0;
    order(louds, shared).forEach((turn) => {
      const late = wanted ? turn.causes.filter(asked) : [];
      const causes = wanted ? turn.causes.filter((cause) => !asked(cause)).concat(late) : turn.causes;
      causes.forEach((cause) => {
        enter(given, presslore.known(shared, cause), shared, opened, steps);
        steps.push({ ...passing(given, cause, presslore.known(shared, cause), opened), wanted: asked(cause) });
      });
      enter(given, [turn.closing], shared, opened, steps);
      width = Math.max(width, opened.length);
      const position = opened.indexOf(turn.closing);
      steps.push({ kind: 'close', position });
      opened.splice(position, 1);
    });
    return { steps, width };
  }

  /**
   * Findings in the order they are closed, each with the shared causes to pass before; greedy on the width.
   * @param {Loud[]} louds @param {Map<number, Loud[]>} shared
   */
  function order(louds, shared) {
    const partners = new Map(louds.map((loud) => [loud, new Set([loud])]));
    shared.forEach((touched) => {
      touched.forEach((loud) => {
        touched.forEach((other) => {
          presslore.known(partners, loud).add(other);
        });
      });
    });
    const left = louds.slice();
    /** @type {Set<number>} */
    const passed = new Set();
    /** @type {Set<Loud>} */
    const opened = new Set();
    /** @type {{ closing: Loud, causes: number[] }[]} */
    const result = [];
    const next = () =>
      presslore.numbers.least(left, (loud) => {
        let fresh = 0;
        presslore.known(partners, loud).forEach((other) => {
          if (!opened.has(other)) fresh++;
        });
        return [fresh, loud.id];
      });
    for (let chosen = next(); chosen; chosen = next()) {
      let causes = Array.from(chosen.pulls.keys()).filter((cause) => shared.has(cause) && !passed.has(cause));
      causes.forEach((cause) => {
        passed.add(cause);
      });
      presslore.known(partners, chosen).forEach((other) => {
        opened.add(other);
      });
      left.splice(left.indexOf(chosen), 1);
      causes = presslore.numbers.sorted(causes, (cause) => [presslore.known(shared, cause).length, cause]);
      result.push({ closing: chosen, causes });
    }
    return result;
  }

  /**
   * @param {Given} given
   * @param {Loud[]} louds
   * @param {Map<number, Loud[]>} shared
   * @param {Loud[]} opened
   * @param {SweepStep[]} steps
   */
  function enter(given, louds, shared, opened, steps) {
    louds.forEach((loud) => {
      if (opened.indexOf(loud) >= 0) return;
      opened.push(loud);
      const own = Array.from(loud.pulls.keys()).filter((cause) => !shared.has(cause));
      steps.push({ kind: 'open', fold: folding.fold(given, loud, own) });
    });
  }

  /**
   * A cause that several findings share. Of each mode its weight, its moves, and how surely it spares what lasts.
   * @param {Given} given @param {number} cause @param {Loud[]} louds @param {Loud[]} opened
   */
  function passing(given, cause, louds, opened) {
    const places = louds.map((loud) => ({ loud, position: opened.indexOf(loud) }));
    const modes = given.modes[cause].weights.map((weight, at) => {
      const all = places.map((place) => ({
        position: place.position,
        pull: presslore.known(place.loud.pulls, cause)[at],
        lasting: place.loud.lasting
      }));
      const moves = all.filter((move) => move.pull.b || move.pull.c !== 1);
      const spared = moves.reduce((left, move) => (move.lasting ? left * move.pull.c : left), 1);
      return { weight, spared, moves: moves.sort((one, other) => one.position - other.position) };
    });
    const lasting = louds.some((loud) => loud.lasting);
    return { kind: /** @type {const} */ ('pass'), cause, absent: given.absent[cause], modes, lasting };
  }

  /**
   * All posteriors, by the planned steps, or of the causes wanted only (the rest is then left as the quiet factors have
   * it, and `unknown` means nothing).
   * @type {Sweep['sweep']}
   */
  function sweep(given, steps, wanted) {
    const swept = new Swept(given);
    const first = wanted ? firstOf(steps, wanted) : 0;
    const before = forward(steps, swept, first);
    let v = weights.one();
    for (let i = steps.length - 1; i >= first; i--) {
      const step = steps[i];
      if (step.kind === 'open') v = backOverOpening(step.fold, given, before[i - first], v, swept);
      else if (step.kind === 'close') v = weights.closeBack(v, step.position);
      else v = backOverCause(step, before[i - first], v, swept);
    }
    return swept;
  }

  /**
   * The number of the first step at which a wanted cause is met.
   * @param {SweepStep[]} steps @param {number[]} wanted
   */
  function firstOf(steps, wanted) {
    const found = steps.findIndex(
      (step) =>
        (step.kind === 'pass' && step.wanted) ||
        (step.kind === 'open' && step.fold.causes.some((cause) => wanted.indexOf(cause) >= 0))
    );
    return found < 0 ? steps.length : found;
  }

  /**
   * The weights before each step from the first one on, scaled whenever a finding leaves; the scales go into the
   * evidence.
   * @param {SweepStep[]} steps @param {Swept} swept @param {number} first
   */
  function forward(steps, swept, first) {
    let f = weights.one();
    /** @type {Float64Array[]} */
    const kept = [];
    steps.forEach((step, number) => {
      const before = f;
      if (number >= first) kept.push(before);
      if (step.kind === 'open') {
        f = weights.open(f, step.fold.leak);
      } else if (step.kind === 'close') {
        f = weights.close(f, step.position);
        const scale = weights.total(f);
        swept.logEvidence += logOf(scale);
        f = weights.scaled(f, 1 / (scale || 1));
      } else {
        f = weights.scaled(before, step.absent);
        step.modes.forEach((mode) => {
          weights.add(f, weights.forth(before, mode.moves), mode.weight);
        });
      }
    });
    return kept;
  }

  /**
   * @param {Fold} folded
   * @param {Given} given
   * @param {Float64Array} f
   * @param {Float64Array} v
   * @param {Swept} swept
   */
  function backOverOpening(folded, given, f, v, swept) {
    const unexplained = v.subarray(0, v.length / 2);
    const explained = v.subarray(v.length / 2);
    folding.unfold(folded, given, weights.dot(f, unexplained), weights.dot(f, explained), swept);
    const { b, c } = folded.leak;
    const scale = 1 / (c * weights.total(unexplained) + b * weights.total(explained) || 1);
    const mixed = weights.scaled(unexplained, scale * c);
    weights.add(mixed, explained, scale * b);
    return mixed;
  }

  /** @param {Passing} step @param {Float64Array} f @param {Float64Array} v @param {Swept} swept */
  function backOverCause(step, f, v, swept) {
    const mixed = weights.scaled(v, step.absent);
    if (!step.wanted) {
      step.modes.forEach((mode) => weights.add(mixed, weights.back(v, mode.moves), mode.weight));
      return mixed;
    }
    const without = weights.dot(f, v);
    let behind = 0;
    const shares = step.modes.map((mode, at) => {
      const moved = weights.back(v, mode.moves);
      weights.add(mixed, moved, mode.weight);
      const share = mode.weight * weights.dot(f, moved);
      if (at === 0 && step.lasting) behind = Math.max(0, share - mode.weight * idle(mode, f, v, without));
      return share;
    });
    swept.put(step.cause, step.absent * without, shares, behind);
    return mixed;
  }

  /**
   * The weight of a cause that is there but leaves every lasting defect alone, explained before or not.
   * @param {PassedMode} mode @param {Float64Array} f @param {Float64Array} v @param {number} without
   */
  function idle(mode, f, v, without) {
    const busy = mode.moves.filter((move) => !move.lasting);
    return mode.spared * (busy.length ? weights.dot(f, weights.back(v, busy)) : without);
  }

  presslore.sweep = { A_FOLD, effort, crowded, plan, sweep };
})();
