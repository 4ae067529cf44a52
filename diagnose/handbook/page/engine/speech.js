// The words for what is known: plain sentences from values, the same as on the command line.
var presslore = presslore || {};

(function () {
  'use strict';

  const { SIDES, WORKING_DAY } = presslore.shared.speech;
  const { known, numbers, say, telling } = presslore;

  // --- chances, minutes and money ---

  /**
   * A probability as a whole per cent; never 0 % or 100 % for what is neither.
   * @type {Speech['percent']}
   */
  function percent(probability) {
    if (probability > 0 && probability < 0.005) return say('percent-under-one', {});
    if (probability >= 0.995 && probability < 1) return say('percent-over-ninety-nine', {});
    return say('percent', { percent: probability * 100 });
  }

  /**
   * The word of the scale that lies nearest in log odds, with the number.
   * @type {Speech['inWords']}
   */
  function inWords(probability, scale) {
    const graded = scale.filter((word) => word.value > 0 && word.value < 1);
    const nearest = numbers.least(graded, (word) => [Math.abs(odds(word.value) - odds(probability)), word.word]);
    return nearest ? say('chance', { word: nearest.word, percent: percent(probability) }) : percent(probability);
  }

  /** @param {number} probability */
  function odds(probability) {
    const p = Math.min(1 - 1e-9, Math.max(1e-9, probability));
    return Math.log(p / (1 - p));
  }

  /**
   * What a weight of evidence in decibans does.
   * @type {Speech['side']}
   */
  function side(weight) {
    const strength = (SIDES.find((one) => Math.abs(weight) >= one[0]) || SIDES[SIDES.length - 1])[1];
    return weight >= 0 ? say('weight-for', { strength }) : say('weight-against', { strength });
  }

  /**
   * A time a person would say.
   * @type {Speech['minutes']}
   */
  function minutes(value) {
    if (value < 0.75) return say('half-a-minute', {});
    const whole = numbers.rounded(value, 0);
    return say('time', { hours: Math.floor(whole / 60), minutes: whole % 60 });
  }

  /**
   * A time of waiting, given in minutes of working days.
   * @param {number} time
   */
  function wait(time) {
    const days = time >= WORKING_DAY ? numbers.rounded(time / WORKING_DAY, 0) : 0;
    const whole = numbers.rounded(time, 0);
    return say('wait', { days, hours: Math.floor(whole / 60), minutes: whole % 60 });
  }

  /**
   * The time a check or a fix takes, and what it waits for.
   * @type {Speech['taking']}
   */
  function taking(step) {
    const { time, what } = step.waits;
    const own = minutes(step.minutes);
    return time ? say('time-and-wait', { minutes: own, wait: wait(time), what }) : own;
  }

  /**
   * What a fix takes with the test press that ends it; `spent`: what it uses up, as the tail of the line.
   * @type {Speech['fixTaking']}
   */
  function fixTaking(fix, testMinutes, spent) {
    const { time, what } = fix.waits;
    const whole = minutes(fix.minutes + testMinutes);
    if (!time) return say('fix-with-its-test-press', { minutes: whole, spent });
    return say('fix-with-its-wait', { minutes: whole, wait: wait(time), what, spent });
  }

  /**
   * An amount in the shop's currency, or a plain figure where it names none.
   * @type {Speech['money']}
   */
  function money(value, currency) {
    return say('money', { currency, amount: value }).trim();
  }

  // --- what was seen, answered and tried ---

  /**
   * One finding as a short sentence without a full stop.
   * @type {Speech['sentence']}
   */
  function sentence(finding, consultation, cause) {
    const knowledge = consultation.knowledge;
    if (finding.kind === 'reading') return measured(finding.id, consultation, cause);
    if (finding.kind === 'seen') return say('seen', { defect: known(knowledge.defects, finding.id).title });
    if (finding.kind === 'not-seen') return say('not-seen', { defect: known(knowledge.defects, finding.id).title });
    if (finding.kind === 'named') return say('you-named', { cause: known(knowledge.causes, finding.id).title });
    if (finding.kind === 'lately') {
      const found = consultation.session.foundLately().find((each) => each.cause === finding.id);
      const cause = known(knowledge.causes, finding.id).title;
      return say('found-lately', { day: day(found ? found.on : ''), cause });
    }
    if (finding.kind === 'then') return thenAndNow(consultation, finding.id);
    if (finding.kind === 'press') return say('this-press', { known: finding.detail });
    if (finding.kind === 'tried') {
      return say('tried', { fix: marked(known(knowledge.fixes, finding.id)), change: finding.detail });
    }
    const check = known(knowledge.checks, finding.id);
    return say('answered', { check: marked(check), looks: looksOf(check, finding.detail) });
  }

  /** @param {Check} check @param {string} id */
  function looksOf(check, id) {
    const outcome = presslore.outcomeOf(check, id);
    if (!outcome) throw new RangeError(`no such outcome: ${check.id} ${id}`);
    return outcome.looks;
  }

  /**
   * What a figure comes to, in the shop's units, and where a cause is asked of: how it speaks of it.
   * @param {string} measure @param {Consultation} consultation @param {number} [cause]
   */
  function measured(measure, consultation, cause) {
    const reading = consultation.readings.find((one) => one.measure.id === measure);
    if (!reading) throw new RangeError(`not measured: ${measure}`);
    const what = presslore.wording.told(reading, consultation.knowledge.unit);
    const ratio = cause === undefined ? undefined : reading.ratios.get(cause);
    if (cause === undefined || ratio === undefined) return what;
    return say('reading-speaks', { reading: what, speaks: presslore.wording.weighed(reading, ratio, cause) });
  }

  /**
   * A day written `2026-11-12` as a person says it; as it stands where it is none.
   * @param {string} on
   */
  function day(on) {
    const found = /^(\d+)-(\d\d)-(\d+)$/.exec(on);
    return found ? say('day', { day: Number(found[3]), month: found[2], year: found[1] }) : on;
  }

  /**
   * One thing of the last good piece held against this one, without a full stop.
   * @param {Consultation} consultation @param {string} kind
   */
  function thenAndNow(consultation, kind) {
    const each = consultation.thenAndNow.find((one) => one.kind === kind);
    const good = consultation.session.lastGood();
    if (!each || !good) throw new RangeError(`not told of then: ${kind}`);
    const on = day(good.on);
    if (each.way === 'alike') return say('then-alike', { kind, day: on });
    const { was, now } = both(consultation, each);
    return say('then-differs', { kind, day: on, was, now });
  }

  /**
   * What was so then and what is so now, as they are told.
   * @param {Consultation} consultation @param {Then} each
   */
  function both(consultation, each) {
    const told = (/** @type {string | number} */ value) =>
      typeof value === 'number' ? presslore.wording.amount(each.kind, value, consultation.knowledge.unit) : value;
    return { was: told(each.was), now: told(each.now) };
  }

  /**
   * The last good piece and what differs from it now, without a full stop; '' where the shop knows of none.
   * @type {Speech['recalled']}
   */
  function recalled(consultation) {
    const good = consultation.session.lastGood();
    if (!good) return '';
    const held = consultation.thenAndNow;
    const last = lastGood(consultation, good);
    const other = held.filter((each) => each.way !== 'alike');
    if (!other.length) return held.length ? say('nothing-differs', { last }) : last;
    const what = other.map((each) => {
      const { was, now } = both(consultation, each);
      return say('then-what', { kind: each.kind, was, now });
    });
    return say('now-differs', { last, what: what.join(', ') });
  }

  /** @param {Consultation} consultation @param {LastGood} good */
  function lastGood(consultation, good) {
    const { unit } = consultation.knowledge;
    const what = [
      ...Object.keys(good.figures).map((name) => presslore.wording.amount(name, good.figures[name], unit)),
      ...Object.keys(good.used).map((kind) => say('goods-used', { kind, words: good.used[kind] }))
    ].join(', ');
    return what ? say('last-good', { day: day(good.on), what }) : say('last-good-bare', { day: day(good.on) });
  }

  /**
   * The titles of defects, joined for one line.
   * @type {Speech['seen']}
   */
  function seen(defects, knowledge) {
    return defects.map((defect) => known(knowledge.defects, defect).title).join(' · ');
  }

  /**
   * The title of a check or fix; of one on trial also whose it is.
   * @type {Speech['marked']}
   */
  function marked(step) {
    return step.trial ? say('step-on-trial', { title: step.title, origin: step.origin }) : step.title;
  }

  /**
   * Where a check or fix comes from, with the mark where it is on trial; '' where it shipped.
   * @type {Speech['whose']}
   */
  function whose(step) {
    return step.trial ? say('origin-on-trial', { origin: step.origin }) : step.origin;
  }

  // --- what is believed and why ---

  /**
   * The title of a cause, marked where what is believed of it rests on a rule that is on trial.
   * @type {Speech['titled']}
   */
  function titled(consultation, id) {
    const title = known(consultation.knowledge.causes, id).title;
    return telling.rests(consultation, id) ? say('title-on-trial', { title }) : title;
  }

  /**
   * The likeliest causes that come up, with their reasons: {title, chance, reasons, origin}.
   * @type {Speech['told']}
   */
  function told(consultation, most) {
    const knowledge = consultation.knowledge;
    return consultation.suspects.slice(0, most).map((suspect) => ({
      title: titled(consultation, suspect.cause),
      chance: inWords(suspect.behind, knowledge.scale),
      reasons: telling.weighty(consultation, suspect).map((reason) =>
        say('reason', {
          finding: sentence(reason.finding, consultation, suspect.index),
          weight: side(reason.weight)
        })
      ),
      origin: known(knowledge.causes, suspect.cause).origin
    }));
  }

  /**
   * Answers that would put another cause first.
   * @type {Speech['whatWouldChange']}
   */
  function whatWouldChange(consultation, most) {
    return consultation.turns.slice(0, most === undefined ? 3 : most).map((turn) => {
      const check = known(consultation.knowledge.checks, turn.check);
      return say('would-put-first', {
        check: marked(check),
        looks: looksOf(check, turn.outcome),
        cause: titled(consultation, consultation.net.causes[turn.leads]),
        percent: percent(turn.probability)
      });
    });
  }

  /**
   * A warning where the numbers are bounded and not exact, else ''.
   * @type {Speech['caveat']}
   */
  function caveat(consultation) {
    return consultation.beliefs.exact ? '' : say('not-exact', {});
  }

  // --- how a step is done ---

  /**
   * What is done, of the `steps` of a fix: where a figure says what to set, that in place of reading it again.
   * @type {Speech['stepsOf']}
   */
  function stepsOf(consultation, fix, steps) {
    const right = presslore.measures.setRight(fix, consultation);
    if (!right) return steps;
    const said = presslore.wording.put(right, consultation.knowledge.unit, consultation.item);
    return [said, steps[steps.length - 1]];
  }

  /**
   * The item's window, where the answer to a check is a figure that lies within it or not; else ''.
   * @type {Speech['window']}
   */
  function window(consultation, id) {
    const measure = telling.windowed(consultation, id);
    const { item, knowledge } = consultation;
    if (!measure || !item) return '';
    const window = presslore.wording.windowOf(measure, item, knowledge.unit);
    return say('window-of-item', { item: item.title, window });
  }

  // --- why the next step is the next step ---

  /**
   * What speaks for the step advised now.
   * @type {Speech['whyStep']}
   */
  function whyStep(consultation) {
    const advice = consultation.advice;
    if (advice.kind === 'check') return whyCheck(consultation, advice.id);
    if (advice.kind === 'fix') return whyFix(consultation, advice.id);
    return advice.options.some((option) => option.step) ? say('help-costs-less', {}) : say('nothing-left', {});
  }

  /**
   * Which of the causes that come up this check speaks of, and what asking it first saves.
   * @type {Speech['whyCheck']}
   */
  function whyCheck(consultation, id) {
    if (known(consultation.knowledge.checks, id).asksFor.length) return say('tells-what-fits', {});
    const titles = telling.spokenOf(consultation, id).map((suspect) => titled(consultation, suspect.cause));
    const tells = titles.length ? say('tells-whether', { causes: titles.join('; ') }) : say('narrows-down', {});
    const saved = saves(...telling.spared(consultation, id));
    return saved ? `${tells} ${saved}` : tells;
  }

  /**
   * What asking first saves, in minutes; '' where it saves next to nothing.
   * @param {number} work @param {number} waiting
   */
  function saves(work, waiting) {
    if (work && waiting) return say('asking-saves-both', { minutes: minutes(work), wait: wait(waiting) });
    if (waiting) return say('asking-saves-waiting', { wait: wait(waiting) });
    return work ? say('asking-saves', { minutes: minutes(work) }) : '';
  }

  /**
   * What this fix puts right: the causes it pays for most, each with how likely it is and how surely it is cured.
   * @type {Speech['whyFix']}
   */
  function whyFix(consultation, id) {
    const cures = known(consultation.net.cures, id);
    const aimed = telling.aimedAt(consultation, id).map((suspect) =>
      say('cure', {
        cause: titled(consultation, suspect.cause),
        likely: percent(suspect.behind),
        cured: percent(known(cures, suspect.index))
      })
    );
    return aimed.length ? say('puts-right', { causes: aimed.join('; ') }) : say('cheapest-left', {});
  }

  // --- the case so far, to paste into a message ---

  /**
   * Item, facts, what was seen, answered and tried, and what is believed; one line each.
   * @type {Speech['summary']}
   */
  function summary(consultation) {
    const { item, press, job } = consultation;
    const lines = [item ? say('item', { item: item.title }) : say('item-not-named', {})];
    if (press) {
      const found = press.known.map((each) => each.told).join('; ');
      lines.push(
        found ? say('press-known', { press: press.title, known: found }) : say('press', { press: press.title })
      );
    }
    const last = recalled(consultation);
    if (last) lines.push(`${last}.`);
    const facts = Array.from(job.keys()).filter((fact) => fact !== presslore.session.PRESS_NAME);
    const [usual, sure] = parted(facts.sort(numbers.byText), (fact) => typeof job.get(fact) === 'object');
    const asked = presslore.conditions.factsAsked(consultation.read.map((each) => each.facts));
    const unchecked = usual.filter((fact) => !asked.includes(fact));
    /** @param {string[]} some */
    const told = (some) => some.map((fact) => factWords(consultation, fact)).join('; ');
    if (sure.length) lines.push(say('facts-known', { facts: told(sure) }));
    if (unchecked.length) lines.push(say('facts-usual', { facts: told(unchecked) }));
    presslore.reasons.findings(consultation.evidence).forEach((one) => {
      lines.push(`- ${sentence(one.finding, consultation)}`);
    });
    return lines.concat(couldNot(consultation), believed(consultation), ending(consultation));
  }

  /**
   * What nobody could check or do: whoever takes over begins there.
   * @param {Consultation} consultation
   */
  function couldNot({ knowledge, session }) {
    const aside = new Set(session.moves.flatMap((move) => (move.move === 'cannot-do' ? [move.fix] : [])));
    return [
      ...session
        .untold()
        .map((check) => `- ${say('could-not-tell', { check: marked(known(knowledge.checks, check)) })}`),
      ...Array.from(aside)
        .sort(numbers.byText)
        .map((fix) => `- ${say('could-not-do', { fix: marked(known(knowledge.fixes, fix)) })}`)
    ];
  }

  /**
   * What passes a test, and what does not.
   * @param {string[]} all @param {(one: string) => boolean} test
   */
  function parted(all, test) {
    return [all.filter(test), all.filter((one) => !test(one))];
  }

  /**
   * A fact of the job with its value, or its usual one.
   * @type {Speech['factWords']}
   */
  function factWords(consultation, id) {
    const fact = consultation.knowledge.facts.get(id);
    const value = known(consultation.job, id);
    const words = valueWords(typeof value === 'object' ? value.shares[0][0] : value, fact ? fact.unit : '');
    return say('fact', { title: fact ? fact.title : id, value: words });
  }

  /**
   * The value of a fact: `yes`, `clamshell`, `65 %`.
   * @type {Speech['valueWords']}
   */
  function valueWords(value, unit) {
    if (typeof value === 'boolean') return say('yes-or-no', { answer: value ? 'yes' : 'no' });
    if (typeof value === 'string') return value;
    const written = say('general-number', { value });
    return unit ? say('of-unit', { value: written, unit }) : written;
  }

  /** @param {Consultation} consultation */
  function cured(consultation) {
    const ended = consultation.session.over();
    return ended && ended.move === 'cured' ? ended : null;
  }

  /** @param {Consultation} consultation */
  function believed(consultation) {
    if (cured(consultation) || !consultation.suspects.length) return [];
    return [say('may-be-behind', {})].concat(
      consultation.suspects.slice(0, 5).map((suspect) => {
        const chance = inWords(suspect.behind, consultation.knowledge.scale);
        return `- ${say('suspect', { cause: titled(consultation, suspect.cause), chance })}`;
      })
    );
  }

  /** @param {Consultation} consultation */
  function ending(consultation) {
    const ended = cured(consultation);
    if (!ended) return [];
    const fix = consultation.knowledge.fixes.get(ended.fix);
    return [fix ? say('cured-by', { fix: marked(fix) }) : say('cured', {})];
  }

  // --- what comes after the answer ---

  /**
   * At most three lines: the best way with the spoiled piece, the other ways, and whether to go on with the order.
   * @type {Speech['afterwards']}
   */
  function afterwards(now) {
    if (!now.evidence.seen.length) return [];
    const piece = presslore.aftermath.spoiledPiece(now);
    const rest = presslore.aftermath.restOfOrder(now);
    return [...(piece ? pieceWords(now, piece) : []), ...(rest ? [restWords(now, rest)] : [])];
  }

  /** @param {Consultation} now @param {SpoiledPiece} piece */
  function pieceWords({ knowledge }, piece) {
    const [best, ...others] = piece.ways;
    const discarded = (/** @type {ChosenWay} */ each) => each.way === presslore.shared.aftermath.DISCARD;
    const first = discarded(best)
      ? say('spoiled-piece-lost', { why: piece.why })
      : say('spoiled-piece', {
          way: best.way,
          says: best.says,
          chance: percent(best.chance),
          worth: money(best.worth, knowledge.currency)
        });
    const rest = others.filter((each) => !discarded(each)).map((each) => otherWay(each, knowledge.currency));
    return [first, say('other-ways', { ways: rest.join('; ') })];
  }

  /** @param {ChosenWay} each @param {string} currency */
  function otherWay({ way, chance, worth }, currency) {
    const comes = !chance ? 'never' : worth > 0 ? 'pays' : 'dear';
    return say('other-way', { way, comes, chance: percent(chance), worth: money(worth, currency) });
  }

  /** @param {Consultation} now @param {RestOfOrder} rest */
  function restWords(now, rest) {
    const { currency } = now.knowledge;
    const chance = percent(rest.chance);
    const piece = money(rest.piece, currency);
    const verdict = rest.verdict.split(' ').pop() || '';
    const go = say('rest-of-order', { verdict, every: rest.every });
    const why = cured(now)
      ? say('next-piece-after-a-cure', { chance, piece })
      : say('next-piece', { chance, piece, right: money(rest.stopping, currency) });
    return `${go} ${why}`;
  }

  /**
   * What stands beside a danger: before whom to call, and how it goes on.
   * @type {Speech['ofDangers']}
   */
  function ofDangers() {
    return { call: say('danger-call', {}), over: say('danger-over', {}) };
  }

  /**
   * About how many questions come after the one that is asked now.
   * @type {Speech['questionsAfter']}
   */
  function questionsAfter(consultation) {
    return say('about-more-questions', { count: telling.afterThis(consultation) });
  }

  /**
   * What is said before a check that was answered already; '' where it is asked for the first time.
   * @type {Speech['lookAgain']}
   */
  function lookAgain(consultation, check) {
    const outcome = presslore.outcomeOf(check, consultation.doubted.get(check.id) || '');
    return outcome ? say('look-again', { looks: outcome.looks }) : '';
  }

  /**
   * What is said after fixes that changed nothing: what was seen may be something else; '' where none is due.
   * @type {Speech['lookAfresh']}
   */
  function lookAfresh(consultation) {
    const left = presslore.evidence.left(consultation.evidence);
    if (!consultation.session.doubtful() || !left.length) return '';
    const titles = left.map((defect) => presslore.known(consultation.knowledge.defects, defect).title);
    return say('look-afresh', { many: consultation.session.inVain(), count: left.length, seen: titles.join(', ') });
  }

  presslore.speech = {
    ofDangers,
    afterwards,
    questionsAfter,
    lookAgain,
    lookAfresh,
    percent,
    inWords,
    side,
    minutes,
    taking,
    fixTaking,
    money,
    sentence,
    stepsOf,
    window,
    seen,
    recalled,
    titled,
    marked,
    whose,
    told,
    whatWouldChange,
    caveat,
    whyStep,
    whyCheck,
    whyFix,
    factWords,
    valueWords,
    summary
  };
})();
