// What is certain: ids typed as such, told or denied.
var presslore = presslore || {};

(function () {
  'use strict';

  const { REACH } = presslore.shared.exact;
  const words = presslore.words;

  /**
   * The ids that stand in a text as such: {told, denied, words: the numbers of all their words}. One without a hyphen is a
   * word like any other beside others.
   * @type {Words['typedIds']}
   */
  function typedIds(known, text, typed, units) {
    const pieces = text
      .toLowerCase()
      .split(/\s+/)
      .map((piece) => piece.replace(/^[.,;:!?()"']+|[.,;:!?()"']+$/g, ''));
    /** @type {Ids} */
    const result = { told: [], denied: [], words: new Set() };
    const ids = pieces.filter((piece) => known.has(piece) && (piece.includes('-') || pieces.length === 1));
    new Set(ids).forEach((id) => {
      const places = placesOf(typed, words.cut(id));
      const deniers = places.map((place) => denierOf(typed, units, place));
      const denied = places.length > 0 && deniers.every((denier) => denier >= 0);
      (denied ? result.denied : result.told).push(id);
      places.forEach((place) => addSpan(result.words, place));
      units.forEach((unit) => {
        if (deniers.some((denier) => isIn(unit, denier))) addSpan(result.words, unit.words);
      });
    });
    return result;
  }

  /** @param {TypedWord[]} typed @param {string[]} parts */
  function placesOf(typed, parts) {
    const places = typed.map((_, place) => /** @type {Span} */ ([place, place + parts.length]));
    return places.filter((place) => parts.every((part, i) => typed[place[0] + i] && typed[place[0] + i].text === part));
  }

  /**
   * The number of the "no" shortly before an id, or of the "not" after it that has nothing else to deny ("ghosting is
   * not there"); -1 where there is none.
   * @param {TypedWord[]} typed @param {Unit[]} units @param {Span} place
   */
  function denierOf(typed, units, place) {
    const clause = typed[place[0]].clause;
    for (let number = place[0] - 1; number >= 0 && number > place[0] - 2 - REACH; number--) {
      if (typed[number].clause !== clause || words.CONTRAST.has(typed[number].text)) break;
      if (words.NEGATORS.has(typed[number].text)) return number;
    }
    const no = typed.findIndex((word, n) => n >= place[1] && word.clause === clause && words.NEGATORS.has(word.text));
    const after = units.filter((unit) => unit.clause === clause && unit.words[0] >= place[1]);
    return after.every((unit) => isIn(unit, no)) ? no : -1;
  }

  /**
   * Whether the word of this number is part of a unit.
   * @param {Unit} unit @param {number} number
   */
  function isIn(unit, number) {
    return unit.words[0] <= number && number < unit.words[1];
  }

  /**
   * Adds the numbers from first up to (without) last to a set.
   * @type {Words['addSpan']}
   */
  function addSpan(set, [first, last]) {
    for (let number = first; number < last; number++) set.add(number);
  }

  Object.assign(words, { typedIds, addSpan });
})();
