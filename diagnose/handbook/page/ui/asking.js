// A field for the person's own words. What was typed is kept as it is typed; words wait until they can be understood.
var presslore = presslore || {};
presslore.page = presslore.page || {};

(function () {
  'use strict';

  const { make, tell } = presslore.page.dom;
  const WAITING = 'Getting the words ready …';
  const NOT = {
    missing: 'The words could not be loaded. What you typed stays: go on to try again, or take it from a list.',
    renewed: 'The handbook was renewed just now. Load the page again: what you typed stays.'
  };

  /**
   * A form round a field. `kept`: the part of the state that holds what is typed; `without()`: what to do where
   * nothing is typed; `take(words)`: take the words, or return what to say of them.
   * @type {Page['asking']['form']}
   */
  function form(app, { field, hint, kept, without, take }) {
    const trouble = make('p', { class: 'trouble', role: 'alert' });
    const wait = make('p', { class: 'hint', hidden: true }, WAITING);
    field.addEventListener('input', () => app.jot({ [kept]: field.value }));
    /** @param {string | void} complaint */
    function say(complaint) {
      if (!complaint) return;
      tell(trouble, complaint);
      field.focus();
    }
    function understand() {
      const words = field.value.trim();
      say(words ? take(words) : without());
    }
    /** @param {boolean} on */
    function waits(on) {
      wait.hidden = !on;
      if (on) app.voice.textContent = WAITING;
      else if (app.voice.textContent === WAITING) app.voice.textContent = '';
    }
    /**
     * What came too late to be of use, as the person went another way, is left.
     * @param {(why: Missing | '') => void} act
     */
    function then(act) {
      return (/** @type {Missing | ''} */ why) => {
        waits(false);
        if (field.isConnected) act(why);
      };
    }
    /** @param {Event} event */
    function said(event) {
      event.preventDefault();
      trouble.textContent = '';
      if (presslore.page.alarm.sounded(app, field.value)) return app.jot({ [kept]: '' });
      if (!field.value.trim() || app.ears.ready()) return understand();
      if (!wait.hidden) return;
      waits(true);
      app.ears.wait(
        then(understand),
        then((why) => say(why ? NOT[why] : ''))
      );
    }
    const all = [
      make('p', { id: 'pl-hint', class: 'hint' }, hint),
      field,
      trouble,
      wait,
      make('button', { type: 'submit', class: 'primary' }, 'Go on')
    ];
    return { node: make('form', { on: { submit: said } }, all), said };
  }

  presslore.page.asking = { form };
})();
