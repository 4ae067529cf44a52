// How a text is cut into words and clauses: lower case, without accents and apostrophes.
var presslore = presslore || {};

(function () {
  'use strict';

  const LONGEST_TEXT = 2000;
  const BREAKS = new Set('and but though although while whereas yet plus also however because'.split(' '));

  /** The text in lower case, without accents and apostrophes. */
  function fold(text) {
    const plain = text.toLowerCase().replace(/['’‘`]/g, '');
    return plain.normalize('NFKD').replace(/(?![\u034f\ufe00-\ufe0f])\p{Mn}/gu, '');
  }

  /** The first 2000 signs of a text. */
  function start(text) {
    return text.length <= LONGEST_TEXT ? text : Array.from(text).slice(0, LONGEST_TEXT).join('');
  }

  /** The words {text, clause} of the first 2000 signs of a text. A sign or a joining word ends a clause. */
  function clauses(text) {
    const words = [];
    let clause = 0;
    let filled = false;
    (fold(start(text)).match(/[a-z0-9]+|[.,;:!?()\n–—]/g) || []).forEach((piece) => {
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

  /** The words of a text, in order, without any signs. */
  function cut(text) {
    return fold(text).match(/[a-z0-9]+/g) || [];
  }

  /** What a name is known by as a whole: its words in order, whatever their plural. */
  function keyOf(parts) {
    return parts.map(presslore.words.withoutPlural).join(' ');
  }

  /** The same of a text, whatever its case and punctuation. */
  function wholeKey(text) {
    return keyOf(cut(start(text)));
  }

  Object.assign(presslore.words, { BREAKS, fold, start, clauses, cut, keyOf, wholeKey });
})();
