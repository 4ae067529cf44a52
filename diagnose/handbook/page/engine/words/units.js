// A text read as units of meaning: a word or a fixed phrase, with the features it can be matched by.
// A unit is {words: [first, last + 1], clause, features: [[feature, surety]], denied}; `denied` is 1 + the number of
// the word that denies it, 0 if none does.
var presslore = presslore || {};

(function () {
  'use strict';

  const { REACH, SAME_GROUP, SLIPPED } = presslore.shared.units;
  const words = presslore.words;

  /**
   * @typedef {{ meant: string[], first: number, last: number, clause: number, surety: number }} Token
   * @typedef {{ length: number, groups: string[] }} Fixed
   * @typedef {{ place: number, length: number, groups: string[], denying: number }} Run
   */

  /** Reads names as they are written, and a person's words with typing errors forgiven. */
  class Reader {
    /** @param {Groups} groups */
    constructor(groups) {
      this.groups = groups;
      /** @type {Map<string, Feature[]>} */
      this.memo = new Map();
    }

    /**
     * The features of each unit of a name, given as its words.
     * @param {string[]} parts
     */
    name(parts) {
      let clause = 0;
      /** @type {string[][]} */
      const meant = [];
      /** @type {number[]} */
      const clauses = [];
      parts.forEach((word) => {
        if (words.BREAKS.has(word)) clause++;
        else if (!words.SKIPPED.has(word)) {
          meant.push([word]);
          clauses.push(clause);
        }
      });
      return this.runs(meant, clauses).map((run) => {
        const own = meant.slice(run.place, run.place + run.length);
        const found = run.groups.length ? phraseFeatures(own, 1, run.groups) : this.ofWord(own[0][0]);
        return run.denying ? without(found) : found;
      });
    }

    /**
     * The units of what a person typed.
     * @param {TypedWord[]} typed @param {Speller} speller
     */
    typed(typed, speller) {
      const tokens = tokensOf(typed, speller);
      const runs = this.runs(
        tokens.map((each) => each.meant),
        tokens.map((each) => each.clause)
      );
      return runs.map((run) => {
        const own = tokens.slice(run.place, run.place + run.length);
        const surety = Math.min(...own.map((each) => each.surety));
        const meant = own.map((each) => each.meant);
        const found = run.groups.length ? phraseFeatures(meant, surety, run.groups) : this.features(own[0]);
        return {
          words: /** @type {Span} */ ([own[0].first, own[own.length - 1].last + 1]),
          clause: own[0].clause,
          features: run.denying ? without(found) : found,
          denied: run.denying ? tokens[run.denying - 1].first + 1 : 0
        };
      });
    }

    /**
     * Where each unit starts, how many words it has, its groups if it is a fixed phrase, and 1 + the place of what denies
     * it (0: nothing does). Words without meaning are passed over.
     * @param {string[][]} meant @param {number[]} clauses
     */
    runs(meant, clauses) {
      /** @type {Run[]} */
      const result = [];
      let reach = 0;
      let clause = -1;
      let denying = 0;
      for (let place = 0; place < meant.length; ) {
        const word = meant[place][0];
        if (clauses[place] !== clause) {
          reach = 0;
          clause = clauses[place];
        }
        if (words.CONTRAST.has(word)) reach = 0;
        const fixed = this.fixedPhrase(meant, clauses, place);
        const carriesOn = word === 'or' && reach > 0;
        const negates = !fixed.length && words.NEGATORS.has(word);
        if (carriesOn || negates) {
          reach = REACH;
          denying = place + 1;
        }
        if (!negates && (fixed.groups.length || !(fixed.length || this.groups.plain.has(word)))) {
          const length = fixed.length || 1;
          result.push({ place, length, groups: fixed.groups, denying: reach > 0 ? denying : 0 });
          reach -= 1;
        }
        place += fixed.length || 1;
      }
      return result;
    }

    /**
     * How many words from here on are a fixed phrase, and the groups it belongs to (none: it is plain).
     * @param {string[][]} meant @param {number[]} clauses @param {number} place
     */
    fixedPhrase(meant, clauses, place) {
      if (place + 1 < meant.length) {
        for (const first of meant[place]) {
          for (const second of meant[place + 1]) {
            const candidates = this.groups.phrases.get(`${words.key(first)} ${words.key(second)}`);
            const found = candidates && longest(candidates, meant, clauses, place);
            if (found && found.length) return found;
          }
        }
      }
      return { length: 0, groups: /** @type {string[]} */ ([]) };
    }

    /** @param {Token} token */
    features(token) {
      if (token.surety === 1) return this.ofWord(token.meant[0]);
      /** @type {Map<string, number>} */
      const best = new Map();
      token.meant.forEach((word) => {
        this.ofWord(word).forEach((pair) => {
          best.set(pair[0], Math.max(best.get(pair[0]) || 0, pair[1] * token.surety));
        });
      });
      return Array.from(best);
    }

    /** @param {string} word */
    ofWord(word) {
      const before = this.memo.get(word);
      if (before) return before;
      const root = words.stem(word);
      const features = withGroups(root, 1, this.groups.ofStem.get(root) || []);
      this.memo.set(word, features);
      return features;
    }
  }

  /** @param {Feature[]} features */
  function without(features) {
    return features.map((pair) => /** @type {Feature} */ ([words.NOT + pair[0], pair[1]]));
  }

  /**
   * @param {Phrase[]} candidates
   * @param {string[][]} meant
   * @param {number[]} clauses
   * @param {number} place
   */
  function longest(candidates, meant, clauses, place) {
    /** @type {Fixed} */
    const found = { length: 0, groups: [] };
    for (const phrase of candidates) {
      const size = phrase.keys.length;
      if (size < found.length) break;
      const started = size === 2 && !phrase.asWritten && clauses[place] === clauses[place + 1];
      if (!started && !matches(phrase, meant, clauses, place)) continue;
      found.length = size;
      if (phrase.group && found.groups.indexOf(phrase.group) < 0) found.groups.push(phrase.group);
    }
    return found;
  }

  /** @param {Phrase} phrase @param {string[][]} meant @param {number[]} clauses @param {number} place */
  function matches(phrase, meant, clauses, place) {
    const end = place + phrase.keys.length;
    if (end > meant.length || (clauses[end - 1] !== clauses[place] && !phrase.spans)) return false;
    return phrase.keys.every((wanted, at) => {
      const own = meant[place + at];
      return phrase.asWritten ? own.indexOf(wanted) >= 0 : own.some((word) => words.key(word) === wanted);
    });
  }

  /** @param {string[][]} meant @param {number} surety @param {string[]} groups */
  function phraseFeatures(meant, surety, groups) {
    const joined = meant.map((own) => words.key(own[0])).join(' ');
    return withGroups(joined, surety, groups);
  }

  /**
   * A feature, and what it shares its meaning with.
   * @param {string} name @param {number} surety @param {string[]} groups
   * @returns {Feature[]}
   */
  function withGroups(name, surety, groups) {
    return [[name, surety], ...groups.map((group) => /** @type {Feature} */ ([group, surety * SAME_GROUP]))];
  }

  /**
   * The words a typed word may mean (one, unless it was mistyped), and where it was typed.
   * @param {string[]} meant
   * @param {number} first
   * @param {number} last
   * @param {number} clause
   * @param {number} surety
   */
  function token(meant, first, last, clause, surety) {
    return { meant, first, last, clause, surety };
  }

  /** @param {TypedWord[]} typed @param {Speller} speller */
  function tokensOf(typed, speller) {
    /** @type {Token[]} */
    const result = [];
    const right = typed.filter((word) => speller.knows(word.text));
    const stems = new Set(right.map((word) => words.stem(word.text)));
    for (let place = 0; place < typed.length; ) {
      const word = typed[place];
      const mended = speller.knows(word.text)
        ? { tokens: [token([word.text], place, place, word.clause, 1)], used: 1 }
        : mend(typed, place, speller, stems);
      result.push(...mended.tokens.filter((made) => !words.SKIPPED.has(made.meant[0])));
      place += mended.used;
    }
    return result;
  }

  /**
   * The tokens an unknown word stands for, and how many typed words they use up. It stands for none of the words whose
   * `stems` are typed rightly elsewhere in the text.
   * @param {TypedWord[]} typed
   * @param {number} place
   * @param {Speller} speller
   * @param {Set<string>} stems
   */
  function mend(typed, place, speller, stems) {
    const word = typed[place];
    if (place + 1 < typed.length) {
      const joined = word.text + typed[place + 1].text;
      if (speller.known.has(joined)) {
        return { tokens: [token([joined], place, place + 1, word.clause, SLIPPED)], used: 2 };
      }
    }
    const near = speller.meant(word.text).filter((known) => !stems.has(words.stem(known)));
    const affirming = near.filter((known) => !words.NEGATORS.has(known));
    const meant = affirming.length ? affirming : near;
    if (meant.length) return { tokens: [token(meant, place, place, word.clause, SLIPPED)], used: 1 };
    const parts = speller.split(word.text).map((part) => token([part], place, place, word.clause, SLIPPED));
    if (parts.length) return { tokens: parts, used: 1 };
    return { tokens: [token([word.text], place, place, word.clause, 1)], used: 1 };
  }

  words.Reader = Reader;
})();
