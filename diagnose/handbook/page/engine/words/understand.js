// What a person's own words say: defects seen and not seen, the item, outcomes of checks, and what is left.
var presslore = presslore || {};

(function () {
  'use strict';

  const {
    CERTAIN,
    LEAST_FIRST,
    FURTHER,
    SHARE_OF_FIRST,
    LEAST_ANSWER,
    APART,
    LEAST_CAUSE,
    A_CLAUSE,
    BESIDE_A_NAME,
    A_NAME,
    LONGER_NAME,
    SURELY,
    NEAR,
    MOST_NEAR,
    LEAST_TOKENS,
    LONGEST_ITEM,
    LONGEST,
    MOST_LEFT,
    LEAST_LEFT,
    THE_REST
  } = presslore.shared.understand;
  const OF_TALK = new Set(presslore.shared.understand.OF_TALK);
  const [CAUSE, ELSEWHERE] = ['cause ', 'elsewhere '];
  const words = presslore.words;
  const numbers = presslore.numbers;

  /**
   * Everything the words say: {item, defects, notSeen, answers, outcomes, causes, elsewhere, notUnderstood}. A text that
   * is a name of a defect, word for word, tells that defect and nothing else. At last of what was not understood it says
   * where the text was too long to be read to its end.
   * @type {Words['understand']}
   */
  function understand(lexicon, text) {
    const understood = understoodOf(lexicon, words.taken(text));
    if (words.isCut(text)) understood.notUnderstood.push(THE_REST);
    return understood;
  }

  /**
   * @param {Lexicon} lexicon @param {string} text
   * @returns {Understood}
   */
  function understoodOf(lexicon, text) {
    const read = readOf(lexicon, text);
    const item = words.itemAmong(lexicon, text);
    const whole = lexicon.whole(text);
    if (whole) return { ...nothing(), item, defects: [certain(whole, read.typed)] };
    const aside = asideOf(lexicon, item, read);
    const answers = toldOf(lexicon, new words.Spoken(lexicon.answers, read.tokens), aside, LEAST_ANSWER, LEAST_ANSWER);
    const sights = toldOf(lexicon, new words.Spoken(lexicon.sights, read.tokens), aside, LEAST_FIRST, FURTHER);
    sights.denied = notOtherwise(lexicon, sights, answers);
    const known = lexicon.knowledge.defects;
    const seen = sights.runs.filter((run) => known.has(nameOf(sights, run)));
    const least = seen.length ? SHARE_OF_FIRST * seen[0].gain : 0;
    const kept = seen.filter((run, number) => !number || run.gain >= least);
    const counted = kept.filter((run) => read.ids.denied.indexOf(nameOf(sights, run)) < 0);
    const defects = withIds(
      read.ids.told,
      counted.map((run) => match(nameOf(sights, run), run, read, nearTo(sights, run, known)))
    );
    const named = new Set(defects.map((one) => one.id));
    const without = new Set([
      ...read.ids.denied,
      ...Array.from(sights.denied.keys()).filter((name) => known.has(name))
    ]);
    const told = answersIn(lexicon, answers, read);
    const elsewhere = sights.runs.map((run) => nameOf(sights, run)).find((name) => name.startsWith(ELSEWHERE));
    const used = new Set(aside);
    [...kept, ...sights.denied.values(), ...answers.runs].forEach((run) => words.addSpan(used, spanOf(run)));
    return {
      item,
      defects,
      notSeen: Array.from(without).filter((name) => !named.has(name)),
      answers: told,
      outcomes: told.map(({ told: [check, outcome], score }) => ({ check, outcome, score })),
      causes: causesIn(lexicon, answers, read),
      elsewhere: elsewhere && !defects.length ? elsewhere.slice(ELSEWHERE.length) : '',
      notUnderstood: left(read, used)
    };
  }

  /** @returns {Understood} */
  function nothing() {
    return {
      item: null,
      defects: [],
      notSeen: [],
      answers: [],
      outcomes: [],
      causes: [],
      elsewhere: '',
      notUnderstood: []
    };
  }

  /**
   * Every defect that anything in the text speaks for, the best first, ties by id; without what is denied.
   * @type {Words['rankDefects']}
   */
  function rankDefects(lexicon, text) {
    text = words.taken(text);
    const read = readOf(lexicon, text);
    const spoken = new words.Spoken(lexicon.sights, read.tokens);
    const names = spoken.layer.classes;
    const without = new Set([...read.ids.denied, ...words.denied(spoken).map((run) => names[run.told])]);
    const runs = spoken.ranked(-CERTAIN).filter((run) => {
      return lexicon.knowledge.defects.has(names[run.told]) && !without.has(names[run.told]);
    });
    const ranked = numbers.sorted(runs, (run) => [-run.gain, names[run.told]]);
    const matches = ranked.map((run) => match(names[run.told], run, read, []));
    const whole = lexicon.whole(text);
    if (whole) return [certain(whole, read.typed), ...matches.filter((one) => one.id !== whole)];
    return withIds(read.ids.told, matches);
  }

  /**
   * A text as it is read: its words and tokens, and the ids typed in it.
   * @param {Lexicon} lexicon @param {string} text
   * @returns {ReadText}
   */
  function readOf(lexicon, text) {
    const typed = words.clauses(text);
    const units = lexicon.reader.typed(typed, lexicon.speller);
    const ids = words.typedIds(lexicon.knowledge.defects, text, typed, units);
    return { typed, ids, tokens: lexicon.tokens(typed, units) };
  }

  /**
   * The tokens that name the item, or an id.
   * @param {Lexicon} lexicon @param {FoundItem | null} item @param {ReadText} read
   */
  function asideOf(lexicon, item, read) {
    const taken = new Set(read.ids.words);
    if (item && item.words[1] - item.words[0] <= LONGEST_ITEM) words.addSpan(taken, ofItem(lexicon, item, read.typed));
    /** @type {Set<number>} */
    const aside = new Set();
    read.tokens.forEach((token, place) => {
      if (taken.has(token.word)) aside.add(place);
    });
    return aside;
  }

  /**
   * What one layer hears: the division, what is denied by name, the names word for word, and all that was spoken.
   * @param {Lexicon} lexicon @param {Spoken} spoken @param {Set<number>} aside @param {number} first
   * @param {number} further
   * @returns {TextTold}
   */
  function toldOf(lexicon, spoken, aside, first, further) {
    /** @type {Map<string, Run>} */
    const no = new Map();
    const denials = spoken.layer === lexicon.sights ? words.denied(spoken) : [];
    denials.forEach((run) => {
      if (!aside.has(run.last - 1)) no.set(spoken.layer.classes[run.told], run);
    });
    const taken = new Set(aside);
    no.forEach((run) => words.addSpan(taken, spanOf(run)));
    const named = namesIn(lexicon, spoken, taken);
    const runs = words.divided(spoken, first, further, taken, named).filter((run) => {
      const other = no.get(spoken.layer.classes[run.told]);
      return !other || run.gain > other.gain;
    });
    return { spoken, runs: runs.filter((run) => !words.onlyThoughtOf(spoken.tokens, run)), denied: no, named };
  }

  /**
   * What is denied, without what names no defect and whose words tell an answer more clearly ("not taped").
   * @param {Lexicon} lexicon @param {TextTold} sights @param {TextTold} answers
   */
  function notOtherwise(lexicon, sights, answers) {
    return new Map(
      Array.from(sights.denied).filter(([name, run]) => {
        const tokens = sights.spoken.tokens.slice(run.first, run.last);
        if (tokens.some((token) => (lexicon.said.get(token.key) || []).includes(name))) return true;
        return !answers.runs.some(
          (each) => each.first <= run.first && run.first < each.last - 1 && each.gain > run.gain
        );
      })
    );
  }

  /**
   * Names that stand word for word among the tokens, each worth more than what its words say.
   * @param {Lexicon} lexicon @param {Spoken} spoken @param {Set<number>} aside
   */
  function namesIn(lexicon, spoken, aside) {
    const { tokens, layer } = spoken;
    const least = layer === lexicon.sights ? 1 : LEAST_TOKENS;
    const own = new Map(layer.classes.map((told, number) => [told, number]));
    /** @type {Map<number, number>} */
    const sizes = new Map();
    tokens.forEach(({ clause }, place) => {
      if (!aside.has(place)) sizes.set(clause, (sizes.get(clause) || 0) + 1);
    });
    /** @type {Set<number>} */
    const unsaid = new Set();
    spoken.denials.forEach(([, first, last]) => words.addSpan(unsaid, [first, last]));
    /** @type {Run[]} */
    const found = [];
    for (let first = 0; first < tokens.length; first++) {
      for (let last = first + least; last <= Math.min(first + LONGEST, tokens.length); last++) {
        if (unsaid.has(first)) continue;
        (lexicon.said.get(words.keys(tokens.slice(first, last))) || []).forEach((name) => {
          const told = own.get(name);
          if (told === undefined) return;
          const alone = (sizes.get(tokens[first].clause) || 0) <= last - first + BESIDE_A_NAME;
          const worth = A_NAME + LONGER_NAME * (last - first - 1) + (alone ? A_CLAUSE : 0);
          found.push({ told, gain: Math.max(0, spoken.gain(told, first, last)) + worth, first, last });
        });
      }
    }
    return found;
  }

  /**
   * The outcomes told, the strongest first, one for each check.
   * @param {Lexicon} lexicon @param {TextTold} told @param {ReadText} read
   */
  function answersIn(lexicon, told, read) {
    /** @type {Map<string, TextTelling>} */
    const found = new Map();
    told.runs.forEach((run) => {
      const [id, outcome] = nameOf(told, run).split(' ');
      const check = lexicon.knowledge.checks.get(id);
      if (!check || found.has(id) || !check.outcomes.some((each) => each.id === outcome) || split(told, run)) return;
      found.set(id, telling([id, outcome], run, read));
    });
    return Array.from(found.values());
  }

  /**
   * Whether the same words say nearly as much for another outcome of the check: then neither is taken.
   * @param {TextTold} told @param {Run} run
   */
  function split(told, run) {
    const { spoken } = told;
    const ofCheck = `${nameOf(told, run).split(' ')[0]} `;
    const own = Math.max(run.gain, spoken.gain(run.told, run.first, run.last));
    return spoken.layer.classes.some(
      (name, told) =>
        told !== run.told && name.startsWith(ofCheck) && spoken.gain(told, run.first, run.last) > own - APART
    );
  }

  /** @param {Lexicon} lexicon @param {TextTold} told @param {ReadText} read */
  function causesIn(lexicon, told, read) {
    const clear = told.runs.filter((run) => run.gain >= LEAST_CAUSE);
    const named = clear.map((run) => ({ run, cause: withoutStart(nameOf(told, run), CAUSE) }));
    return named
      .filter(({ cause }) => lexicon.knowledge.causes.has(cause))
      .map(({ run, cause }) => telling([cause], run, read));
  }

  /** @param {string} text @param {string} start */
  function withoutStart(text, start) {
    return text.startsWith(start) ? text.slice(start.length) : text;
  }

  /**
   * @param {string[]} told @param {Run} run @param {ReadText} read
   * @returns {TextTelling}
   */
  function telling(told, run, read) {
    return { told, score: numbers.rounded(run.gain, 6), because: wordsOf(read, run.first, run.last) };
  }

  /**
   * A defect, how strongly the words speak for it, and the words that do.
   * @param {string} id @param {Run} run @param {ReadText} read @param {string[]} near
   * @returns {Match}
   */
  function match(id, run, read, near) {
    const because = [wordsOf(read, run.first, run.last)];
    return { id, score: numbers.rounded(run.gain, 6), because, near };
  }

  /**
   * What else may be meant: the defects that as much speaks for, or nearly, wherever it stands; none where there is no
   * doubt.
   * @param {TextTold} told @param {Run} run @param {Map<string, Defect>} known
   */
  function nearTo(told, run, known) {
    const byName = told.named.some(
      (each) => each.told === run.told && run.first <= each.first && each.first < run.last
    );
    if (byName || run.gain >= SURELY) return [];
    const others = told.spoken.ranked(Math.max(0, run.gain - NEAR)).filter((other) => other.told !== run.told);
    const names = others.map((other) => nameOf(told, other));
    return names.filter((name) => known.has(name) && !told.denied.has(name)).slice(0, MOST_NEAR - 1);
  }

  /** @param {TextTold} told @param {Run} run */
  function nameOf(told, run) {
    return told.spoken.layer.classes[run.told];
  }

  /** @param {Run} run */
  function spanOf(run) {
    return /** @type {Span} */ ([run.first, run.last]);
  }

  /**
   * The words from one token up to (without) another as they were typed.
   * @param {ReadText} read @param {number} first @param {number} last
   */
  function wordsOf(read, first, last) {
    const typed = read.typed.slice(read.tokens[first].word, read.tokens[last - 1].word + 1);
    return typed.map((word) => word.text).join(' ');
  }

  /**
   * @param {string} id @param {TypedWord[]} typed
   * @returns {Match}
   */
  function certain(id, typed) {
    return { id, score: CERTAIN, because: [typed.map((word) => word.text).join(' ')], near: [] };
  }

  /**
   * The matches with the ids that were typed put first.
   * @param {string[]} typed @param {Match[]} matches
   */
  function withIds(typed, matches) {
    /** @type {Match[]} */
    const certain = typed.map((id) => ({ id, score: CERTAIN, because: [id], near: [] }));
    return certain.concat(matches.filter((one) => typed.indexOf(one.id) < 0));
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
   * Runs of words within a clause that led to nothing.
   * @param {ReadText} read @param {Set<number>} used
   */
  function left(read, used) {
    /** @type {Span[]} */
    const runs = [];
    read.tokens.forEach((token, place) => {
      if (used.has(place)) return;
      const last = runs[runs.length - 1];
      const goes = last && last[1] === place && read.tokens[place - 1].clause === token.clause;
      if (goes) last[1] = place + 1;
      else runs.push([place, place + 1]);
    });
    return runs
      .filter(([first, last]) => !used.size || (last - first >= LEAST_LEFT && !ofTalk(read, first, last)))
      .map(([first, last]) => wordsOf(read, first, last))
      .slice(0, MOST_LEFT);
  }

  /**
   * Whether none of the words of a run carries a meaning.
   * @param {ReadText} read @param {number} first @param {number} last
   */
  function ofTalk(read, first, last) {
    return read.tokens.slice(first, last).every((token) => OF_TALK.has(words.stem(read.typed[token.word].text)));
  }

  Object.assign(words, { understand, rankDefects });
})();
