// How much of the page's engine was gone through: asks of it once more what the tests asked, and watches.
// cover.js FOLDER FLOOR FILE...: the folder with what was asked, the least share of blocks in per cent, and the engine's
// scripts in their order. A block is a stretch of code that runs as one: a function, a branch, what follows a return.

const fs = require('node:fs');
const inspector = require('node:inspector');
const path = require('node:path');
const { pathToFileURL } = require('node:url');
const vm = require('node:vm');

const [folder, floor, ...files] = process.argv.slice(2);
const HEAD = 'var presslore = presslore || {};'; // how each of the engine's scripts begins

/** Ask of an engine in a world of its own all that one file holds. */
function ask(file) {
  const world = vm.createContext({});
  const lines = fs.readFileSync(file, 'utf8').split('\n').filter(Boolean).map(JSON.parse);
  for (const asked of lines) {
    try {
      if (isEngine(asked)) begin(asked, world);
      else vm.runInContext(asked, world);
    } catch (_) {
      // refused, as it was in the test
    }
  }
}

function isEngine(asked) {
  return asked.startsWith(HEAD) && asked.includes('presslore.numbers = {');
}

/** The engine from its own files, so that places are told right; what stands before it in the page goes first. */
function begin(text, world) {
  vm.runInContext(text.slice(0, Math.max(0, text.indexOf(HEAD, 1))), world);
  for (const each of files) new vm.Script(fs.readFileSync(each, 'utf8'), { filename: each }).runInContext(world);
}

/** The blocks of each script with how often they ran in all worlds together: V8 leaves out those that ran as often as
 * what is round them, so each world is asked of every block that shows in any. */
function blocks(found) {
  const all = new Map(files.map((file) => [file, new Map()]));
  for (const file of files) {
    const worlds = found.filter((one) => one.url === pathToFileURL(file).href).map((one) => one.functions.flatMap((each) => each.ranges));
    const own = all.get(file);
    const text = fs.readFileSync(file, 'utf8');
    for (const { startOffset, endOffset } of worlds.flat()) {
      const key = `${startOffset} ${endOffset}`;
      if (own.has(key) || text.slice(startOffset, endOffset).trim() === '|| {}') continue; // each script's first line
      own.set(key, worlds.reduce((sum, ranges) => sum + ran(ranges, startOffset, endOffset), 0));
    }
  }
  return all;
}

/** How often a stretch ran in one world: as often as the smallest of the ranges that hold it. */
function ran(ranges, from, to) {
  const round = ranges.filter((one) => one.startOffset <= from && to <= one.endOffset);
  return round.reduce((best, one) => (one.endOffset - one.startOffset <= best.endOffset - best.startOffset ? one : best)).count;
}

/** A line for each block that nobody went through: its place and how it starts. */
function missed(file, own) {
  const text = fs.readFileSync(file, 'utf8');
  return [...own].flatMap(([key, count]) => {
    const [from, to] = key.split(' ').map(Number);
    if (count) return [];
    const line = text.slice(0, from).split('\n').length;
    return [`  ${path.relative(process.cwd(), file)}:${line}: ${text.slice(from, to).trim().split('\n')[0].slice(0, 80)}`];
  });
}

const session = new inspector.Session();
session.connect();
session.post('Profiler.enable');
session.post('Profiler.startPreciseCoverage', { callCount: true, detailed: true });
const asked = fs.readdirSync(folder).filter((name) => name.startsWith('asked-'));
for (const name of asked) ask(path.join(folder, name));
session.post('Profiler.takePreciseCoverage', (error, taken) => {
  if (error) throw error;
  let whole = 0;
  const lacking = [];
  for (const [file, own] of blocks(taken.result)) {
    whole += own.size;
    lacking.push(...missed(file, own));
  }
  const share = whole ? (100 * (whole - lacking.length)) / whole : 0;
  console.log(lacking.join('\n'));
  console.log(`The page's engine: ${share.toFixed(1)} % of ${whole} blocks, asked by ${asked.length} files of calls`);
  process.exitCode = share < Number(floor) ? 1 : 0;
  if (process.exitCode) console.log(`Coverage failure: less than ${floor} %`);
});
