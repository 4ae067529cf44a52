// The two panels beside a step: why and how, and what is believed so far. They are filled when they are opened.
var presslore = presslore || {};
presslore.page = presslore.page || {};

(function () {
  'use strict';

  const { make, button, line, list } = presslore.page.dom;
  const MOST = 5;

  /** A panel and the button that opens it: {toggle, panel, flip}. */
  function foldOut(id, key, label, fill) {
    const panel = make('section', { id, class: 'panel', hidden: true, 'aria-label': label });
    function flip() {
      const opens = panel.hidden;
      if (opens && !panel.firstChild) {
        panel.append(make('h3', { tabindex: -1 }, label), ...fill().filter(Boolean));
      }
      panel.hidden = !opens;
      toggle.setAttribute('aria-expanded', String(opens));
      if (opens) {
        panel.firstChild.focus({ preventScroll: true });
        panel.scrollIntoView({ block: 'start' });
      } else toggle.focus();
    }
    const toggle = button([presslore.page.parts.keycap(key), make('span', {}, label)], flip, {
      'aria-expanded': 'false',
      'aria-controls': id
    });
    return { toggle, panel, flip };
  }

  function why(fill) {
    return foldOut('pl-why', '?', 'Why and how', fill);
  }

  function beliefs(app) {
    return foldOut('pl-beliefs', 'w', 'What I believe', () => believed(app));
  }

  function believed(app) {
    const talk = app.consultation;
    const causes = presslore.speech.told(talk, MOST);
    const changes = presslore.speech.whatWouldChange(talk);
    const caveat = presslore.speech.caveat(talk);
    return [
      causes.length ? null : line('Nothing that the rules know of explains this.'),
      causes.length
        ? list(
            'ol',
            causes.map((told, at) => cause(app, told, talk.suspects[at])),
            'beliefs'
          )
        : null,
      changes.length ? line('What would change this:', 'lead') : null,
      changes.length ? list('ul', changes) : null,
      caveat ? line(caveat, 'trouble') : null
    ];
  }

  function cause(app, told, suspect) {
    const share = Math.max(2, Math.round(suspect.behind * 100));
    const bar = make('span', { class: 'bar', 'aria-hidden': 'true' }, make('span', {}));
    bar.firstChild.style.width = `${share}%`;
    return [
      make('p', {}, [
        presslore.page.parts.link(app, 'causes', suspect.cause, told.title),
        told.origin ? ` [${told.origin}]` : null,
        `: ${told.chance.replace(' %', '\u00a0%')}`
      ]),
      bar,
      list('ul', told.reasons)
    ];
  }

  presslore.page.panels = { why, beliefs };
})();
