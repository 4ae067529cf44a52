// One step of the dialogue: a check to answer, or a fix that ends in a test press.
var presslore = presslore || {};
presslore.page = presslore.page || {};

(function () {
  'use strict';

  const { make, line, list } = presslore.page.dom;
  const flow = presslore.page.flow;
  /** @type {Record<string, string>} */
  const KINDS = { l: 'Look', a: 'Say', m: 'Measure', t: 'Try out' };

  /**
   * The step advised now, or the end.
   * @type {Page['steps']['stepView']}
   */
  function stepView(app) {
    const over = app.consultation.session.over();
    if (over) return presslore.page.ending[over.move === 'cured' ? 'curedView' : 'handedView'](app);
    const advice = app.consultation.advice;
    if (advice.kind === 'check') return checkView(app, presslore.known(app.knowledge.checks, advice.id));
    if (advice.kind === 'fix') return fixView(app, presslore.known(app.knowledge.fixes, advice.id));
    return presslore.page.ending.callView(app);
  }

  /** @param {App} app @param {Check} check */
  function checkView(app, check) {
    /** @type {Keys} */
    const keys = {};
    const speech = presslore.speech;
    const ids = presslore.telling.cautions(app.consultation, check);
    const move = (/** @type {Made} */ said) => app.go(flow.moved(app.state, said, ids));
    const again = speech.lookAgain(app.consultation, check);
    const kind = KINDS[app.kinds.get(check.id) || ''];
    const right = speech.window(app.consultation, check.id);
    const answers = check.outcomes.map((outcome) => ({
      label: outcome.looks,
      act: () => move({ move: 'answered', check: check.id, outcome: outcome.id, again: Boolean(again) })
    }));
    const cannot = [{ key: 'u', label: 'I cannot tell', act: () => move({ move: 'cannot-tell', check: check.id }) }];
    if (app.consultation.session.stuck()) {
      cannot.push({
        key: 'c',
        label: 'Hand it over to somebody who can look',
        act: () => app.go(flow.at(app.state, 'stop'))
      });
    }
    return {
      above: presslore.page.parts.strip(app),
      kind: `${kind ? `${kind} · ` : ''}${speech.taking(check)}${spent(app, check)}${from(check)} · ${speech.questionsAfter(app.consultation)}`,
      title: check.asks,
      keys,
      back: true,
      why: () => whyCheck(app, check),
      beliefs: true,
      body: [
        afresh(app),
        again ? line(again, 'lead') : null,
        right ? line(right) : null,
        presslore.page.parts.cautions(app, ids),
        presslore.page.parts.choices(keys, answers, cannot),
        presslore.page.parts.inFull(app, ids),
        presslore.page.figures.form(app, check, ids)
      ]
    };
  }

  /**
   * After fixes in vain: that what was seen may be something else, and where it is put right.
   * @param {App} app
   */
  function afresh(app) {
    const words = presslore.speech.lookAfresh(app.consultation);
    return words
      ? line(`${words} What it has not, and what it has instead: “All that is known”, above.`, 'lead')
      : null;
  }

  /**
   * Whose a step is, where it did not ship, as the tail of a line.
   * @param {Work} step
   */
  function from(step) {
    const whose = presslore.speech.whose(step);
    return whose ? ` · ${whose}` : '';
  }

  /** @param {App} app @param {Work} step */
  function spent(app, step) {
    return presslore.page.parts.spent(step.spends, app.knowledge.currency);
  }

  /** @param {App} app @param {Check} check */
  function whyCheck(app, check) {
    return [
      line(presslore.speech.whyCheck(app.consultation, check.id)),
      ...app.doing.check(app, check.id),
      make('p', { class: 'hint' }, presslore.page.parts.link(app, 'checks', check.id, 'More on this check'))
    ];
  }

  /** @param {App} app @param {Fix} fix */
  function fixView(app, fix) {
    /** @type {Keys} */
    const keys = {};
    const talk = app.consultation;
    const { ids, read } = warnings(talk, fix);
    const testMinutes = talk.item ? talk.item.testMinutes : 5;
    const move = (/** @type {Made} */ said) => app.go(flow.moved(app.state, said, read));
    const results = [
      { label: 'The fault is gone: good print', act: () => move({ move: 'cured', fix: fix.id }) },
      { label: 'Better, but not right yet', act: () => app.go(flow.askWhatIsLeft(app.state, fix.id, read)) },
      { label: 'No change', act: () => move({ move: 'tried', fix: fix.id, change: 'same' }) },
      { label: 'Something else shows now', act: () => app.go(flow.lookAgain(app.state, fix.id)) }
    ];
    const cannot = {
      key: 'u',
      label: 'I cannot do this',
      act: () => move({ move: 'cannot-do', fix: fix.id })
    };
    return {
      above: presslore.page.parts.strip(app),
      kind: presslore.speech.fixTaking(fix, testMinutes, `${spent(app, fix)}${from(fix)}`),
      title: fix.title,
      keys,
      back: true,
      why: () => whyFix(app, fix),
      beliefs: true,
      body: [
        afresh(app),
        presslore.page.parts.cautions(app, ids),
        ...app.doing.fix(app, fix.id, (steps) => [
          ...presslore.speech.stepsOf(talk, fix, steps),
          'Press one test piece, and look.'
        ]),
        line(presslore.speech.whyFix(talk, fix.id), 'reason'),
        presslore.page.parts.inFull(app, read),
        presslore.page.parts.afterwards(app),
        presslore.page.figures.form(app, null, read)
      ],
      foot: [make('h3', {}, 'How is the test piece?'), presslore.page.parts.choices(keys, results, [cannot])]
    };
  }

  /**
   * The cautions of a fix: all `ids`, and those that are `read` whole.
   * @param {Consultation} talk @param {Fix} fix
   */
  function warnings(talk, fix) {
    const ids = presslore.telling.cautions(talk, fix);
    const brief = presslore.telling.inBrief(fix, ids);
    return { ids, read: ids.filter((id) => !brief.includes(id)) };
  }

  /** @param {App} app @param {Fix} fix */
  function whyFix(app, fix) {
    const causes = presslore.known(app.consultation.net.cures, fix.id);
    const aimed = app.consultation.suspects.filter((suspect) => causes.has(suspect.index));
    const links = aimed.map((suspect) =>
      presslore.page.parts.link(app, 'causes', suspect.cause, presslore.speech.titled(app.consultation, suspect.cause))
    );
    return [
      links.length ? line('Of what may be behind this, it puts right:') : null,
      links.length ? list('ul', links) : null,
      make('p', { class: 'hint' }, presslore.page.parts.link(app, 'fixes', fix.id, 'More on this fix'))
    ];
  }

  presslore.page.steps = { stepView };
})();
