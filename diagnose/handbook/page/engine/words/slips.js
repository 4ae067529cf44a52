// Typing errors: letters left out, put in, replaced or swapped with a neighbour; words run together or split.
var presslore = presslore || {};

(function () {
  'use strict';

  const { SHORTEST, LONG } = presslore.shared.slips;
  const LETTERS = /^[a-z]+$/;
  const numbers = presslore.numbers;

  /**
   * How many slips are forgiven in a word of so many letters.
   * @type {Words['allowed']}
   */
  function allowed(length) {
    return length < 4 ? 0 : length < LONG ? 1 : 2;
  }

  /**
   * The number of slips between two lists of letters (optimal string alignment), or most + 1 if there are more.
   * @type {Words['distance']}
   */
  function distance(one, other, most) {
    if (Math.abs(one.length - other.length) > most) return most + 1;
    /** @param {Map<number, number>} costs @param {number} j */
    const at = (costs, j) => {
      const cost = costs.get(j);
      return cost === undefined ? most : cost;
    };
    /** @type {Map<number, number>} */
    let earlier = new Map();
    /** @type {Map<number, number>} */
    let before = new Map();
    /** @type {Map<number, number>} */
    let row = new Map();
    for (let j = 0; j <= Math.min(most, other.length); j++) row.set(j, j);
    for (let i = 1; i <= one.length; i++) {
      earlier = before;
      before = row;
      row = new Map(i <= most ? [[0, i]] : []);
      let fewest = i <= most ? i : most + 1;
      for (let j = Math.max(1, i - most); j <= Math.min(other.length, i + most); j++) {
        // further apart is too many slips
        let cost = at(before, j - 1) + (one[i - 1] === other[j - 1] ? 0 : 1);
        cost = Math.min(cost, at(before, j) + 1, at(row, j - 1) + 1);
        if (i > 1 && j > 1 && one[i - 1] === other[j - 2] && other[j - 1] === one[i - 2]) {
          cost = Math.min(cost, at(earlier, j - 2) + 1);
        }
        row.set(j, cost);
        fewest = Math.min(fewest, cost);
      }
      if (fewest > most) return most + 1;
    }
    const slips = row.get(other.length);
    return slips === undefined ? most + 1 : Math.min(slips, most + 1);
  }

  /**
   * The set of letters of a word as the bits of one number: a quick way to see that two words differ.
   * @param {string} word
   */
  function letters(word) {
    let bits = 0;
    for (let i = 0; i < word.length; i++) bits |= 1 << (word.charCodeAt(i) % 32);
    return bits;
  }

  /** @param {number} bits */
  function count(bits) {
    let result = 0;
    for (let rest = bits; rest; rest &= rest - 1) result++;
    return result;
  }

  /** @param {Set<string>} known the words that may be meant */
  class Speller {
    /** @param {Set<string>} known */
    constructor(known) {
      this.known = known;
      this.stems = new Set(Array.from(known, presslore.words.stem));
      /** @type {Map<number, { word: string, bits: number }[]>} */
      this.byLength = new Map();
      Array.from(known)
        .filter((word) => LETTERS.test(word))
        .sort(numbers.byText)
        .forEach((word) => {
          const alike = this.byLength.get(word.length);
          if (alike) alike.push({ word, bits: letters(word) });
          else this.byLength.set(word.length, [{ word, bits: letters(word) }]);
        });
    }

    /**
     * Whether a word, or another form of it, is known.
     * @param {string} word
     */
    knows(word) {
      return this.known.has(word) || this.stems.has(presslore.words.stem(word));
    }

    /**
     * The known words with the fewest slips from an unknown one, by name; those with the same first letter, if there are
     * any. None where all are too far.
     * @param {string} word
     */
    meant(word) {
      if (word.length < SHORTEST || !LETTERS.test(word)) return [];
      const bits = letters(word);
      let fewest = Infinity;
      /** @type {string[]} */
      let found = [];
      for (let length = word.length - 2; length < word.length + 3; length++) {
        const most = allowed(Math.max(length, word.length));
        (this.byLength.get(length) || []).forEach((known) => {
          if (count(bits ^ known.bits) > 2 * most) return;
          const slips = distance(word, known.word, most);
          if (slips > most || slips > fewest) return;
          if (slips < fewest) found = [];
          fewest = slips;
          found.push(known.word);
        });
      }
      const alike = found.filter((known) => known[0] === word[0]);
      return (alike.length ? alike : found).sort(numbers.byText);
    }

    /**
     * The two known words that were run together, the most even pair first tried; [] if there are none.
     * @param {string} word
     */
    split(word) {
      /** @type {number[]} */
      const places = [];
      for (let i = 2; i < word.length - 1; i++) places.push(i);
      const at = numbers
        .sorted(places, (i) => [Math.abs(2 * i - word.length), i])
        .find((i) => this.known.has(word.slice(0, i)) && this.known.has(word.slice(i)));
      return at === undefined ? [] : [word.slice(0, at), word.slice(at)];
    }
  }

  /**
   * The name most like a text, for "did you mean"; '' where none is near. Ties go to the first by name.
   * @type {Words['nearest']}
   */
  function nearest(names, text) {
    const wanted = Array.from(text.trim().toLowerCase());
    let fewest = allowed(Math.max(wanted.length, 4)) + 1;
    let best = '';
    names
      .slice()
      .sort(numbers.byText)
      .forEach((name) => {
        const slips = distance(wanted, Array.from(name.toLowerCase()), fewest - 1);
        if (slips < fewest) {
          fewest = slips;
          best = name;
        }
      });
    return best;
  }

  Object.assign(presslore.words, { Speller, nearest, allowed, distance });
})();
