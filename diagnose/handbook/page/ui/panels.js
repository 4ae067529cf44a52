// The two panels beside a step: why and how, and what is believed so far. They are filled when they are opened.
var presslore = presslore || {};
presslore.page = presslore.page || {};

(function () {
  'use strict';

  const { make, button, line, list } = presslore.page.dom;
  const MOST = 5;

  /**
   * A panel and the button that opens it: {toggle, panel, flip}.
   * @param {string} id @param {string} key @param {string} label @param {() => Child[]} fill
   */
  function foldOut(id, key, label, fill) {
    const panel = make('section', { id, class: 'panel', hidden: true, 'aria-label': label });
    const heading = make('h3', { tabindex: -1 }, label);
    function flip() {
      const opens = panel.hidden;
      if (opens && !panel.firstChild) {
        panel.append(heading, ...fill().flatMap((one) => one || []));
      }
      panel.hidden = !opens;
      toggle.setAttribute('aria-expanded', String(opens));
      if (opens) {
        heading.focus({ preventScroll: true });
        panel.scrollIntoView({ block: 'start' });
      } else toggle.focus();
    }
    const toggle = button([presslore.page.parts.keycap(key), make('span', {}, label)], flip, {
      'aria-expanded': 'false',
      'aria-controls': id
    });
    return { toggle, panel, flip };
  }

  /** @type {Page['panels']['why']} */
  function why(fill) {
    return foldOut('pl-why', '?', 'Why and how', fill);
  }

  /** @type {Page['panels']['beliefs']} */
  function beliefs(app) {
    return foldOut('pl-beliefs', 'w', 'What I believe', () => believed(app));
  }

  /** @param {App} app */
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

  /** @param {App} app @param {ToldCause} told @param {Suspect} suspect */
  function cause(app, told, suspect) {
    const share = Math.max(2, Math.round(suspect.behind * 100));
    const filled = make('span', {});
    filled.style.width = `${share}%`;
    const bar = make('span', { class: 'bar', 'aria-hidden': 'true' }, filled);
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
