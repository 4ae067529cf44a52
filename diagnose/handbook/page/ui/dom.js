// Elements made by hand. Texts only ever become text nodes, so that no text can turn into markup.
var presslore = presslore || {};
presslore.page = presslore.page || {};

(function () {
  'use strict';

  /** An element. `settings` are attributes; `on` in it holds listeners; null and false leave an attribute out. */
  function make(tag, settings, children) {
    const element = document.createElement(tag);
    Object.entries(settings || {}).forEach(([name, value]) => {
      if (name === 'on') {
        Object.entries(value).forEach(([event, listener]) => {
          element.addEventListener(event, listener);
        });
      } else if (value !== null && value !== false) {
        element.setAttribute(name, value === true ? '' : value);
      }
    });
    element.append(...[].concat(children === undefined ? [] : children).filter(Boolean));
    return element;
  }

  /** A button that does one thing. */
  function button(label, act, settings) {
    return make('button', { type: 'button', on: { click: act }, ...settings }, label);
  }

  /** A paragraph. */
  function line(text, look) {
    return make('p', { class: look || null }, text);
  }

  /** A list of texts or nodes. */
  function list(tag, entries, look) {
    return make(
      tag,
      { class: look || null },
      entries.map((entry) => make('li', {}, entry))
    );
  }

  /** The first sentence of a text. */
  function firstSentence(text) {
    const stop = text.indexOf('. ');
    return stop < 0 ? text : text.slice(0, stop + 1);
  }

  presslore.page.dom = { make, button, line, list, firstSentence };
})();
