// How a text is taken and cut into words and clauses: lower case, without accents and apostrophes.
var presslore = presslore || {};

(function () {
  'use strict';

  const { LONGEST_TEXT } = presslore.shared.spelling;
  const BREAKS = new Set(presslore.shared.spelling.BREAKS);
  // biome-ignore lint/suspicious/noControlCharactersInRegex: the separators count as blanks on the command line's side too
  const BLANKS = /[\s\x1c-\x1f\x85]+/g;

  /**
   * The text in lower case, without accents and apostrophes.
   * @type {Words['fold']}
   */
  function fold(text) {
    return withoutAccents(text.toLowerCase().replace(/['’‘`]/g, ''));
  }

  /** @param {string} text */
  function withoutAccents(text) {
    return text.normalize('NFKD').replace(/(?![\u034f\ufe00-\ufe0f])\p{Mn}/gu, '');
  }

  /**
   * A text as it is read, once and before anything else looks at it: white space collapsed (to a line break where there
   * is one in it), accents off, and no more than the first 2000 signs. So no expression meets a long run.
   * @type {Words['taken']}
   */
  function taken(text) {
    return start(collapsed(withoutAccents(start(collapsed(text))))).trimEnd();
  }

  /**
   * Whether a text is too long for all of it to be read.
   * @type {Words['isCut']}
   */
  function isCut(text) {
    return text.length > LONGEST_TEXT && Array.from(collapsed(text)).length > LONGEST_TEXT;
  }

  /** @param {string} text */
  function collapsed(text) {
    return text.replace(BLANKS, (run) => (run.indexOf('\n') >= 0 ? '\n' : ' ')).trim();
  }

  /**
   * The first 2000 signs of a text.
   * @param {string} text
   */
  function start(text) {
    return text.length <= LONGEST_TEXT ? text : Array.from(text).slice(0, LONGEST_TEXT).join('');
  }

  /**
   * The words {text, clause} of a text. A sign or a joining word ends a clause.
   * @type {Words['clauses']}
   */
  function clauses(text) {
    /** @type {TypedWord[]} */
    const words = [];
    let clause = 0;
    let filled = false;
    (fold(text).match(/[a-z0-9]+|[.,;:!?()\n–—]/g) || []).forEach((piece) => {
      if (!BREAKS.has(piece) && /[a-z0-9]/.test(piece)) {
        words.push({ text: piece, clause });
        filled = true;
      } else if (filled) {
        clause += 1;
        filled = false;
      }
    });
    return words;
  }

  /**
   * The words of a text, in order, without any signs.
   * @type {Words['cut']}
   */
  function cut(text) {
    return fold(text).match(/[a-z0-9]+/g) || [];
  }

  /**
   * What a name is known by as a whole: its words in order, whatever their plural.
   * @type {Words['keyOf']}
   */
  function keyOf(parts) {
    return parts.map(presslore.words.withoutPlural).join(' ');
  }

  /**
   * The same of a text, whatever its case and punctuation.
   * @type {Words['wholeKey']}
   */
  function wholeKey(text) {
    return keyOf(cut(text));
  }

  Object.assign(presslore.words, { BREAKS, fold, taken, isCut, clauses, cut, keyOf, wholeKey });
})();
