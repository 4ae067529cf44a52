// Numbers and texts put in order, rounded and written just as the command line does.
var presslore = presslore || {};

(function () {
  'use strict';

  /**
   * The sum from the first to the last, so that rounding falls the same everywhere.
   * @type {Numbers['sum']}
   */
  function sum(values) {
    let result = 0;
    for (let i = 0; i < values.length; i++) result += values[i];
    return result;
  }

  /**
   * The lesser of two; the first where they cannot be compared.
   * @type {Numbers['lesser']}
   */
  function lesser(one, other) {
    return other < one ? other : one;
  }

  /**
   * The greater of two; the first where they cannot be compared.
   * @type {Numbers['greater']}
   */
  function greater(one, other) {
    return other > one ? other : one;
  }

  /**
   * Below zero where the first text stands before the second by its characters' code points.
   * @type {Numbers['byText']}
   */
  function byText(one, other) {
    const length = Math.min(one.length, other.length);
    for (let i = 0; i < length; i++) {
      const a = one.charCodeAt(i);
      const b = other.charCodeAt(i);
      if (a !== b) return place(a) - place(b);
    }
    return one.length - other.length;
  }

  /**
   * Halves of a character beyond the basic plane stand after all of that plane.
   * @param {number} unit
   */
  function place(unit) {
    return unit >= 0xd800 && unit <= 0xdfff ? unit + 0x10000 : unit;
  }

  /**
   * Compares lists by their first parts that differ: numbers upwards, texts by code points.
   * @param {Key} one @param {Key} other
   */
  function byParts(one, other) {
    const length = Math.min(one.length, other.length);
    for (let i = 0; i < length; i++) {
      const a = one[i];
      const b = other[i];
      const difference = typeof a === 'string' && typeof b === 'string' ? byText(a, b) : compared(a, b);
      if (difference) return difference;
    }
    return one.length - other.length;
  }

  /** @param {string | number} one @param {string | number} other */
  function compared(one, other) {
    return one < other ? -1 : one > other ? 1 : 0;
  }

  /**
   * A sorted copy: by the list that `key` makes of each, equal ones as they stood.
   * @type {Numbers['sorted']}
   */
  function sorted(values, key) {
    return values
      .map((value) => ({ key: key(value), value }))
      .sort((one, other) => byParts(one.key, other.key))
      .map((pair) => pair.value);
  }

  /**
   * The first value whose key is least; undefined where there is none.
   * @type {Numbers['least']}
   */
  function least(values, key) {
    let best;
    /** @type {Key | undefined} */
    let bestKey;
    values.forEach((value) => {
      const own = key(value);
      if (!bestKey || byParts(own, bestKey) < 0) {
        best = value;
        bestKey = own;
      }
    });
    return best;
  }

  /**
   * A number with so many decimals; what lies just half-way goes to the even digit.
   * @type {Numbers['fixed']}
   */
  function fixed(value, decimals) {
    if (belowNought(value)) return `-${fixed(-value, decimals)}`;
    const text = value.toFixed(decimals);
    const halves = value * Math.pow(2, decimals + 1);
    if (halves % 2 !== 1) return text; // half-way is only an odd number of these
    return /[13579]$/.test(text) ? stepBack(text) : text;
  }

  /** @param {number} value */
  function belowNought(value) {
    return value < 0 || Object.is(value, -0);
  }

  /**
   * The number in a text one unit of its last digit nearer to nought; that digit is odd.
   * @param {string} text
   */
  function stepBack(text) {
    return text.slice(0, -1) + (Number(text.slice(-1)) - 1);
  }

  /**
   * A number rounded to so many decimals, half-way to the even digit.
   * @type {Numbers['rounded']}
   */
  function rounded(value, decimals) {
    return Number.isFinite(value) && Math.abs(value) < 1e21 ? Number(fixed(value, decimals)) : value;
  }

  const DIGITS = 6;

  /**
   * A number in at most six digits, without noughts at its end.
   * @type {Numbers['general']}
   */
  function general(value) {
    if (belowNought(value)) return `-${general(-value)}`;
    if (value === Infinity) return 'inf';
    const parts = value.toExponential(DIGITS - 1).split('e');
    const exact = value.toExponential(100).split('e')[0];
    const halfway = /^50*$/.test(exact.slice(exact.indexOf('.') + DIGITS));
    const digits = halfway && /[13579]$/.test(parts[0]) ? stepBack(parts[0]) : parts[0];
    const exponent = Number(parts[1]);
    if (exponent >= -4 && exponent < DIGITS) {
      return trimmed(Number(`${digits}e${exponent}`).toFixed(DIGITS - 1 - exponent));
    }
    const size = String(Math.abs(exponent));
    return `${trimmed(digits)}e${exponent < 0 ? '-' : '+'}${size.length < 2 ? `0${size}` : size}`;
  }

  /** @param {string} text */
  function trimmed(text) {
    return text.indexOf('.') < 0 ? text : text.replace(/\.?0+$/, '');
  }

  /**
   * What stands in a map under a key that must be there. Throws where it is not.
   * @type {Engine['known']}
   */
  function known(map, key) {
    const found = map.get(key);
    if (found === undefined) throw new RangeError(`not known: ${key}`);
    return found;
  }

  presslore.known = known;
  presslore.numbers = {
    sum,
    lesser,
    greater,
    byText,
    sorted,
    least,
    fixed,
    rounded,
    general
  };
})();
