// What a person's own words say: defects seen and not seen, the item, outcomes of checks, and what is left.
var presslore = presslore || {};

(function () {
  'use strict';

  const CERTAIN = 100; // the score of an id that was typed as such
  const LEAST_REST = 3; // what must speak for a defect beside words that tell something else
  const LEAST_ALONE = 4; // what those words must come to by themselves, where that is not so
  const LEAST_CLOSE = 0.12; // how nearly a run must be one of the names of a defect
  const A_NAME = 0.7; // how nearly it is taken for one even where its words also tell an outcome
  const MOST_LEFT = 8;
  const words = presslore.words;
  const numbers = presslore.numbers;

  /** Everything the words say: {item, defects, notSeen, outcomes, notUnderstood}. */
  function understand(lexicon, text) {
    const typed = words.clauses(text);
    const seen = new words.Evidence(lexicon.defects, lexicon.reader.typed(typed, lexicon.speller));
    const item = words.itemAmong(lexicon, text);
    const told = notOfDefects(words.outcomesAmong(lexicon, seen.units), seen);
    const denied = words.denials(lexicon.defects, seen.units);
    const elsewhere = new Set();
    told.forEach((each) => each.words.forEach((word) => elsewhere.add(word)));
    if (item) words.addSpan(elsewhere, item.words);
    const parts = partsOf(seen, denied, elsewhere);
    const defects = withIds(
      idsIn(lexicon, text),
      parts.map((part) => match(seen, part, typed))
    );
    const named = new Set(defects.map((one) => one.id));
    const names = new Set(denied.map((each) => lexicon.defects.owners[each.owner]));
    return {
      item,
      defects,
      notSeen: Array.from(names).filter((name) => !named.has(name)),
      outcomes: told.map((each) => ({ check: each.check, outcome: each.outcome, score: each.score })),
      notUnderstood: left(typed, seen, parts, elsewhere)
    };
  }

  /** Every defect that anything in the text speaks for, the best first, ties by id. */
  function rankDefects(lexicon, text) {
    const typed = words.clauses(text);
    const seen = new words.Evidence(lexicon.defects, lexicon.reader.typed(typed, lexicon.speller));
    const matches = Array.from(seen.scores(), (pair) =>
      match(seen, { first: 0, last: seen.units.length, owner: pair[0], score: pair[1] }, typed)
    );
    return withIds(
      idsIn(lexicon, text),
      numbers.sorted(matches, (one) => [-one.score, one.id])
    );
  }

  /** The parts that speak of a defect, not merely of the item or the outcome of a check, nor by denial alone. */
  function partsOf(seen, denied, elsewhere) {
    const without = new Set(denied.map((denial) => denial.owner));
    const denying = new Set();
    denied.forEach((denial) => denial.units.forEach((number) => denying.add(number)));
    const kept = new Map();
    words.divide(seen, without).forEach((part) => {
      ownPart(seen, part, elsewhere, without).forEach((own) => {
        const spoken = seen.because(own.owner, own.first, own.last);
        const close = seen.closeness(own.owner, own.first, own.last) >= LEAST_CLOSE;
        const denies = spoken.every((number) => denying.has(number));
        if (close && !denies && !kept.has(own.owner)) kept.set(own.owner, own);
      });
    });
    return numbers.sorted(Array.from(kept.values()), (part) => [-part.score, part.first]);
  }

  /** The part as it is, or what is left of it without the words that tell something else. */
  function ownPart(seen, part, elsewhere, without) {
    const rest = [];
    for (let number = part.first; number < part.last; number++) {
      if (!spanOf(seen.units[number]).every((word) => elsewhere.has(word))) rest.push(number);
    }
    const gains = rest.map((number) => seen.gains[number].get(part.owner) || 0);
    if (numbers.sum(gains) >= LEAST_REST) return [part];
    const alone = new words.Evidence(
      seen.index,
      rest.map((number) => seen.units[number])
    );
    const best = words.bestPart(alone, 0, rest.length, without);
    if (!best || best.score < LEAST_ALONE) return [];
    return [{ first: part.first, last: part.last, owner: best.owner, score: best.score }];
  }

  function spanOf(unit) {
    const span = new Set();
    words.addSpan(span, unit.words);
    return Array.from(span);
  }

  /** The outcomes told by words that are not at the same time a name of a defect. */
  function notOfDefects(told, seen) {
    return told.filter((each) => {
      const found = [];
      seen.units.forEach((unit, number) => {
        if (spanOf(unit).some((word) => each.words.has(word))) found.push(number);
      });
      const part = found.length ? words.bestPart(seen, found[0], found[found.length - 1] + 1) : null;
      return !part || seen.closeness(part.owner, part.first, part.last) < A_NAME;
    });
  }

  /** A defect, how strongly the words speak for it, and the words that do. */
  function match(seen, part, typed) {
    const spoken = seen.because(part.owner, part.first, part.last);
    return {
      id: seen.index.owners[part.owner],
      score: numbers.rounded(part.score, 6),
      because: spoken.map((number) => wordsOf(typed, seen.units[number]))
    };
  }

  function wordsOf(typed, unit) {
    return typed
      .slice(unit.words[0], unit.words[1])
      .map((word) => word.text)
      .join(' ');
  }

  /** The ids of defects that stand in the text as such. */
  function idsIn(lexicon, text) {
    const pieces = text
      .toLowerCase()
      .split(/\s+/)
      .map((piece) => piece.replace(/^[.,;:!?()"']+|[.,;:!?()"']+$/g, ''));
    return Array.from(new Set(pieces.filter((piece) => lexicon.knowledge.defects.has(piece))));
  }

  /** The matches with the ids that were typed put first. */
  function withIds(typed, matches) {
    const certain = typed.map((id) => ({ id, score: CERTAIN, because: [id] }));
    return certain.concat(matches.filter((one) => typed.indexOf(one.id) < 0));
  }

  /** Runs of words, within a clause, of which every unit led to nothing. */
  function left(typed, seen, parts, elsewhere) {
    const used = new Set();
    parts.forEach((part) => {
      seen.because(part.owner, part.first, part.last).forEach((number) => used.add(number));
    });
    const result = [];
    let last = null;
    seen.units.forEach((unit, number) => {
      if (unit.denied || used.has(number) || spanOf(unit).some((word) => elsewhere.has(word))) {
        last = null;
        return;
      }
      const said = wordsOf(typed, unit);
      if (last && last.clause === unit.clause) result[result.length - 1] += ` ${said}`;
      else result.push(said);
      last = unit;
    });
    return result.slice(0, MOST_LEFT);
  }

  /**
   * What some words were taken for: {defects, notSeen, answers: [check, outcome], item, facts, notUnderstood}. An id of
   * a defect is taken as it stands.
   */
  function hear(lexicon, text) {
    const id = text.trim();
    if (lexicon.knowledge.defects.has(id)) {
      return { defects: [id], notSeen: [], answers: [], item: '', facts: [], notUnderstood: [] };
    }
    const understood = understand(lexicon, text);
    const item = understood.item;
    return {
      defects: understood.defects.map((one) => one.id),
      notSeen: understood.notSeen,
      answers: understood.outcomes.map((one) => [one.check, one.outcome]),
      item: item ? item.id : '',
      facts: item ? numbers.sorted(Array.from(item.facts), (pair) => [pair[0]]) : [],
      notUnderstood: understood.notUnderstood
    };
  }

  Object.assign(words, { understand, rankDefects, hear });
})();
