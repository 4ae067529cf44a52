// Light stemming of English inflections: blurred, blurring, blurry and blur share one stem.
var presslore = presslore || {};

(function () {
  'use strict';

  const { ENDINGS } = presslore.shared.stems;
  const IRREGULAR = new Map(Object.entries(presslore.shared.stems.IRREGULAR));
  /** @type {Map<string, string>} */
  const known = new Map();

  /**
   * The stem of a folded word. Short words and numbers are their own stems.
   * @type {Words['stem']}
   */
  function stem(word) {
    let found = known.get(word);
    if (found === undefined) {
      found = stemmed(IRREGULAR.get(word) || word);
      known.set(word, found);
    }
    return found;
  }

  /** @param {string} word */
  function stemmed(word) {
    if (word.length < 4 || !/^[a-z]+$/.test(word)) return word;
    return bare(withoutEnding(withoutPlural(word)));
  }

  /** @type {Words['withoutPlural']} */
  function withoutPlural(word) {
    if (word.endsWith('ies')) return `${word.slice(0, -3)}y`;
    if (/(sses|xes|ches|shes|zes)$/.test(word)) return word.slice(0, -2);
    return word.endsWith('s') && !/(ss|us|is)$/.test(word) ? word.slice(0, -1) : word;
  }

  /** @param {string} word */
  function withoutEnding(word) {
    for (const ending of ENDINGS) {
      const rest = word.slice(0, -ending.length);
      if (word.endsWith(ending) && rest.length >= 3 && /[aeiouy]/.test(rest)) {
        return word.endsWith('eed') ? word : rest;
      }
    }
    return word;
  }

  /**
   * The word without a final e, y or i, and with a doubled last letter written once.
   * @param {string} word
   */
  function bare(word) {
    while (word.length > 3 && /[eyi]$/.test(word)) word = word.slice(0, -1);
    return word.length > 3 && /([^aeiouy])\1$/.test(word) ? word.slice(0, -1) : word;
  }

  presslore.words = Object.assign(presslore.words || {}, { stem, withoutPlural });
})();
