// A small form for figures that were measured, folded away below a step. What is asked for now stands first.
var presslore = presslore || {};
presslore.page = presslore.page || {};

(function () {
  'use strict';

  /** @typedef {{ name: string, label: string, unit: string, beside?: string }} Field */

  const { make, tell } = presslore.page.dom;
  const flow = presslore.page.flow;
  /** In the order shown: name, label, unit ('°' where it is picked), and the figure that gives it a meaning. */
  const LONGEST = 100; // signs; no figure is spelt longer
  /** @type {Field[]} */
  const FIELDS = [
    { name: 'set', label: 'Temperature on the display', unit: '°' },
    { name: 'probe', label: 'What a probe reads on the platen', unit: '°', beside: 'set' },
    { name: 'dwell', label: "Time on the press's clock", unit: 's' },
    { name: 'watch', label: 'Time by a watch, closed to bell', unit: 's', beside: 'dwell' },
    { name: 'sheets', label: 'Sheets between platen and transfer', unit: '' },
    { name: 'strip', label: 'What a strip reads where the print lies', unit: '°', beside: 'set' }
  ];

  /**
   * The form; `check` is the one asked now (null for none), `cautions` are those that stand above.
   * @type {Page['figures']['form']}
   */
  function form(app, check, cautions) {
    const asked = check ? presslore.measures.askedBy(check.id, app.consultation.item, app.knowledge) : '';
    const own = FIELDS.find((field) => field.name === asked);
    const beside = own && own.beside;
    const first = FIELDS.filter((field) => field.name === asked || field.name === beside);
    const unit = make('select', { id: 'pl-unit', 'aria-label': 'Unit of temperature' }, [
      make('option', { value: 'C', selected: app.knowledge.unit === 'C' }, '°C'),
      make('option', { value: 'F', selected: app.knowledge.unit === 'F' }, '°F')
    ]);
    /** @type {Map<Field, HTMLInputElement>} */
    const inputs = new Map();
    const rows = first.concat(FIELDS.filter((field) => first.indexOf(field) < 0)).map((field) => {
      const input = make('input', {
        type: 'text',
        id: `pl-figure-${field.name}`,
        inputmode: 'decimal',
        autocomplete: 'off'
      });
      inputs.set(field, input);
      const words = `${field.label}${field.unit === 's' ? ', seconds' : ''}`;
      return make('p', { class: 'figure' }, [make('label', { for: input.id }, words), input]);
    });
    const trouble = make('p', { class: 'trouble', role: 'alert' });
    /** @param {Event} event */
    function said(event) {
      event.preventDefault();
      if (Array.from(inputs.values()).some((input) => presslore.page.alarm.sounded(app, input.value))) return;
      try {
        const figures = read(inputs, unit.value);
        const answers = check && asked in figures ? check.id : '';
        /** @type {Move} */
        const move = { move: 'measured', figures, check: answers };
        proven(app, figures, move);
        app.go(flow.moved(app.state, move, cautions));
      } catch (error) {
        tell(trouble, /** @type {Error} */ (error).message);
      }
    }
    const label = make('label', { for: 'pl-unit' }, 'Temperatures are in');
    const take = make('button', { type: 'submit', class: 'primary' }, 'Take these figures');
    const all = [make('p', { class: 'figure' }, [label, unit]), ...rows, trouble, take];
    const node = make('form', { on: { submit: said }, novalidate: true }, all);
    const summary = make('summary', {}, asked ? 'Or type the figure' : 'A figure you measured');
    return make('details', { class: 'fold figures' }, [summary, node]);
  }

  /**
   * The figures that were typed, held in °C and seconds. Throws an Error that says what is wrong.
   * @param {Map<Field, HTMLInputElement>} inputs @param {string} unit
   */
  function read(inputs, unit) {
    /** @type {Figures} */
    const figures = {};
    inputs.forEach((input, field) => {
      const text = input.value.replace(/\s+/g, ' ').trim().slice(0, LONGEST).replace(',', '.');
      if (!text) return;
      const value = held(text, field.unit === '°' ? unit : field.unit);
      const whole = field.name !== 'sheets' || Number.isInteger(value);
      if (!whole || !presslore.measures.sensible(field.name, value)) {
        input.focus();
        throw new Error(`${field.label}: “${input.value.trim()}” makes no sense there. ${expected(field, unit)}`);
      }
      figures[field.name] = value;
    });
    if (!Object.keys(figures).length) throw new Error('Type at least one figure.');
    return figures;
  }

  /**
   * A number in °C or seconds, NaN where it is none; a unit typed behind it goes before the one picked.
   * @param {string} text @param {string} picked
   */
  function held(text, picked) {
    const clock = /^(\d+):([0-5]\d)$/.exec(text);
    if (clock) return picked === 's' ? Number(clock[1]) * 60 + Number(clock[2]) : NaN;
    const typed = /^([+-]?(?:\d+(?:\.\d*)?|\.\d+)) ?°? ?([a-z]*)$/i.exec(text);
    if (!typed) return NaN;
    const unit = (typed[2] || picked).toLowerCase();
    /** @type {Record<string, Record<string, number>>} */
    const factors = { s: { s: 1, sec: 1, m: 60, min: 60 }, c: { c: 1, f: 5 / 9 }, f: { c: 1, f: 5 / 9 } };
    const factor = (factors[picked.toLowerCase()] || { '': 1 })[unit];
    return factor === undefined ? NaN : Number(typed[1]) * factor - (unit === 'f' ? 160 / 9 : 0);
  }

  /** @param {Field} field @param {string} unit */
  function expected(field, unit) {
    const window = presslore.known(presslore.measures.WINDOWS, field.name);
    const scaled = (/** @type {number} */ value) =>
      presslore.numbers.general(field.unit === '°' && unit === 'F' ? value * 1.8 + 32 : value);
    const named = field.unit === '°' ? ` °${unit}` : field.unit ? ` ${field.unit}` : '';
    return `Expected a number from ${scaled(window[0])} to ${scaled(window[1])}${named}.`;
  }

  /**
   * Throws an Error where a figure would say nothing.
   * @param {App} app @param {Figures} figures @param {Made} move
   */
  function proven(app, figures, move) {
    const next = app.consultation.then(app.state.session.make(move));
    const used = new Set(next.readings.flatMap((reading) => Object.keys(reading.figures)));
    const idle = FIELDS.find((field) => field.name in figures && !used.has(field.name));
    if (!idle) return;
    const other = FIELDS.find((field) => field.name === idle.beside);
    throw new Error(
      other && !used.has(other.name)
        ? `${idle.label}: that says nothing without the other figure. ${other.label}?`
        : `${idle.label}: that says nothing of ${app.consultation.item ? 'this item' : 'an item that is not named'}.`
    );
  }

  presslore.page.figures = { form };
})();
