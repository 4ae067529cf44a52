// A text read as units of meaning: a word or a fixed phrase, with the features it can be matched by.
// A unit is {words: [first, last + 1], clause, features: [[feature, surety]], denied}.
var presslore = presslore || {};

(function () {
  'use strict';

  const REACH = 3; // how many words a "not" denies
  const SAME_GROUP = 0.85;
  const SLIPPED = 0.8;
  const words = presslore.words;

  /** Reads names as they are written, and a person's words with typing errors forgiven. */
  function Reader(groups) {
    this.groups = groups;
    this.memo = new Map();
  }

  /** The features of each unit of a name. */
  Reader.prototype.name = function (text) {
    let clause = 0;
    const tokens = [];
    words.cut(text).forEach((word) => {
      if (words.BREAKS.has(word)) clause++;
      else if (!words.SKIPPED.has(word)) tokens.push(token([word], 0, 0, clause, 1));
    });
    return this.units(tokens).map((unit) => unit.features);
  };

  /** The units of what a person typed. */
  Reader.prototype.typed = function (typed, speller) {
    return this.units(tokensOf(typed, speller));
  };

  Reader.prototype.units = function (tokens) {
    const result = [];
    let reach = 0;
    let clause = -1;
    for (let place = 0; place < tokens.length;) {
      const token = tokens[place];
      const word = token.meant[0];
      if (token.clause !== clause) {
        reach = 0;
        clause = token.clause;
      }
      if (words.CONTRAST.has(word)) reach = 0;
      const fixed = this.fixedPhrase(tokens, place);
      const length = Math.max(fixed.length, 1);
      if (!fixed.length && words.NEGATORS.has(word)) {
        reach = REACH;
      } else if (fixed.groups.length || !(fixed.length || this.groups.plain.has(word))) {
        const run = tokens.slice(place, place + length);
        const found = fixed.groups.length ? phraseFeatures(run, fixed.groups) : this.features(token);
        const denied = reach > 0;
        result.push({
          words: [token.first, run[run.length - 1].last + 1],
          clause,
          features: denied ? found.map((pair) => [words.NOT + pair[0], pair[1]]) : found,
          denied
        });
        reach -= 1;
      }
      place += length;
    }
    return result;
  };

  /** How many tokens from here on are a fixed phrase, and the groups it belongs to (none: it is plain). */
  Reader.prototype.fixedPhrase = function (tokens, place) {
    const next = place + 1 < tokens.length ? tokens[place + 1].meant : [];
    for (const first of tokens[place].meant) {
      for (const second of next) {
        const candidates = this.groups.phrases.get(`${words.key(first)} ${words.key(second)}`) || [];
        const longest = candidates.find((phrase) => matches(phrase, tokens, place));
        if (longest)
          return { length: longest.keys.length, groups: alike(candidates, longest, tokens, place) };
      }
    }
    return { length: 0, groups: [] };
  };

  /** The groups of all phrases as long as this one that match. */
  function alike(candidates, longest, tokens, place) {
    const same = candidates.filter(
      (phrase) => phrase.group && phrase.keys.length === longest.keys.length && matches(phrase, tokens, place)
    );
    return Array.from(new Set(same.map((phrase) => phrase.group)));
  }

  function matches(phrase, tokens, place) {
    const end = place + phrase.keys.length;
    if (end > tokens.length) return false;
    if (tokens[end - 1].clause !== tokens[place].clause && !phrase.spans) return false;
    return phrase.keys.every((wanted, at) => {
      const meant = tokens[place + at].meant;
      return phrase.asWritten ? meant.indexOf(wanted) >= 0 : meant.some((word) => words.key(word) === wanted);
    });
  }

  function phraseFeatures(tokens, groups) {
    const surety = Math.min(...tokens.map((token) => token.surety));
    const joined = tokens.map((token) => words.key(token.meant[0])).join(' ');
    return [[joined, surety], ...groups.map((group) => [group, surety * SAME_GROUP])];
  }

  Reader.prototype.features = function (token) {
    if (token.surety === 1) return this.ofWord(token.meant[0]);
    const best = new Map();
    token.meant.forEach((word) => {
      this.ofWord(word).forEach((pair) => {
        best.set(pair[0], Math.max(best.get(pair[0]) || 0, pair[1] * token.surety));
      });
    });
    return Array.from(best);
  };

  Reader.prototype.ofWord = function (word) {
    if (!this.memo.has(word)) {
      const root = words.stem(word);
      const groups = this.groups.ofStem.get(root) || [];
      this.memo.set(word, [[root, 1], ...groups.map((group) => [group, SAME_GROUP])]);
    }
    return this.memo.get(word);
  };

  /** The words a typed word may mean (one, unless it was mistyped), and where it was typed. */
  function token(meant, first, last, clause, surety) {
    return { meant, first, last, clause, surety };
  }

  function tokensOf(typed, speller) {
    const result = [];
    for (let place = 0; place < typed.length;) {
      const word = typed[place];
      const mended = speller.knows(word.text)
        ? { tokens: [token([word.text], place, place, word.clause, 1)], used: 1 }
        : mend(typed, place, speller);
      result.push(...mended.tokens.filter((made) => !words.SKIPPED.has(made.meant[0])));
      place += mended.used;
    }
    return result;
  }

  /** The tokens an unknown word stands for, and how many typed words they use up. */
  function mend(typed, place, speller) {
    const word = typed[place];
    if (place + 1 < typed.length) {
      const joined = word.text + typed[place + 1].text;
      if (speller.known.has(joined)) {
        return { tokens: [token([joined], place, place + 1, word.clause, SLIPPED)], used: 2 };
      }
    }
    const near = speller.meant(word.text);
    const affirming = near.filter((known) => !words.NEGATORS.has(known));
    const meant = affirming.length ? affirming : near;
    if (meant.length) return { tokens: [token(meant, place, place, word.clause, SLIPPED)], used: 1 };
    const parts = speller.split(word.text).map((part) => token([part], place, place, word.clause, SLIPPED));
    if (parts.length) return { tokens: parts, used: 1 };
    return { tokens: [token([word.text], place, place, word.clause, 1)], used: 1 };
  }

  words.Reader = Reader;
})();
