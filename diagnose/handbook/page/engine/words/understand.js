// What a person's own words say: defects seen and not seen, the item, outcomes of checks, and what is left.
var presslore = presslore || {};

(function () {
  'use strict';

  const {
    CERTAIN,
    LEAST_REST,
    LEAST_ALONE,
    LEAST_TOLD,
    SURELY_TOLD,
    LEAST_NAME,
    LEAST_NEAR,
    LEAST_NEAR_NAME,
    NEAR,
    LEAST_BESIDE,
    LEAST_CLOSE,
    A_NAME,
    LEAST_SPOKEN,
    MOST_LEFT,
    THE_REST
  } = presslore.shared.understand;
  const words = presslore.words;
  const numbers = presslore.numbers;

  /**
   * Everything the words say: {item, defects, notSeen, outcomes, notUnderstood}. A text that is a name of a defect,
   * word for word, tells that defect and nothing else. At last of what was not understood it says where the text was too
   * long to be read to its end.
   * @type {Words['understand']}
   */
  function understand(lexicon, text) {
    const understood = understoodOf(lexicon, words.taken(text));
    if (words.isCut(text)) understood.notUnderstood.push(THE_REST);
    return understood;
  }

  /** @param {Lexicon} lexicon @param {string} text */
  function understoodOf(lexicon, text) {
    const { typed, ids, units } = read(lexicon, text);
    const item = words.itemAmong(lexicon, text);
    const whole = lexicon.whole(text);
    if (whole) {
      return { item, defects: [certain(whole, typed)], notSeen: [], outcomes: [], notUnderstood: [] };
    }
    const denied = words.denials(lexicon.defects, units);
    const seen = keptOf(lexicon, units, denied);
    const told = notOfDefects(words.outcomesAmong(lexicon, seen.units), seen);
    /** @type {Set<number>} */
    const elsewhere = new Set();
    told.forEach((each) => each.words.forEach((word) => elsewhere.add(word)));
    if (item) words.addSpan(elsewhere, ofItem(lexicon, item, typed));
    seen.units.forEach((unit, number) => {
      if (spanOf(unit).every((word) => elsewhere.has(word))) seen.idle.add(number);
    });
    const without = ownersOf(denied);
    const parts = partsOf(seen, without, elsewhere);
    const matches = parts.map((part) => match(seen, part, typed));
    const defects = withIds(
      ids.told,
      matches.filter((one) => ids.denied.indexOf(one.id) < 0)
    );
    const named = new Set(defects.map((one) => one.id));
    const owners = Array.from(without).sort((one, other) => one - other);
    const names = new Set([...ids.denied, ...owners.map((owner) => lexicon.defects.owners[owner])]);
    const understood = defects.length || names.size || told.length || item;
    return {
      item,
      defects,
      notSeen: Array.from(names).filter((name) => !named.has(name)),
      outcomes: told.map((each) => ({ check: each.check, outcome: each.outcome, score: each.score })),
      notUnderstood: understood ? left(typed, seen, parts, elsewhere) : all(typed)
    };
  }

  /**
   * Every defect that anything in the text speaks for, the best first, ties by id; without what is denied.
   * @type {Words['rankDefects']}
   */
  function rankDefects(lexicon, text) {
    text = words.taken(text);
    const { typed, ids, units } = read(lexicon, text);
    const denied = words.denials(lexicon.defects, units);
    const seen = keptOf(lexicon, units, denied);
    const without = new Set(ids.denied);
    ownersOf(denied).forEach((owner) => without.add(lexicon.defects.owners[owner]));
    const matches = Array.from(seen.scores(), (pair) =>
      match(seen, { first: 0, last: seen.units.length, owner: pair[0], score: pair[1] }, typed)
    ).filter((one) => !without.has(one.id));
    const ranked = numbers.sorted(matches, (one) => [-one.score, one.id]);
    const whole = lexicon.whole(text);
    if (whole) return [certain(whole, typed)].concat(ranked.filter((one) => one.id !== whole));
    return withIds(ids.told, ranked);
  }

  /**
   * The words of a text, the ids among them, and the units of all else.
   * @param {Lexicon} lexicon @param {string} text
   */
  function read(lexicon, text) {
    const typed = words.clauses(text);
    const units = lexicon.reader.typed(typed, lexicon.speller);
    const ids = words.typedIds(lexicon.knowledge.defects, text, typed, units);
    return { typed, ids, units: units.filter((unit) => !spanOf(unit).some((word) => ids.words.has(word))) };
  }

  /**
   * What the units say without those that only deny something.
   * @param {Lexicon} lexicon @param {Unit[]} units @param {Denial[]} denied
   */
  function keptOf(lexicon, units, denied) {
    /** @type {Set<number>} */
    const only = new Set();
    denied.forEach((each) => each.units.forEach((number) => only.add(number)));
    return new words.Evidence(
      lexicon.defects,
      units.filter((_, number) => !only.has(number))
    );
  }

  /**
   * What is denied, as far as it is known.
   * @param {Denial[]} denied
   */
  function ownersOf(denied) {
    return new Set(denied.map((each) => each.owner).filter((owner) => owner !== null));
  }

  /** @param {string} id @param {TypedWord[]} typed */
  function certain(id, typed) {
    return { id, score: CERTAIN, because: all(typed) };
  }

  /** @param {TypedWord[]} typed */
  function all(typed) {
    return typed.length ? [typed.map((word) => word.text).join(' ')] : [];
  }

  /**
   * Where the item is named, with the words beside it that say what it is made of; without a word before it that is a
   * fault by itself ("pale mug").
   * @param {Lexicon} lexicon @param {FoundItem} item @param {TypedWord[]} typed
   */
  function ofItem(lexicon, item, typed) {
    let [first, last] = item.words;
    while (first < last - 1 && lexicon.whole(typed[first].text)) first++;
    while (first > 0 && isOfShares(typed[first - 1])) first--;
    while (last < typed.length && isOfShares(typed[last])) last++;
    return /** @type {Span} */ ([first, last]);
  }

  /** @param {TypedWord} word */
  function isOfShares(word) {
    return /^[0-9]+$/.test(word.text) || words.OF_SHARES.has(words.stem(word.text));
  }

  /**
   * The parts that speak of a defect, not merely of the item or the outcome of a check. Idle talk speaks of everything
   * a little: where no part tells enough, only those stay that are names as such.
   * @param {Heard} seen @param {Set<number>} without @param {Set<number>} elsewhere
   */
  function partsOf(seen, without, elsewhere) {
    /** @type {Map<number, Part>} */
    const kept = new Map();
    words.divide(seen, without).forEach((part) => {
      ownPart(seen, part, elsewhere, without).forEach((own) => {
        const close = seen.closeness(own.owner, own.first, own.last) >= LEAST_CLOSE;
        if (close && !kept.has(own.owner)) kept.set(own.owner, own);
      });
    });
    const parts = Array.from(kept.values());
    const told = parts.some((part) => tells(seen, part));
    return numbers.sorted(
      parts.filter((part) => isName(seen, part) || (told && part.score >= LEAST_BESIDE)),
      (part) => [-part.score, part.first]
    );
  }

  /** @param {Heard} seen @param {Part} part */
  function tells(seen, part) {
    if (part.score >= SURELY_TOLD || isName(seen, part)) return true;
    const best = seen.valueOfBest(part.owner, part.first, part.last);
    if (part.score >= LEAST_TOLD && best >= LEAST_NAME) return true;
    const near = seen.closeness(part.owner, part.first, part.last);
    return part.score >= LEAST_NEAR && best >= LEAST_NEAR_NAME && near >= NEAR;
  }

  /** @param {Heard} seen @param {Part} part */
  function isName(seen, part) {
    return seen.isName(part.owner, part.first, part.last);
  }

  /**
   * The part as it is, or what is left of it without the words that tell something else.
   * @param {Heard} seen @param {Part} part @param {Set<number>} elsewhere @param {Set<number>} without
   */
  function ownPart(seen, part, elsewhere, without) {
    /** @type {number[]} */
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

  /** @param {Unit} unit */
  function spanOf(unit) {
    /** @type {Set<number>} */
    const span = new Set();
    words.addSpan(span, unit.words);
    return Array.from(span);
  }

  /**
   * The outcomes told by words that are not at the same time a name of a defect.
   * @param {(ToldOutcome & { words: Set<number> })[]} told @param {Heard} seen
   */
  function notOfDefects(told, seen) {
    return told.filter((each) => {
      /** @type {number[]} */
      const found = [];
      seen.units.forEach((unit, number) => {
        if (spanOf(unit).some((word) => each.words.has(word))) found.push(number);
      });
      const part = found.length ? words.bestPart(seen, found[0], found[found.length - 1] + 1) : null;
      return !part || seen.closeness(part.owner, part.first, part.last) < A_NAME;
    });
  }

  /**
   * A defect, how strongly the words speak for it, and the words that do.
   * @param {Heard} seen @param {Part} part @param {TypedWord[]} typed
   */
  function match(seen, part, typed) {
    const spoken = seen.because(part.owner, part.first, part.last);
    return {
      id: seen.index.owners[part.owner],
      score: numbers.rounded(part.score, 6),
      because: spoken.map((number) => wordsOf(typed, seen.units[number]))
    };
  }

  /** @param {TypedWord[]} typed @param {Unit} unit */
  function wordsOf(typed, unit) {
    return typed
      .slice(unit.words[0], unit.words[1])
      .map((word) => word.text)
      .join(' ');
  }

  /**
   * The matches with the ids that were typed put first.
   * @param {string[]} typed @param {Match[]} matches
   */
  function withIds(typed, matches) {
    const certain = typed.map((id) => ({ id, score: CERTAIN, because: [id] }));
    return certain.concat(matches.filter((one) => typed.indexOf(one.id) < 0));
  }

  /**
   * Runs of words, within a clause, of which every unit led to nothing.
   * @param {TypedWord[]} typed @param {Heard} seen @param {Part[]} parts @param {Set<number>} elsewhere
   */
  function left(typed, seen, parts, elsewhere) {
    /** @type {Set<number>} */
    const used = new Set();
    parts.forEach((part) => {
      seen.because(part.owner, part.first, part.last).forEach((number) => used.add(number));
      seen.gains.forEach((gains, number) => {
        if ((gains.get(part.owner) || 0) >= LEAST_SPOKEN) used.add(number);
      });
    });
    /** @type {string[]} */
    const result = [];
    /** @type {Unit[]} the last of the units that led to nothing, where the one before did so too */
    let last = [];
    seen.units.forEach((unit, number) => {
      if (used.has(number) || spanOf(unit).some((word) => elsewhere.has(word))) {
        last = [];
        return;
      }
      const said = wordsOf(typed, unit);
      if (last.some((one) => one.clause === unit.clause)) result[result.length - 1] += ` ${said}`;
      else result.push(said);
      last = [unit];
    });
    return result.slice(0, MOST_LEFT);
  }

  /**
   * What some words were taken for: {defects, notSeen, answers: [check, outcome], item, facts, refused, elsewhere,
   * notUnderstood}. An id of
   * a defect is taken as it stands.
   * @type {Words['hear']}
   */
  function hear(lexicon, text) {
    const id = text.trim();
    if (lexicon.knowledge.defects.has(id)) {
      return {
        defects: [id],
        notSeen: [],
        answers: [],
        item: '',
        facts: [],
        refused: '',
        elsewhere: '',
        notUnderstood: []
      };
    }
    const understood = understand(lexicon, text);
    const item = understood.item;
    return {
      defects: understood.defects.map((one) => one.id),
      notSeen: understood.notSeen,
      answers: understood.outcomes.map((one) => [one.check, one.outcome]),
      item: item ? item.id : '',
      facts: item ? numbers.sorted(Array.from(item.facts), (pair) => [pair[0]]) : [],
      refused: item ? item.refused : '',
      elsewhere: '',
      notUnderstood: understood.notUnderstood
    };
  }

  Object.assign(words, { understand, rankDefects, hear });
})();
