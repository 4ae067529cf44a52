// Weights over the sets of findings already explained, as typed arrays of length 2 ** open findings.
var presslore = presslore || {};

(function () {
  'use strict';

  /** No finding open: the one set, the empty one, has all the weight. */
  function one() {
    return Float64Array.of(1);
  }

  /**
   * A finding enters at the highest bit: explained by the leak, or not.
   * @type {Weights['open']}
   */
  function open(f, leak) {
    const size = f.length;
    const result = new Float64Array(2 * size);
    for (let i = 0; i < size; i++) {
      result[i] = f[i] * leak.c;
      result[size + i] = f[i] * leak.b;
    }
    return result;
  }

  /**
   * A finding leaves: what has not explained it is impossible.
   * @type {Weights['close']}
   */
  function close(f, position) {
    const step = 1 << position;
    const result = new Float64Array(f.length / 2);
    for (let from = step, to = 0; from < f.length; from += 2 * step, to += step) {
      result.set(f.subarray(from, from + step), to);
    }
    return result;
  }

  /**
   * The adjoint of `close`.
   * @type {Weights['closeBack']}
   */
  function closeBack(v, position) {
    const step = 1 << position;
    const result = new Float64Array(2 * v.length);
    for (let from = 0, to = step; from < v.length; from += step, to += 2 * step) {
      result.set(v.subarray(from, from + step), to);
    }
    return result;
  }

  /**
   * A present cause explains each finding with chance b, on top of those explained before.
   * @type {Weights['forth']}
   */
  function forth(f, moves) {
    const result = f.slice();
    for (let m = 0; m < moves.length; m++) {
      const step = 1 << moves[m].position;
      const b = moves[m].pull.b;
      const c = moves[m].pull.c;
      const a = b + c;
      for (let base = 0; base < result.length; base += 2 * step) {
        for (let i = base; i < base + step; i++) {
          const low = result[i];
          result[i + step] = a * result[i + step] + b * low;
          result[i] = c * low;
        }
      }
    }
    return result;
  }

  /**
   * The adjoint of `forth`.
   * @type {Weights['back']}
   */
  function back(v, moves) {
    const result = v.slice();
    for (let m = 0; m < moves.length; m++) {
      const step = 1 << moves[m].position;
      const b = moves[m].pull.b;
      const c = moves[m].pull.c;
      const a = b + c;
      for (let base = 0; base < result.length; base += 2 * step) {
        for (let i = base; i < base + step; i++) {
          const high = result[i + step];
          result[i] = c * result[i] + b * high;
          result[i + step] = a * high;
        }
      }
    }
    return result;
  }

  /**
   * f times a number.
   * @type {Weights['scaled']}
   */
  function scaled(f, by) {
    const result = new Float64Array(f.length);
    for (let i = 0; i < f.length; i++) result[i] = by * f[i];
    return result;
  }

  /**
   * Adds f times a number to the first.
   * @type {Weights['add']}
   */
  function add(result, f, by) {
    for (let i = 0; i < f.length; i++) result[i] += by * f[i];
  }

  /** @type {Weights['dot']} */
  function dot(f, v) {
    let result = 0;
    for (let i = 0; i < f.length; i++) result += f[i] * v[i];
    return result;
  }

  /** @type {Weights['total']} */
  function total(f) {
    let result = 0;
    for (let i = 0; i < f.length; i++) result += f[i];
    return result;
  }

  presslore.weights = {
    one,
    open,
    close,
    closeBack,
    forth,
    back,
    scaled,
    add,
    dot,
    total
  };
})();
