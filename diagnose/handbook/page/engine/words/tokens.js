// A text as the listener reads it: word by word, each with the features that the table knows it by.
var presslore = presslore || {};

(function () {
  'use strict';

  const { A_FIGURE, AFTER_ALL } = presslore.shared.tokens;
  const ARTICLES = new Set(presslore.shared.tokens.ARTICLES);
  const words = presslore.words;

  /**
   * The tokens {key, groups, features, clause, word} of a text: every word but articles and their like. `units`: the same
   * words as the reader has them.
   * @type {Words['tokens']}
   */
  function tokens(typed, units, speller) {
    /** @type {Map<number, string[]>} */
    const groups = new Map();
    /** @type {Map<number, string>} */
    const mended = new Map();
    units.forEach((unit) => {
      const [first, last] = unit.words;
      const plain = unit.features.map((feature) => bare(feature[0]));
      groups.set(first, (groups.get(first) || []).concat(plain.filter(isShared)));
      if (last !== first + 1 || isFigure(typed[first].text) || speller.knows(typed[first].text)) return;
      const stem = plain.find((feature) => !isShared(feature));
      if (stem !== undefined) mended.set(first, stem);
    });
    const again = saidAgain(typed);
    const idle = afterAll(typed);
    /** @type {TextToken[]} */
    const result = [];
    typed.forEach((word, place) => {
      const own = groups.get(place) || [];
      if ((!own.length && ARTICLES.has(word.text)) || again.has(word.clause) || idle.has(place)) return;
      const key = mended.get(place) || keyOfWord(word.text);
      const features = key === A_FIGURE ? own : [key, ...own];
      result.push({ key, features, clause: word.clause, word: place, mended: mended.has(place) });
    });
    return result;
  }

  /**
   * The places of an "after all" that ends its clause.
   * @param {TypedWord[]} typed
   */
  function afterAll(typed) {
    /** @type {Set<number>} */
    const idle = new Set();
    typed.forEach((word, place) => {
      const next = typed[place + 1];
      const then = typed[place + 2];
      if (!next || word.text !== AFTER_ALL[0] || next.text !== AFTER_ALL[1] || next.clause !== word.clause) return;
      if (!then || then.clause !== word.clause) idle.add(place).add(place + 1);
    });
    return idle;
  }

  /**
   * The clauses that say word for word what an earlier one has said.
   * @param {TypedWord[]} typed
   */
  function saidAgain(typed) {
    /** @type {Map<number, string>} */
    const said = new Map();
    typed.forEach((word) => said.set(word.clause, `${said.get(word.clause) || ''} ${word.text}`));
    /** @type {Map<string, number>} */
    const first = new Map();
    /** @type {Set<number>} */
    const again = new Set();
    said.forEach((text, clause) => {
      if (first.has(text)) again.add(clause);
      else first.set(text, clause);
    });
    return again;
  }

  /** @param {string} feature */
  function bare(feature) {
    while (feature.startsWith(words.NOT)) feature = feature.slice(words.NOT.length);
    return feature;
  }

  /**
   * Whether a feature is a group of words that mean the same, or a set phrase.
   * @param {string} feature
   */
  function isShared(feature) {
    return feature.startsWith(words.GROUP) || feature.includes(' ');
  }

  /** @param {string} word */
  function isFigure(word) {
    return /^[0-9]/.test(word);
  }

  /**
   * What a word is known by in the table.
   * @param {string} word
   */
  function keyOfWord(word) {
    return isFigure(word) ? A_FIGURE : words.key(word);
  }

  /**
   * The feature of two tokens side by side; '' where a clause ends between them.
   * @type {Words['pair']}
   */
  function pair(one, other) {
    return one.clause === other.clause ? `${one.key} ${other.key}` : '';
  }

  Object.assign(words, { tokens, pair });
})();
