// The sentences that the page carries, filled in: what speech/saying.py does, where the form they are written in is told.
var presslore = presslore || {};

(function () {
  'use strict';

  const numbers = presslore.numbers;
  const HEAD = /\{(\w+)(?:, (\w+)(?:, )?)?/y;
  const FORM = / ?(=?[\w-]+) \{/y;
  const PLAIN = /[^{}#]+/y;
  const known = new Map();

  /** The sentence of this name with its places filled in. */
  function say(sentence, places) {
    if (!known.has(sentence)) known.set(sentence, message(presslore.sentences[sentence], 0, '')[0]);
    return written(known.get(sentence), places);
  }

  /** What stands up to the closing brace or the end, and where that is. */
  function message(text, at, counted) {
    const parts = [];
    while (at < text.length && text[at] !== '}') {
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

  function slot(text, at, counted) {
    const [, name, kind] = found(HEAD, text, at);
    const forms = {};
    at = HEAD.lastIndex;
    for (let form = found(FORM, text, at); form; form = found(FORM, text, at)) {
      [forms[form[1]], at] = message(text, FORM.lastIndex, kind === 'plural' ? name : counted);
      at += 1;
    }
    const end = text.indexOf('}', at);
    return [{ name, kind, style: text.slice(at, end), forms }, end + 1];
  }

  function found(expression, text, at) {
    expression.lastIndex = at;
    return expression.exec(text);
  }

  function written(parts, places) {
    return parts.map((part) => (typeof part === 'string' ? part : filled(part, places))).join('');
  }

  function filled(place, places) {
    const value = places[place.name];
    if (place.kind === 'number') {
      return place.style ? numbers.fixed(value, place.style.length - 3) : numbers.general(value);
    }
    if (!place.kind) return String(value);
    const key = place.kind === 'plural' ? plural(value, place.forms) : value;
    return written(place.forms[key] || place.forms.other, places);
  }

  function plural(value, forms) {
    const exact = `=${numbers.general(value)}`;
    return exact in forms ? exact : value === 1 ? 'one' : 'other';
  }

  presslore.say = say;
})();
