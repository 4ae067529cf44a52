// The sentences that the page carries, filled in: what speech/saying.py does, where the form they are written in is told.
var presslore = presslore || {};

(function () {
  'use strict';

  const numbers = presslore.numbers;
  const { WHOLE } = presslore.shared.say;
  const HEAD = /\{(\w+)(?:, (\w+)(?:, )?)?/y;
  const FORM = / ?(=?[\w-]+) \{/y;
  const PLAIN = /[^{}#]+/y;
  /** @type {Map<string, Message>} */
  const read = new Map();

  /**
   * The sentence of this name with its places filled in.
   * @type {Engine['say']}
   */
  function say(sentence, places) {
    const parts = read.get(sentence) || message(presslore.shared.sentences[sentence], 0, '')[0];
    read.set(sentence, parts);
    return written(parts, places);
  }

  /**
   * What stands up to the closing brace or the end, and where that is. `counted`: what # stands for.
   * @param {string} text @param {number} at @param {string} counted
   * @returns {[Message, number]}
   */
  function message(text, at, counted) {
    /** @type {Message} */
    const parts = [];
    while (at < text.length && text[at] !== '}') {
      /** @type {Message[number]} */
      let part = text[at];
      let end = at + 1;
      if (part === '{') [part, end] = slot(text, at, counted);
      else if (part === '#' && counted) part = { name: counted, kind: 'number', style: '', forms: {} };
      else if (found(PLAIN, text, at)) {
        end = PLAIN.lastIndex;
        part = text.slice(at, end);
      }
      parts.push(part);
      at = end;
    }
    return [parts, at];
  }

  /**
   * @param {string} text @param {number} at @param {string} counted
   * @returns {[Slot, number]}
   */
  function slot(text, at, counted) {
    const head = found(HEAD, text, at);
    if (!head) throw new SyntaxError(`no place: ${text}`);
    const [, name, kind] = head;
    /** @type {Slot['forms']} */
    const forms = {};
    at = HEAD.lastIndex;
    for (let form = found(FORM, text, at); form; form = found(FORM, text, at)) {
      [forms[form[1]], at] = message(text, FORM.lastIndex, kind === 'plural' ? name : counted);
      at += 1;
    }
    const end = text.indexOf('}', at);
    return [{ name, kind, style: text.slice(at, end), forms }, end + 1];
  }

  /** @param {RegExp} expression @param {string} text @param {number} at */
  function found(expression, text, at) {
    expression.lastIndex = at;
    return expression.exec(text);
  }

  /** @param {Message} parts @param {Places} places @returns {string} */
  function written(parts, places) {
    return parts.map((part) => (typeof part === 'string' ? part : filled(part, places))).join('');
  }

  /** @param {Slot} place @param {Places} places */
  function filled(place, places) {
    const value = places[place.name];
    if (!place.kind) return String(value);
    if (place.kind === 'number') {
      return place.style ? numbers.fixed(Number(value), place.style.length - 3) : number(Number(value));
    }
    const key = place.kind === 'plural' ? plural(Number(value), place.forms) : value;
    return written(place.forms[key] || place.forms.other, places);
  }

  /**
   * A whole number in full, any other in at most six digits.
   * @param {number} value
   */
  function number(value) {
    return Number.isInteger(value) && Math.abs(value) < WHOLE ? numbers.fixed(value, 0) : numbers.general(value);
  }

  /** @param {number} value @param {Slot['forms']} forms */
  function plural(value, forms) {
    const exact = `=${number(value)}`;
    if (exact in forms) return exact;
    return value === 1 && 'one' in forms ? 'one' : 'other';
  }

  presslore.say = say;
})();
