// How a check or fix is done, step by step. It is fetched after the page has been painted; until it is there, that is
// said in its place.
var presslore = presslore || {};
presslore.page = presslore.page || {};

(function () {
  'use strict';

  const { make, list } = presslore.page.dom;
  const WAITING = 'Getting the steps …';
  const NOT = {
    missing: 'The steps could not be loaded. They stand in the handbook too: ',
    renewed: 'The handbook was renewed just now. Load the page again for the steps, or read them in the handbook: '
  };

  /**
   * The steps of the checks and fixes of this knowledge; `address` is where they lie.
   * @type {Page['doing']}
   */
  function doing(knowledge, address) {
    const fetched = presslore.page.fetching('doing', knowledge.version, address);

    /** @param {'checks' | 'needs' | 'fixes'} part @param {string} id */
    function told(part, id) {
      const found = presslore.doing;
      if (!found) throw new RangeError('the steps are not there yet');
      const kind = part === 'fixes' ? 'fixes' : 'checks';
      return found[part][Array.from(knowledge[kind].keys()).indexOf(id)];
    }

    return {
      check(app, id) {
        return asSoonAsThere(app, 'checks', id, () => {
          const needs = told('needs', id);
          const steps = list('ol', told('checks', id), 'steps');
          return needs.length ? [make('p', {}, `You need: ${needs.join(', ')}.`), steps] : [steps];
        });
      },
      fix(app, id, done) {
        return asSoonAsThere(app, 'fixes', id, () => [list('ol', done(told('fixes', id)), 'steps')]);
      }
    };

    /** @param {App} app @param {'checks' | 'fixes'} kind @param {string} id @param {() => HTMLElement[]} shown */
    function asSoonAsThere(app, kind, id, shown) {
      if (fetched.ready()) return shown();
      const place = make('p', { class: 'hint' }, WAITING);
      fetched.wait(
        () => place.replaceWith(...shown()),
        (why) => {
          const link = presslore.page.parts.link(app, kind, id, 'how it is done');
          place.replaceChildren(make('span', {}, [NOT[why], link, '.']));
        }
      );
      return [place];
    }
  }

  presslore.page.doing = doing;
})();
