// Outcomes of checks in a person's words: told unasked, or as the answer to one check.
var presslore = presslore || {};

(function () {
  'use strict';

  const { LEAST_UNITS, ENOUGH_UNITS, LEAST_SCORE, WORD_FOR_WORD, MOST } = presslore.shared.outcomes;
  const words = presslore.words;
  const numbers = presslore.numbers;

  /**
   * The outcomes told unasked, {check, outcome, score, words: Set}, the best first: whole names, word for word and in
   * a row, of three words at least, or with nothing beside them in their clause but words of the check's own.
   * @type {Words['outcomesAmong']}
   */
  function outcomesAmong(lexicon, units) {
    const index = lexicon.outcomes();
    const asked = units.filter((unit) => !unit.denied);
    /** @type {Map<string, ToldOutcome & { words: Set<number> }>} */
    const best = new Map();
    new words.Evidence(index, asked).found.forEach((parts, name) => {
      const score = index.totals[name];
      const row = score >= LEAST_SCORE ? inARow(parts, index.rows[name].length) : [];
      const ids = index.owners[index.owner[name]].split(' ');
      if (!row.length || !standsOut(asked, row, presslore.known(lexicon.knowledge.checks, ids[0]))) return;
      /** @type {ToldOutcome & { words: Set<number> }} */
      const told = { check: ids[0], outcome: ids[1], score: numbers.rounded(score, 6), words: new Set() };
      row.forEach((number) => words.addSpan(told.words, asked[number].words));
      const before = best.get(told.check);
      if (!before || better(told, before)) best.set(told.check, told);
    });
    return numbers.sorted(Array.from(best.values()), (told) => [-told.score, told.check]).slice(0, MOST);
  }

  /**
   * The units of the text that are the name from its first word to its last; none where it is not there.
   * @param {NamePart[]} parts @param {number} length
   */
  function inARow(parts, length) {
    const sure = parts.filter((part) => part[2] >= WORD_FOR_WORD);
    const exact = new Set(sure.map((part) => `${part[0]} ${part[1]}`));
    const row = (/** @type {number} */ start) => Array.from({ length }, (_, place) => start + place);
    const starts = sure.filter((part) => part[1] === 0).map((part) => part[0]);
    const start = starts
      .sort((one, other) => one - other)
      .find((from) => row(from).every((number, place) => exact.has(`${number} ${place}`)));
    return start === undefined ? [] : row(start);
  }

  /** @param {Unit[]} units @param {number[]} row @param {Check} check */
  function standsOut(units, row, check) {
    const clause = units[row[0]].clause;
    if (row.length < LEAST_UNITS || units[row[row.length - 1]].clause !== clause) return false;
    if (row.length >= ENOUGH_UNITS) return true;
    const own = new Set(words.cut(`${check.title} ${check.asks}`).map(words.stem));
    return units.every((unit, n) => unit.clause !== clause || row.indexOf(n) >= 0 || own.has(unit.features[0][0]));
  }

  /** @param {ToldOutcome} one @param {ToldOutcome} other */
  function better(one, other) {
    if (one.score !== other.score) return one.score > other.score;
    return numbers.byText(one.outcome, other.outcome) > 0;
  }

  /**
   * The outcome of one check that a reply speaks for, by its id; '' where it speaks for none, or for two alike.
   * @type {Words['answer']}
   */
  function answer(lexicon, checkId, text) {
    const check = presslore.known(lexicon.knowledge.checks, checkId);
    const index = lexicon.outcomes();
    text = words.taken(text);
    const plain = text.toLowerCase();
    const places = check.outcomes.map((outcome) => index.owners.indexOf(`${check.id} ${outcome.id}`));
    const literal = check.outcomes.find(
      (outcome, i) => plain === outcome.id || lexicon.said[places[i]].some((name) => name.toLowerCase() === plain)
    );
    if (literal) return literal.id;
    const scores = new words.Evidence(index, lexicon.units(text)).scores();
    const ranked = check.outcomes.map((outcome, i) => ({
      id: outcome.id,
      score: scores.get(places[i]) || 0
    }));
    ranked.sort((one, other) => other.score - one.score || numbers.byText(other.id, one.id));
    if (!ranked.length || ranked[0].score <= 0) return '';
    return ranked.length > 1 && ranked[0].score === ranked[1].score ? '' : ranked[0].id;
  }

  /**
   * Adds the numbers from first up to (without) last to a set.
   * @type {Words['addSpan']}
   */
  function addSpan(set, span) {
    for (let number = span[0]; number < span[1]; number++) set.add(number);
  }

  Object.assign(words, { outcomesAmong, answer, addSpan });
})();
