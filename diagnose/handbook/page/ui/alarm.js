// A danger that was typed, told before anything else: what to do now, whom to call, and nothing more.
var presslore = presslore || {};
presslore.page = presslore.page || {};

(function () {
  'use strict';

  const { make, button, line, list } = presslore.page.dom;

  /**
   * Whether words cry out a danger; then it is shown.
   * @type {Page['alarm']['sounded']}
   */
  function sounded(app, words) {
    const danger = presslore.words.alarm(app.knowledge, words);
    if (danger) app.alarm(danger);
    return danger !== null;
  }

  /**
   * The danger: the steps in their order, whom to call, what not to do, and the way back.
   * @type {Page['alarm']['view']}
   */
  function view(app, danger) {
    const { call, over } = presslore.speech.ofDangers();
    return {
      title: danger.title,
      alarm: true,
      keys: {},
      body: [
        list('ol', danger.steps, 'now'),
        make('p', { class: 'call' }, [make('strong', {}, call), ` ${danger.call}`]),
        list('ul', danger.never, 'never'),
        line(over, 'hint'),
        button('Everybody is safe: go on', () => app.go(app.state), { class: 'safe' })
      ]
    };
  }

  presslore.page.alarm = { sounded, view };
})();
