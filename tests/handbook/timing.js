// How long the page's engine takes from an answer to the next question.
// node tests/handbook/timing.js engine.js knowledge.js vocabulary.js
'use strict';

const fs = require('fs');
const vm = require('vm');

const load = process.hrtime.bigint();
process.argv.slice(2).forEach((file) => vm.runInThisContext(fs.readFileSync(file, 'utf8'), { filename: file }));
const presslore = vm.runInThisContext('presslore');
const known = presslore.unpack(presslore.knowledge);
console.log(`loading and unpacking: ${milliseconds(load).toFixed(1)} ms`);

function milliseconds(since) {
  return Number(process.hrtime.bigint() - since) / 1e6;
}

let state = 12345;
/** A whole number below `below`, the same ones every time. */
function draw(below) {
  state = (state * 1103515245 + 12345) % 2147483648;
  return Math.floor((state / 2147483648) * below);
}

function pick(values) {
  return values[draw(values.length)];
}

const took = { 'next step': [], 'causes, reasons and turns': [] };
for (let session = 0; session < 40; session++) {
  const defects = Array.from(known.defects.keys());
  const seen = Array.from(new Set([pick(defects), pick(defects), pick(defects)].slice(0, 1 + draw(3))));
  let now = new presslore.Consultation(known, new presslore.session.Session([{ move: 'saw', defects: seen }]));
  now = now.then(now.session.make({ move: 'pressed', item: pick(Array.from(known.items.keys())) }));
  for (let step = 0; step < 12; step++) {
    const start = process.hrtime.bigint();
    const advice = now.advice;
    presslore.speech.whyStep(now);
    took['next step'].push(milliseconds(start));
    const more = process.hrtime.bigint();
    presslore.speech.told(now, 5);
    presslore.speech.whatWouldChange(now);
    took['causes, reasons and turns'].push(milliseconds(more));
    if (advice.kind === 'call') break;
    now = now.then(now.session.make(reply(advice)));
  }
}

function reply(advice) {
  if (advice.kind === 'fix') return { move: 'tried', fix: advice.id, change: pick(['better', 'same', '']) };
  if (draw(6) === 0) return { move: 'cannot-tell', check: advice.id };
  return { move: 'answered', check: advice.id, outcome: pick(known.checks.get(advice.id).outcomes).id };
}

if (presslore.vocabulary) {
  const start = process.hrtime.bigint();
  const lexicon = new presslore.words.Lexicon(known, presslore.vocabulary);
  console.log(`making the lexicon ready: ${milliseconds(start).toFixed(1)} ms`);
  took['reading free words'] = [];
  const names = Array.from(lexicon.names.keys());
  for (let text = 0; text < 60; text++) {
    const said = `${pick(names)}, ${pick(names)} on a ${pick(Array.from(known.items.values())).title} but no ${pick(names)}`;
    const since = process.hrtime.bigint();
    presslore.words.hear(lexicon, said);
    took['reading free words'].push(milliseconds(since));
  }
}

Object.keys(took).forEach((name) => {
  const sorted = took[name].slice().sort((one, other) => one - other);
  const at = (share) => sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))].toFixed(1);
  console.log(`${name}: first ${took[name][0].toFixed(1)}, median ${at(0.5)}, 95 % ${at(0.95)}, worst ${at(1)} ms`);
});
