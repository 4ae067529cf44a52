// Elements made by hand. Texts only ever become text nodes, so that no text can turn into markup.
var presslore = presslore || {};
presslore.page = presslore.page || {};

(function () {
  'use strict';

  /** What shows nothing itself and acts on what stands round it: controls, joiners, overrides. A line feed may stay. */
  const ACTING = new RegExp(
    '(?!\\n)[\\x00-\\x1f\\x7f-\\x9f\\xad\\u0600-\\u0605\\u061c\\u06dd\\u070f\\u0890\\u0891\\u08e2\\u180e\\u200b-\\u200f' +
      '\\u2028-\\u202e\\u2060-\\u206f\\ud800-\\udfff\\ufeff\\ufff0-\\ufffb\\u{110bd}\\u{110cd}\\u{13430}-\\u{1345f}' +
      '\\u{1bca0}-\\u{1bcaf}\\u{1d173}-\\u{1d17a}\\u{e0000}-\\u{e007f}]',
    'gu'
  );
  const LEFTWARD = '[\\u0590-\\u08ff\\u200f\\ufb1d-\\ufdff\\ufe70-\\ufefe\\u{10800}-\\u{10fff}\\u{1e800}-\\u{1efff}]';
  const LEFTWARD_RUN = new RegExp(`(${LEFTWARD}(?:[\\s\\d.,'"’”-]*${LEFTWARD})*)`, 'u');
  const AS_TYPED = ['textarea', 'option']; // they hold text only

  /**
   * A text without what acts on its surroundings.
   * @type {Dom['clean']}
   */
  function clean(text) {
    return text.replace(/\t/g, ' ').replace(ACTING, '');
  }

  /**
   * A text for between tags: each run of words written from right to left is set apart, so that it never turns the
   * words and figures beside it.
   * @param {string} text
   */
  function told(text) {
    return clean(text)
      .split(LEFTWARD_RUN)
      .map((part, at) => (at % 2 ? make('bdi', {}, [document.createTextNode(part)]) : part))
      .filter(Boolean);
  }

  /**
   * Put a text into an element.
   * @type {Dom['tell']}
   */
  function tell(element, text) {
    element.replaceChildren(...told(text));
  }

  /**
   * An element. `settings` are attributes; `on` in it holds listeners; null and false leave an attribute out.
   * @type {Dom['make']}
   */
  function make(tag, settings, children) {
    const element = document.createElement(tag);
    const { on, ...attributes } = settings || {};
    Object.entries(on || {}).forEach(([event, listener]) => {
      element.addEventListener(event, listener);
    });
    Object.entries(attributes).forEach(([name, value]) => {
      if (value === null || value === false) return;
      element.setAttribute(name, value === true ? '' : clean(String(value)));
    });
    const given = (Array.isArray(children) ? children : [children]).flatMap((one) => one || []);
    /** @type {(text: string) => string | (string | Node)[]} */
    const words = AS_TYPED.includes(tag) ? clean : told;
    element.append(...given.flatMap((one) => (typeof one === 'string' ? words(one) : one)));
    return element;
  }

  /**
   * A button that does one thing.
   * @type {Dom['button']}
   */
  function button(label, act, settings) {
    return make('button', { type: 'button', on: { click: act }, ...settings }, label);
  }

  /**
   * A paragraph.
   * @type {Dom['line']}
   */
  function line(text, look) {
    return make('p', { class: look || null }, text);
  }

  /**
   * A list of texts or nodes.
   * @type {Dom['list']}
   */
  function list(tag, entries, look) {
    return make(
      tag,
      { class: look || null },
      entries.map((entry) => make('li', {}, entry))
    );
  }

  /**
   * The first sentence of a text.
   * @type {Dom['firstSentence']}
   */
  function firstSentence(text) {
    const stop = text.indexOf('. ');
    return stop < 0 ? text : text.slice(0, stop + 1);
  }

  presslore.page.dom = { make, button, line, list, tell, clean, firstSentence };
})();
