// What the page's scripts hand each other: for the checks alone, none of it is in the page. A script says with
// `@type {Engine['believe']}` which of these its function is, so that both sides of every call are checked.

type Value = string | number | boolean;
type Facts = Record<string, Value>;
interface Usual {
  shares: [value: Value, chance: number][]; // the usual value first
}
type ToldFacts = Map<string, Value>;
type Job = Map<string, Value | Usual>;
type Key = readonly (string | number)[]; // what things are put in order by
type Chance = [cause: number, chance: number];
type Span = [first: number, last: number];

/** All but some fields, which may be left out. */
type Lean<Whole, Out extends keyof Whole> = Omit<Whole, Out> & Partial<Pick<Whole, Out>>;

// --- the knowledge, as it is packed and with everything filled in ---

interface Test {
  fact: string;
  values?: Value[];
  least?: number;
  most?: number;
  above?: boolean;
  below?: boolean;
}

interface Rates {
  minute: number;
  waiting: number;
  help: number;
  helpMinutes: number;
  paper: number;
  scrap: number;
  blank: number;
  asking: number;
}

interface Spends {
  paper?: number;
  blank?: number;
  money?: number;
}

interface Fact {
  id: string;
  title: string;
  asks: string;
  unit: string;
  oneOf: string[];
  words: [value: string, said: string[]][];
  yesNo: boolean;
  least?: number;
  most?: number;
}

interface Shape {
  if: Test[];
  turnsUp: number;
}

interface Cause {
  id: string;
  title: string;
  turnsUp: number;
  shapes: Shape[];
  origin: string;
  later: boolean;
}

interface Outcome {
  id: string;
  looks: string;
  said: string[];
  facts: Test[];
  shows: Chance[];
  otherwise: number;
  nextSpoils: number;
}

/** A check that was answered, and what the answer tells of the job. */
interface Read {
  check: string;
  facts: Test[];
}

/** What a step waits for with no hand in it; the time in minutes of working days. */
interface Wait {
  time: number;
  what: string;
}

/** What a check and a fix have in common. */
interface Work {
  id: string;
  title: string;
  minutes: number;
  waits: Wait;
  spends: Spends;
  if: Test[];
  cautions: string[];
  origin: string;
  trial: boolean;
}

interface Check extends Work {
  /** how often its answer is another than what there is */
  wrong: number;
  asks: string;
  presses?: boolean;
  outcomes: Outcome[];
  asksFor: string[];
}

interface Fix extends Work {
  byFigure?: string;
  away?: boolean;
  cures: Chance[];
}

interface Rule {
  cause: number;
  brings: number;
  if: Test[];
  trial: boolean;
}

interface Defect {
  id: string;
  title: string;
  looks: string;
  /** the checks that its name answers */
  tells: string[];
  said: string[];
  otherwise: number;
  rules: Rule[];
}

type LaidLayer = [material: number, thickness: number, asThickAsTheItem?: number];

interface Body {
  layers: LaidLayer[];
  back?: number;
  round?: number;
}

interface PressSettings {
  temperature: number;
  dwell: number;
  pressure: number;
  sheets: number;
  offset: number;
}

interface Item {
  id: string;
  title: string;
  family: string;
  facts: [fact: string, value: Value][];
  job: [fact: string, value: Value | Usual][];
  blankPrice: number;
  testMinutes: number;
  cautions: string[];
  said: string[];
  windows?: [temperature: Span, dwell: Span];
  pressure?: number;
  sheets?: number;
  body?: Body;
  usual?: PressSettings;
}

/** An item that can be laid under the press. */
type PressedItem = Item & Required<Pick<Item, 'windows' | 'body' | 'usual'>>;

interface Platen {
  power: number;
  band: number;
  capacity: number;
}

interface Press {
  materials: [conductivity: number, density: number, heatCapacity: number, regain: number][];
  under: LaidLayer[];
  sheet: LaidLayer;
  cover: LaidLayer;
  platen: Platen;
  wrap: Platen;
}

/** One of the shop's presses, what holds for every job on it, and what was found out about it. */
interface ShopPress {
  id: string;
  title: string;
  facts: [fact: string, value: Value][];
  known: KnownOfPress[];
}

interface KnownOfPress {
  cause: number;
  turnsUp: number;
  told: string;
}

interface Caution {
  id: string;
  title: string;
  text: string;
}

type Band = [there: number, otherwise: number];
type Speaks = [cause: number, way: number, edges: number[], bands: Band[], joint?: number];

/** One thing told of the press: another setting than the usual, or another thickness. */
interface PressChange {
  settings: Partial<PressSettings>;
  thickness?: number;
}

interface Measure {
  id: string;
  error: number;
  settles: string[];
  speaks: Speaks[];
}

type PackedOutcome = Lean<Outcome, 'said' | 'facts' | 'shows' | 'otherwise' | 'nextSpoils'>;
type PackedCheck = Lean<
  Omit<Check, 'outcomes' | 'asksFor'>,
  'waits' | 'spends' | 'if' | 'cautions' | 'origin' | 'trial'
> & {
  outcomes: PackedOutcome[];
};
type PackedDefect = Lean<Omit<Defect, 'rules'>, 'said' | 'otherwise' | 'tells'> & {
  rules?: [cause: number, brings: number, condition?: Test[], trial?: number][];
};

type PackedPress = Lean<Omit<ShopPress, 'known'>, 'facts'> & {
  known?: [cause: number, turnsUp: number, told: string][];
};

/** Why goods are not pressed at all where the facts of a job refute something. */
interface Bar {
  id: string;
  why: string;
  instead: string;
  refuted: Test[];
  if: Test[];
}

interface Packed {
  bars?: Lean<Bar, 'if'>[];
  version: string;
  currency?: string;
  unit?: string;
  rates: Rates;
  scale: [word: string, value: number][];
  facts: Lean<Fact, 'unit' | 'oneOf' | 'words' | 'yesNo'>[];
  causes: Lean<Cause, 'shapes' | 'origin' | 'later'>[];
  checks: PackedCheck[];
  fixes: Lean<Fix, 'origin' | 'trial' | 'waits' | 'spends' | 'if' | 'cures' | 'cautions'>[];
  defects: PackedDefect[];
  items: (Lean<Omit<Item, 'job'>, 'facts' | 'cautions' | 'said'> & {
    mayBe?: [fact: string, others: [value: Value, chance: number][]][];
  })[];
  dangers: Lean<Danger, 'said'>[];
  cautions: Caution[];
  beforePress: string[];
  readings?: Lean<Measure, 'settles'>[];
  press?: Press;
  presses?: PackedPress[];
  salvage?: PackedSalvage[];
  spoilt: number;
}

interface ScaleWord {
  word: string;
  value: number;
}

interface Knowledge {
  bars: Bar[];
  version: string;
  currency: string;
  unit: string;
  rates: Rates;
  scale: ScaleWord[];
  facts: Map<string, Fact>;
  causes: Map<string, Cause>;
  checks: Map<string, Check>;
  fixes: Map<string, Fix>;
  defects: Map<string, Defect>;
  items: Map<string, Item>;
  dangers: Map<string, Danger>;
  cautions: Map<string, Caution>;
  beforePress: string[];
  readings: Measure[];
  press: Press | null;
  presses: Map<string, ShopPress>;
  salvage: Salvage[];
  spoilt: number;
  packed: Packed;
}

// --- beliefs ---

/** Causes by their number; a chance for each level but the quiet one. */
interface Finder {
  id: string;
  leak: number[];
  links: Map<number, number[]>;
  outcomes: string[];
}

/** A check as it is; `told` has it as it is told so many times over, now and then wrongly. */
interface CheckFinder extends Finder {
  wrong: number;
  told: (times: number) => Finder;
}

interface Network {
  causes: string[];
  priors: number[];
  defects: Map<string, Finder>;
  checks: Map<string, CheckFinder>;
  cures: Map<string, Map<number, number>>;
}

interface Answer {
  outcome: string;
  period: number;
  times: number;
}

interface Tried {
  fix: string;
  change: string;
  gone: string[];
}

interface Weighed {
  measure: string;
  /** the cause that was named */
  id?: string;
  cause: number;
  ratio: number;
  period: number;
}

interface Known {
  seen: string[];
  notSeen: string[];
  answers: Map<string, Answer>;
  tried: Tried[];
  named: { cause: string; period: number }[];
  weighed: Weighed[];
}

interface Observed {
  node: Finder;
  level: number;
  period: number;
  until: number;
  lasting: boolean;
  change?: boolean;
}

/** The chance of explaining a finding, and of leaving it as it is. */
interface Pull {
  b: number;
  c: number;
}

interface Loud {
  id: string;
  leak: Pull;
  pulls: Map<number, Pull[]>;
  lasting: boolean;
}

interface Modes {
  deaths: number[];
  weights: number[];
}

interface Given {
  priors: number[];
  absent: number[];
  modes: Modes[];
  touched: number[];
  loud: Loud[];
  logQuiet: number;
  of(cause: number): Modes;
  reweighed(loud: Loud, worth: (pull: Pull) => number): Given;
}

interface Fold {
  loud: Loud;
  causes: number[];
  pulls: Pull[];
  chain: Pull[];
  leak: Pull;
}

interface Swept {
  alive: number[];
  present: number[];
  behind: number[];
  unknown: number;
  logEvidence: number;
  put(cause: number, absent: number, shares: number[], behind: number): void;
}

interface Pulled {
  position: number;
  pull: Pull;
  lasting: boolean;
}

interface PassedMode {
  weight: number;
  spared: number;
  moves: Pulled[];
}

interface Passing {
  kind: 'pass';
  cause: number;
  absent: number;
  modes: PassedMode[];
  lasting: boolean;
  wanted: boolean;
}

type SweepStep = { kind: 'open'; fold: Fold } | { kind: 'close'; position: number } | Passing;

interface Division {
  kept: Loud[];
  leftOut: Loud[];
  aside: Loud[];
}

interface Effort {
  width: number;
  work: number;
}

interface Beliefs {
  alive: number[];
  present: number[];
  behind: number[];
  unknown: number;
  logEvidence: number;
  exact: boolean;
  bounds: Span[];
}

interface Suspect {
  cause: string;
  index: number;
  present: number;
  behind: number;
}

interface Finding {
  kind: string;
  id: string;
  detail: string;
}

interface Reason {
  finding: Finding;
  weight: number;
}

interface Turn {
  check: string;
  outcome: string;
  chance: number;
  leads: number;
  probability: number;
}

// --- the next step ---

interface Action {
  id: string;
  cost: number;
  minutes: number;
  waits: number;
  cures: Chance[]; // by the number of the hypothesis
  likelihoods?: undefined;
}

interface Question {
  id: string;
  cost: number;
  minutes: number;
  waits: number;
  likelihoods: number[][];
  cures?: undefined;
}

type Step = Action | Question;

interface Trouble {
  weights: number[];
  actions: Action[];
  questions: Question[];
  call: number;
  callMinutes: number;
}

interface Spending {
  cost: number;
  minutes: number;
  waits: number;
}

interface Choice extends Spending {
  step: Step | null;
}

interface Desk {
  knowledge: Knowledge;
  item: Item | null;
  closed: Set<string>;
  doubted: Map<string, string>;
}

interface Hypotheses {
  kept: number[];
  weights: number[];
}

interface Advice extends Spending {
  kind: 'check' | 'fix' | 'call';
  id: string;
  questions: number;
  options: Choice[];
}

// --- what comes after the answer ---

interface SalvageWay {
  way: string;
  comesOut: number;
  says: string;
  minutes: number;
}

interface Salvage {
  defects: string[];
  if: Test[];
  why: string;
  ways: SalvageWay[];
}

type PackedSalvage = Lean<Omit<Salvage, 'ways'>, 'if'> & {
  ways: [way: string, comesOut: number, says: string, minutes?: number][];
};

interface ChosenWay {
  way: string;
  chance: number;
  worth: number;
  says: string;
}

interface SpoiledPiece {
  ways: ChosenWay[];
  why: string;
}

interface RestOfOrder {
  verdict: string;
  chance: number;
  every: number;
  going: number;
  caring: number;
  stopping: number;
  piece: number;
}

interface Aftermath {
  spoiledPiece(now: Consultation): SpoiledPiece | null;
  restOfOrder(now: Consultation): RestOfOrder | null;
}

// --- the session ---

type Figures = Record<string, number>;

interface ToldFigures {
  period: number;
  figures: Figures;
}

interface Reading extends ToldFigures {
  measure: Measure;
  value: number;
  ratios: Map<number, number>;
  counts: number;
}

type Move =
  | { move: 'pressed'; item: string; facts: Facts; press: string }
  | { move: 'saw' | 'did-not-see'; defects: string[] }
  | { move: 'answered'; check: string; outcome: string; again: boolean }
  | { move: 'measured'; figures: Figures; check: string }
  | { move: 'named'; cause: string }
  | LastGood
  | FoundLately
  | { move: 'used'; used: Record<string, string> }
  | { move: 'cannot-tell'; check: string }
  | { move: 'tried'; fix: string; change: string; gone: string[] }
  | { move: 'cannot-do'; fix: string }
  | Ended;

type LastGood = { move: 'last-good'; on: string; figures: Figures; used: Record<string, string> };
type FoundLately = { move: 'found-lately'; cause: string; on: string; times: number };

/** What was told of this piece, with the number of fixes tried before. */
type Now = { now: number | string; period: number };

/** One thing as it was at the last good piece and as it is now. */
interface Then {
  kind: string;
  was: number | string;
  now: number | string;
  way: string;
  ratios: Map<number, number>;
  period: number;
}

type Ended = { move: 'cured'; fix: string } | { move: 'handed-over' };

/** A move as it may be made: what it usually holds may be left out. */
type Made =
  | Move
  | { move: 'answered'; check: string; outcome: string }
  | { move: 'measured'; figures: Figures }
  | { move: 'tried'; fix: string; change?: string; gone?: string[] };

interface Session {
  moves: readonly Move[];
  make(move: Made): Session;
  item(): string;
  press(): string;
  facts(): ToldFacts;
  evidence(): Known;
  closed(): Set<string>;
  lookedAgain(): Set<string>;
  untold(): string[];
  stuck(): boolean;
  inVain(): number;
  doubtful(): boolean;
  figures(): ToldFigures[];
  lastGood(): LastGood | null;
  foundLately(): FoundLately[];
  figuresNow(): Map<string, Now>;
  usedNow(): Map<string, Now>;
  over(): Ended | null;
}

interface Consultation {
  knowledge: Knowledge;
  session: Session;
  then(session: Session): Consultation;
  readonly item: Item | null;
  readonly press: ShopPress | null;
  readonly job: Job;
  readonly read: Read[];
  readonly net: Network;
  readonly evidence: Known;
  readonly readings: Reading[];
  readonly thenAndNow: Then[];
  readonly barred: Bar[];
  readonly settled: Map<string, number>;
  readonly said: Set<string>;
  readonly doubted: Map<string, string>;
  readonly beliefs: Beliefs;
  readonly suspects: Suspect[];
  readonly advice: Advice;
  readonly reasons: Map<number, Reason[]>;
  readonly turns: Turn[];
}

// --- words ---

type Feature = [name: string, surety: number];

interface TypedWord {
  text: string;
  clause: number;
}

interface Unit {
  words: Span;
  clause: number;
  features: Feature[];
  denied: number;
}

interface Group {
  id: string;
  plain: boolean;
  members: string[];
  asWritten: string[];
}

interface Phrase {
  keys: string[];
  group: string;
  asWritten: boolean;
  spans: boolean;
}

interface Groups {
  ofStem: Map<string, string[]>;
  phrases: Map<string, Phrase[]>;
  plain: Set<string>;
  known: Set<string>;
}

interface Speller {
  known: Set<string>;
  knows(word: string): boolean;
  meant(word: string): string[];
  split(word: string): string[];
}

interface Reader {
  groups: Groups;
  name(parts: string[]): Feature[][];
  typed(typed: TypedWord[], speller: Speller): Unit[];
}

interface IndexedName {
  owner: number;
  units: Feature[][];
}

interface NameIndex {
  owners: string[];
  owner: number[];
  rows: number[][];
  totals: number[];
  kinds: string[][];
  kindWeights: number[];
  at(feature: string): [name: number, unit: number, weight: number][];
}

type NamePart = [unit: number, unitOfName: number, surety: number, weight: number];

/** A word as the table knows it; `word` is its place among the words of the text. */
interface TextToken {
  key: string;
  features: string[];
  clause: number;
  word: number;
  mended: boolean;
}

/** What a feature says of every class alike, and beyond that of some, by their numbers. */
interface TableRow {
  alike: number;
  own: Map<number, number>;
}

/** The rows of both layers; `number` is the layer's. */
interface TableRows {
  rows: Map<string, string>;
  step: number;
  number: number;
}

interface Layer {
  classes: string[];
  bias: number[];
  table: TableRows;
  row(feature: string): TableRow;
}

/** What is told by a text: a defect by its id, "check outcome" or "cause ID". */
interface Saying {
  told: string;
  text: string;
}

interface Named {
  told: string;
  name: TextToken[];
}

/** Tokens from first up to (without) last that speak for a class, by its number, and how strongly. */
interface Run {
  told: number;
  gain: number;
  first: number;
  last: number;
}

/** What the tokens of a text say for one class, as in reasoning/words/runs. */
interface Said {
  begin: number[];
  on: number[];
  end: number[];
  begins: number;
  ends: number;
}

/** A run that has come up to (without) the token `last`: what all is worth with it, and where it began. */
interface OpenRun {
  worth: number;
  first: number;
  last: number;
}

/** The token that denies, the first that is denied, and the one after the last. */
type Denial = [place: number, first: number, last: number];

/** By class, by token. */
type WeightsOfClasses = Map<number, Map<number, number>>;

interface Spoken {
  layer: Layer;
  tokens: TextToken[];
  own: WeightsOfClasses;
  paired: WeightsOfClasses;
  denials: Denial[];
  best(told: number, free: boolean[], denied?: boolean): Run | null;
  byLack(told: number, first: number): boolean;
  narrow(denial: Denial, last: number): void;
  ranked(least: number): Run[];
  told(): number[];
  size(place: number): number;
  most(told: number): number;
  said(told: number, free: boolean[], denied?: boolean, others?: Set<number>): Said;
  gain(told: number, first: number, last: number): number;
}

interface ReadText {
  typed: TypedWord[];
  tokens: TextToken[];
  ids: Ids;
}

/** What one layer hears of a text. */
interface TextTold {
  spoken: Spoken;
  runs: Run[];
  denied: Map<string, Run>;
  named: Run[];
}

/** An answer or a cause that the words tell: check and outcome, or cause. */
interface TextTelling {
  told: string[];
  score: number;
  because: string;
}

interface Ids {
  told: string[];
  denied: string[];
  words: Set<number>;
}

interface ToldOutcome {
  check: string;
  outcome: string;
  score: number;
}

interface FoundItem {
  id: string;
  facts: ToldFacts;
  score: number;
  words: Span;
  refused: string;
}

interface Match {
  id: string;
  score: number;
  because: string[];
  near: string[];
}

interface Understood {
  item: FoundItem | null;
  defects: Match[];
  notSeen: string[];
  answers: TextTelling[];
  outcomes: ToldOutcome[];
  causes: TextTelling[];
  elsewhere: string;
  notUnderstood: string[];
}

/** A figure within words, and where they stand. */
interface ToldFigure {
  name: string;
  value: number;
  first: number;
  last: number;
}

/** `words` are those that told it. */
type HeardFigure = [name: string, value: number, words: string];

interface Sights {
  defects: string[];
  notSeen: string[];
  figures: HeardFigure[];
  answers: [check: string, outcome: string][];
  causes: string[];
  item: string;
  facts: [fact: string, value: Value][];
  refused: string;
  elsewhere: string;
  unsure: string[];
  notUnderstood: string[];
}

interface Danger {
  id: string;
  title: string;
  steps: string[];
  call: string;
  never: string[];
  said: string[];
}

interface Vocabulary {
  version: string;
  groups: { id: string; members: string; asWritten?: string; plain?: number }[];
  defects: string[][];
  items: string[][];
  refused: Stuff[];
  elsewhere: { id: string; text: string }[];
  outcomes: string[][];
  heard: Record<string, string[]>;
  table: PlainTable;
}

interface PlainTable {
  features: string;
  rows: string;
  words: string;
  sights: PlainLayer;
  answers: PlainLayer;
  step: number;
}

interface PlainLayer {
  classes: string[];
  bias: number[];
}

interface Stuff {
  id: string;
  said: string[];
  text: string;
}

interface Lexicon {
  knowledge: Knowledge;
  speller: Speller;
  reader: Reader;
  sights: Layer;
  answers: Layer;
  names: Map<string, number>;
  said: Map<string, string[]>;
  outcomeNames: Map<string, string[]>;
  wholeItems: Map<string, string>;
  joinedItems: Map<string, string>;
  stuffs: Map<string, Stuff>;
  stuffStems: Set<string>;
  isItemWord(word: string): boolean;
  refused(word: string): Stuff | undefined;
  whole(text: string): string;
  items(): NameIndex;
  units(text: string): Unit[];
  tokens(typed: TypedWord[], units: Unit[]): TextToken[];
  literalUnits(text: string): Unit[];
}

// --- the engine's parts, as its scripts put them into `presslore` ---

interface Numbers {
  sum(values: readonly number[]): number;
  lesser(one: number, other: number): number;
  greater(one: number, other: number): number;
  byText(one: string, other: string): number;
  sorted<One>(values: readonly One[], key: (value: One) => Key): One[];
  least<One>(values: readonly One[], key: (value: One) => Key): One | undefined;
  fixed(value: number, decimals: number): string;
  rounded(value: number, decimals: number): number;
  general(value: number): string;
}

interface Conditions {
  holds(tests: Test[], job: Job): boolean | null;
  mayHold(tests: Test[], job: Job): boolean;
  factsAsked(conditions: Test[][]): string[];
  worlds(job: Job, facts: string[]): [world: Job, chance: number][];
  learnt(job: Job, told: Test[][]): Job;
}

interface EvidenceParts {
  none(): Known;
  changed(evidence: Known, parts: Partial<Known>): Known;
  left(evidence: Known): string[];
  withAnswer(evidence: Known, told: { check: string; outcome: string; again?: boolean }): Known;
  withNamed(evidence: Known, cause: string): Known;
}

interface Doubt {
  doubted(net: Network, evidence: Known, beliefs: Beliefs): Map<string, string>;
  mistaken(net: Network, evidence: Known, beliefs: Beliefs, check: string): number;
  secondLook(node: CheckFinder, outcome: string, hypotheses: number[], beliefs: Beliefs, count: number): number[][];
}

interface Weights {
  one(): Float64Array;
  open(f: Float64Array, leak: Pull): Float64Array;
  close(f: Float64Array, position: number): Float64Array;
  closeBack(v: Float64Array, position: number): Float64Array;
  forth(f: Float64Array, moves: Pulled[]): Float64Array;
  back(v: Float64Array, moves: Pulled[]): Float64Array;
  scaled(f: Float64Array, by: number): Float64Array;
  add(result: Float64Array, f: Float64Array, by: number): void;
  dot(f: Float64Array, v: Float64Array): number;
  total(f: Float64Array): number;
}

interface Sweep {
  A_FOLD: number;
  effort(given: Given, louds: Loud[]): Effort;
  crowded(louds: Loud[], widest: number): boolean;
  plan(given: Given, louds: Loud[], wanted?: number[]): { steps: SweepStep[]; width: number };
  sweep(given: Given, steps: SweepStep[], wanted?: number[]): Swept;
}

interface Bounds {
  MOST_LOUD: number;
  within(given: Given, widest: number, most: number): Division;
  divided(parts: Division, louds: Loud[]): Division;
  bound(given: Given, parts: Division, wanted?: number[]): { swept: Swept; bounds: Span[] };
}

interface BeliefsParts {
  WIDEST: number;
  division(given: Given, widest: number, most: number, mostBounded: number): Division;
  beliefsBy(given: Given, parts: Division, wanted?: number[]): Beliefs;
}

interface Outlook {
  atWork(beliefs: Beliefs): number;
  firsts(behind: number[], other: number): number[];
  likelihoods(node: Finder, hypotheses: number[], beliefs: Beliefs, count: number): number[][];
  told(rows: number[][], weights: number[]): number;
}

interface Reasons {
  findings(evidence: Known): { finding: Finding; without: Known }[];
  reasons(net: Network, evidence: Known, beliefs: Beliefs, causes: number[]): Map<number, Reason[]>;
  turns(net: Network, evidence: Known, beliefs: Beliefs, checks: string[]): Turn[];
  heaviestFirst(found: Reason[]): Reason[];
  decibans(probability: number): number;
}

interface Heat {
  peak(press: Press, item: PressedItem, settings: PressSettings, thickness?: number): number;
  dose(press: Press, item: PressedItem, settings: PressSettings, thickness?: number): number;
}

interface Measures {
  WINDOWS: Map<string, Span>;
  MOST: number;
  sensible(name: string, value: number): boolean;
  readings(told: ToldFigures[], item: Item | null, knowledge: Knowledge): Reading[];
  setRight(fix: Fix, consultation: Consultation): { reading: Reading; to: number } | null;
  askedBy(check: string, item: Item | null, knowledge: Knowledge): string;
  ratio(value: number, says: Speaks, error: number): number;
}

interface Sessions {
  PRESS_NAME: string;
  Session: new (moves?: readonly Move[]) => Session;
  isFigures(value: unknown): boolean;
  toJson(session: Session, version: string): string;
  fromJson(text: string): Session;
  resume(text: string, knowledge: Knowledge): Session;
}

interface ToldCause {
  title: string;
  chance: string;
  reasons: string[];
  origin: string;
}

interface Slot {
  name: string;
  kind: string;
  style: string;
  forms: Record<string, Message>;
}

type Message = (string | Slot)[];
type Places = Record<string, string | number>;

interface Telling {
  windowed(consultation: Consultation, id: string): string;
  rests(consultation: Consultation, id: string): boolean;
  weighty(consultation: Consultation, suspect: Suspect): Reason[];
  spokenOf(consultation: Consultation, id: string): Suspect[];
  afterThis(consultation: Consultation): number;
  spared(consultation: Consultation, id: string): [work: number, waiting: number];
  aimedAt(consultation: Consultation, id: string): Suspect[];
  cautions(consultation: Pick<Consultation, 'knowledge' | 'item'>, step: Check | Fix): string[];
  inBrief(step: Check | Fix, ids: string[]): string[];
}

interface Speech {
  recalled(consultation: Consultation): string;
  ofDangers(): { call: string; over: string };
  percent(probability: number): string;
  inWords(probability: number, scale: ScaleWord[]): string;
  side(weight: number): string;
  minutes(value: number): string;
  taking(step: Work): string;
  fixTaking(fix: Fix, testMinutes: number, spent: string): string;
  money(value: number, currency: string): string;
  sentence(finding: Finding, consultation: Consultation, cause?: number): string;
  seen(defects: string[], knowledge: Knowledge): string;
  titled(consultation: Consultation, id: string): string;
  marked(step: Work): string;
  whose(step: Work): string;
  told(consultation: Consultation, most?: number): ToldCause[];
  whatWouldChange(consultation: Consultation, most?: number): string[];
  caveat(consultation: Consultation): string;
  whyStep(consultation: Consultation): string;
  whyCheck(consultation: Consultation, id: string): string;
  whyFix(consultation: Consultation, id: string): string;
  afterwards(now: Consultation): string[];
  questionsAfter(consultation: Consultation): string;
  lookAgain(consultation: Consultation, check: Check): string;
  lookAfresh(consultation: Consultation): string;
  stepsOf(consultation: Consultation, fix: Fix, steps: string[]): string[];
  window(consultation: Consultation, id: string): string;
  factWords(consultation: Pick<Consultation, 'knowledge' | 'job'>, id: string): string;
  valueWords(value: Value, unit: string): string;
  summary(consultation: Consultation): string[];
}

interface Words {
  stem(word: string): string;
  withoutPlural(word: string): string;
  BREAKS: Set<string>;
  fold(text: string): string;
  taken(text: string): string;
  isCut(text: string): boolean;
  clauses(text: string): TypedWord[];
  cut(text: string): string[];
  keyOf(parts: string[]): string;
  wholeKey(text: string): string;
  Speller: new (known: Set<string>) => Speller;
  nearest(names: string[], text: string): string;
  allowed(length: number): number;
  distance(one: ArrayLike<string>, other: ArrayLike<string>, most: number): number;
  GROUP: string;
  NOT: string;
  NEGATORS: Set<string>;
  SKIPPED: Set<string>;
  CONTRAST: Set<string>;
  Groups: new (groups: Group[]) => Groups;
  key(word: string): string;
  Reader: new (groups: Groups) => Reader;
  Index: new (owners: string[], names: IndexedName[]) => NameIndex;
  foundNames(index: NameIndex, units: Unit[]): Map<number, NamePart[]>;
  tokens(typed: TypedWord[], units: Unit[], speller: Speller): TextToken[];
  pair(one: TextToken, other: TextToken): string;
  Layer: new (classes: string[], bias: number[], table: TableRows, extra?: Map<string, Map<number, number>>) => Layer;
  table(plain: PlainTable): { sights: Layer; answers: Layer };
  ownTokens(reader: Reader, speller: Speller, text: string): TextToken[];
  saidWherever(named: Named[]): Map<string, string[]>;
  keys(name: TextToken[]): string;
  withOwn(layer: Layer, named: Named[]): Layer;
  Spoken: new (layer: Layer, tokens: TextToken[]) => Spoken;
  divided(spoken: Spoken, first: number, further: number, taken: Set<number>, named: Run[]): Run[];
  runOrder(run: Run): number[];
  denied(spoken: Spoken): Run[];
  onlyThoughtOf(tokens: TextToken[], run: Run): boolean;
  typedIds(known: Map<string, Defect>, text: string, typed: TypedWord[], units: Unit[]): Ids;
  Lexicon: new (knowledge: Knowledge, vocabulary: Vocabulary) => Lexicon;
  answer(lexicon: Lexicon, check: string, text: string): string;
  addSpan(set: Set<number>, span: Span): void;
  OF_SHARES: Set<string>;
  POLY_WORDS: Set<string>;
  polyesterShare(plain: string): number | null;
  materialShare(said: string[]): number | null;
  factsBeside(text: string, said: string[], near: Span, facts: Map<string, Fact>): { facts: ToldFacts; near: Span };
  findItem(lexicon: Lexicon, text: string): FoundItem | null;
  itemAmong(lexicon: Lexicon, text: string): FoundItem | null;
  understand(lexicon: Lexicon, text: string): Understood;
  rankDefects(lexicon: Lexicon, text: string): Match[];
  figuresTold(text: string): ToldFigure[];
  withoutFigures(text: string, found: ToldFigure[]): string;
  hear(lexicon: Lexicon, text: string): Sights;
  dangers(text: string): string[];
  alarm(knowledge: Pick<Knowledge, 'dangers'>, text: string): Danger | null;
}

/** What stands on the command line's side, compiled: see `shared.py`. */
interface Shared {
  conditions: Record<'MOST_WORLDS', number>;
  network: Record<'MOST' | 'LEAST_LEAK', number>;
  factors: Record<'ALIVE' | 'IMPROVES' | 'FANCIED' | 'FADED', number>;
  sweep: Record<'A_SWEEP' | 'A_STEP' | 'A_FOLD', number>;
  bounds: Record<'MOST_LOUD', number>;
  beliefs: Record<'WIDEST' | 'MOST' | 'BOUNDED', number>;
  doubt: { BEYOND_DOUBT: number; DOUBTFUL: number; MOST_DOUBTED: number };
  outlook: Record<'TINY', number>;
  planner: Record<'EPSILON', number>;
  estimate: Record<'LEAST_TOLD', number>;
  planning: Record<
    'HYPOTHESES' | 'COVERED' | 'TWO_FIXES_FOR' | 'QUESTIONS' | 'CANDIDATES' | 'NOT_FREE' | 'FLOOR' | 'LEVEL',
    number
  > &
    Record<'SOFT', string[]>;
  aftermath: Record<'ORDER' | 'LOOK' | 'OFTENER' | 'BRINGS' | 'TINY' | 'DECIMALS' | 'EVEN', number> &
    Record<'EVERIES', number[]> &
    Record<'GO' | 'CARE' | 'STOP' | 'PRESS_AGAIN' | 'PRINT_OVER' | 'SECOND' | 'DISCARD', string> &
    Record<'WAYS', string[]>;
  ranking: Record<'SHOWN' | 'MOST_SHOWN', number>;
  reasons: Record<
    'HEAVIEST' | 'LIGHTEST' | 'SURE' | 'MOST_WEIGHED' | 'MOST_TURNED' | 'MOST_BOUNDED' | 'MOST_LINKED',
    number
  > &
    Record<'NAMED' | 'LATELY' | 'THEN', string>;
  heat: Record<
    | 'USUAL_PRESSURE'
    | 'CONTACT'
    | 'SOFTNESS'
    | 'LEAST_PRESSURE'
    | 'LATENT'
    | 'WATER_HEAT'
    | 'TO_ROOM'
    | 'THIN'
    | 'METAL'
    | 'PAD'
    | 'DEEP'
    | 'EACH'
    | 'MOST_CELLS'
    | 'FINEST'
    | 'GROWTH'
    | 'GAMMA'
    | 'BOILS'
    | 'HALF_WIDTH'
    | 'FIRST'
    | 'STRIDE'
    | 'LAST'
    | 'ROOM'
    | 'CLOSE'
    | 'MOST_TURNS'
    | 'KELVIN'
    | 'STEEPNESS'
    | 'FLAT',
    number
  >;
  measures: Record<'AXES', string[]> &
    Record<'WINDOWS', Record<string, Span>> &
    Record<
      | 'ROUNDING'
      | 'LEAST_QUOTIENT'
      | 'LEAST_MOVE'
      | 'MOST'
      | 'DECIMALS'
      | 'SCALE'
      | 'FAR'
      | 'NEUTRAL'
      | 'LEAST_OFF'
      | 'MOST_OFFSET',
      number
    > &
    Record<'PLATEN' | 'STACK', string> &
    Record<'DOSING', string[]> &
    Record<'OFF', Record<string, number>>;
  session: Record<'FORMAT' | 'PRESS_NAME', string> &
    Record<'VERSION' | 'MANY_UNTOLD' | 'MANY_IN_VAIN' | 'MOST_TIMES', number> &
    Record<'GOODS', Record<string, string>>;
  then: Record<'DIFFERS' | 'DECIMALS', number> &
    Record<'CHECK', string> &
    Record<'GOODS', Record<string, string>> &
    Record<'LESS' | 'MORE' | 'ALIKE', Record<string, string[]>> &
    Record<'APART', Record<string, number>>;
  telling: Record<'REASONS_EACH' | 'FAINTEST' | 'WORTH_NAMING' | 'WORTH_SPARING' | 'WORTH_WAITING' | 'DIGITS', number> &
    Record<'WINDOWED', string[]>;
  speech: Record<'SIDES', [least: number, strength: string][]> & Record<'WORKING_DAY', number>;
  wording: Record<'NEAR' | 'LEVEL', number> &
    Record<'TITLES', Record<string, string>> &
    Record<'OF_HEAT' | 'OF_TIME', string[]>;
  consultation: Record<'TURNING_CHECKS' | 'NAMED_RATIO', number> & Record<'NAMED' | 'LATELY' | 'THEN', string>;
  stems: Record<'IRREGULAR', Record<string, string>> & Record<'ENDINGS', string[]>;
  spelling: Record<'LONGEST_TEXT', number> & Record<'BREAKS', string[]>;
  slips: Record<'SHORTEST' | 'LONG', number>;
  groups: Record<'GROUP' | 'NOT', string> & Record<'NEGATORS' | 'SKIPPED' | 'CONTRAST', string[]>;
  units: Record<'REACH' | 'SAME_GROUP' | 'SLIPPED', number>;
  index: Record<'DIGITS', number>;
  scoring: Record<'MOST_TIMES' | 'LEAST_SHARE', number>;
  exact: Record<'REACH', number>;
  tokens: Record<'ARTICLES' | 'AFTER_ALL', string[]> & Record<'A_FIGURE', string>;
  table: Record<'BETWEEN' | 'DIGITS' | 'WEIGHTS', string>;
  names: Record<'LONGEST' | 'OF_CHANCE' | 'EVERYWHERE' | 'RARE' | 'MOST' | 'OWN_BIAS', number>;
  runs: Record<
    'INSIDE' | 'MENDED' | 'REACH' | 'MOST_BETWEEN' | 'LEADS_ON' | 'LACK_ALONE' | 'ANSWERS' | 'TELLS_BY_LACK',
    number
  > &
    Record<'OR' | 'NOTHING', string> &
    Record<'REST', number[]> &
    Record<'STOPS' | 'DENIERS' | 'RID' | 'STILL_THERE' | 'WEAK', string[]>;
  division: Record<'IDLE' | 'FEW', number>;
  denials: Record<'LEAST' | 'HEAD', number> &
    Record<'OR' | 'ELSEWHERE', string> &
    Record<'FEARS' | 'TELLING' | 'SAYINGS' | 'WEAK', string[]>;
  outcomes: Record<'LEAST' | 'CLEARLY', number>;
  figures: Record<'A_MINUTE' | 'AFTER' | 'ALIKE' | 'BEFORE' | 'HOTTEST' | 'LONGEST' | 'THICKEST' | 'THINNEST', number> &
    Record<'A_NUMBER' | 'COVERS' | 'LEADING' | 'NOW' | 'OF_THE_NEXT' | 'PARTING' | 'THICKNESS' | 'WORD', string> &
    Record<'COUNTING' | 'NONE' | 'READ', string[]> &
    Record<'HEATS' | 'TIMES', [pattern: string, role: string][]> &
    Record<'METRES' | 'NUMBERS', Record<string, number>> &
    Record<'FOLDED', Record<string, string>> &
    Record<'BARE', Span[]> &
    Record<'PRESSED', Span> &
    Record<'SCALES', Record<string, [factor: number, offset: number]>>;
  hearing: Record<'COLOUR' | 'KEPT_IN_THE_TEXT' | 'THE_REST', string>;
  shares: Record<
    | 'POLYESTER'
    | 'COLOUR'
    | 'THICKNESS'
    | 'COATED'
    | 'PAIR'
    | 'OF_POLY'
    | 'OF_COTTON'
    | 'ALL_COTTON'
    | 'ALL_POLY'
    | 'THICK'
    | 'HALVES',
    string
  > &
    Record<'USUAL_BLEND', number> &
    Record<'POLY_WORDS' | 'COTTON_WORDS' | 'MIXED_WORDS' | 'OF_SHARES', string[]>;
  items: Record<'POLYESTER' | 'FAMILY', string> &
    Record<'LEAST_CLOSE' | 'NEARLY' | 'CLOSE' | 'LONGEST_NAME' | 'WHOLE_NAME' | 'LONG_STEM', number> &
    Record<
      'JOINING' | 'OF' | 'LIKE_BEFORE' | 'LIKE_AFTER' | 'COATS' | 'COATED_BY' | 'MATERIAL_STEMS' | 'OF_THE_SHOP',
      string[]
    >;
  understand: Record<
    | 'CERTAIN'
    | 'LEAST_FIRST'
    | 'FURTHER'
    | 'SHARE_OF_FIRST'
    | 'LEAST_ANSWER'
    | 'APART'
    | 'LEAST_CAUSE'
    | 'A_CLAUSE'
    | 'BESIDE_A_NAME'
    | 'A_NAME'
    | 'LONGER_NAME'
    | 'SURELY'
    | 'NEAR'
    | 'MOST_NEAR'
    | 'LEAST_TOKENS'
    | 'LONGEST_ITEM'
    | 'LONGEST'
    | 'MOST_LEFT'
    | 'LEAST_LEFT',
    number
  > &
    Record<'THE_REST', string> &
    Record<'OF_TALK', string[]>;
  dangers: Record<'CLASSES' | 'UNLESS', Record<string, string>> &
    Record<'PATTERNS', Record<string, string[]>> &
    Record<'REWRITTEN', [said: string, written: string][]> &
    Record<
      | 'COMPOUNDS'
      | 'CONDITIONS'
      | 'FRIGHTS'
      | 'PRESENT'
      | 'ARTWORK'
      | 'FIGURATIVE'
      | 'SIGNS'
      | 'SMELLS'
      | 'OWN'
      | 'JOINING'
      | 'VERBS',
      string[]
    > &
    Record<
      | 'DENYING'
      | 'SUPPOSING'
      | 'FEARING'
      | 'SUBJECTS'
      | 'LONG_AGO'
      | 'CONSEQUENCE'
      | 'SINCE_BOUGHT'
      | 'JUST_NOW'
      | 'HEARSAY'
      | 'CORRECTED'
      | 'LEFT'
      | 'SOURCES'
      | 'SCORCHED'
      | 'SLIPPERY'
      | 'REAL'
      | 'LEFT',
      string
    > &
    Record<'LONGEST_GAP', Record<string, number>> &
    Record<'NEAR' | 'FAR' | 'SHORTEST_SLIP', number>;
  say: Record<'WHOLE', number>;
  sentences: Record<string, string>;
}

interface Engine {
  shared: Shared;
  known<Name, One>(map: ReadonlyMap<Name, One>, key: Name): One;
  numbers: Numbers;
  conditions: Conditions;
  unpack(packed: Packed): Knowledge;
  outcomeOf(check: Check, id: string): Outcome | undefined;
  mistakenEach(wrong: number, levels: number, times: number): number;
  network(knowledge: Knowledge, job: Job, known: KnownOfPress[], told: Read[]): Network;
  read(knowledge: Knowledge, job: Job, answers: Map<string, Answer>): Read[];
  evidence: EvidenceParts;
  doubt: Doubt;
  factors(net: Network, evidence: Known): Given;
  logOf(value: number): number;
  folding: {
    fold(given: Given, loud: Loud, causes: number[]): Fold;
    unfold(folded: Fold, given: Given, unexplained: number, explained: number, swept: Swept): void;
  };
  weights: Weights;
  sweep: Sweep;
  bounds: Bounds;
  believe(net: Network, evidence: Known, widest?: number, most?: number, mostBounded?: number): Beliefs;
  beliefs: BeliefsParts;
  outlook: Outlook;
  planner: { options(trouble: Trouble, widest: number, floor: number): Choice[] };
  estimate: { findingOut(trouble: Trouble): Spending; questionsLeft(weights: number[]): number };
  advise(net: Network, beliefs: Beliefs, evidence: Known, desk: Desk): Advice;
  hypotheses(beliefs: Beliefs): Hypotheses;
  prices: { testMinutes(item: Item | null): number };
  aftermath: Aftermath;
  suspects(net: Network, beliefs: Beliefs): Suspect[];
  reasons: Reasons;
  heat: Heat;
  measures: Measures;
  wording: {
    amount(name: string, value: number, unit: string): string;
    told(reading: Reading, unit: string): string;
    put(right: { reading: Reading; to: number }, unit: string, item: Item | null): string;
    windowOf(measure: string, item: Item | null, unit: string): string;
    weighed(reading: Reading, ratio: number, cause: number): string;
    heard(figure: HeardFigure, unit: string): string;
  };
  session: Sessions;
  thenAndNow(session: Session, knowledge: Knowledge): Then[];
  THEN_CHECK: string;
  Consultation: new (knowledge: Knowledge, session: Session, nets?: Map<string, Network>) => Consultation;
  say(sentence: string, places: Places): string;
  telling: Telling;
  speech: Speech;
  words: Words;
}

// --- the page ---

type Child = string | Element | Text | null | undefined;
type Children = Child | Child[];
type Keys = Record<string, () => void>;
type Attribute = string | number | boolean | null | undefined;

interface Settings {
  // biome-ignore lint/suspicious/noExplicitAny: each listener knows its own kind of event
  on?: Record<string, (event: any) => unknown>;
  [attribute: string]: Attribute | Settings['on'];
}

interface State {
  stage: string;
  several: boolean;
  item: { id: string; facts: Facts } | null;
  press: string | null;
  itemWords: string;
  words: string;
  defects: string[];
  notSeen: string[];
  figures: HeardFigure[];
  beside: HeardFigure[];
  answers: [check: string, outcome: string][];
  causes: string[];
  unsure: string[];
  left: string[];
  refusal: string;
  opening: number;
  warned: string[];
  after: string;
  allowed: string[];
  better: boolean;
  session: Session;
}

/** What was understood of what is seen, of which a part can be struck out. */
type Sayings = 'defects' | 'notSeen' | 'figures' | 'answers' | 'causes';

interface View {
  title: string;
  keys: Keys;
  body: Child[];
  above?: Element | null;
  kind?: string;
  back?: boolean;
  wide?: boolean;
  good?: boolean;
  alarm?: boolean;
  beliefs?: boolean;
  why?: () => Child[];
  foot?: Child[];
  handsOver?: boolean;
  done?: HTMLElement;
}

interface CareNote {
  items: string[];
  defects: string[];
  tell?: string;
  href: string;
  title: string;
}

/** What comes after the first paint. */
interface Fetched {
  ready(): boolean;
  wait(ready: (why: Missing | '') => void, not: (why: Missing) => void): void;
}

interface Doing {
  check(app: App, id: string): HTMLElement[];
  fix(app: App, id: string, done: (steps: string[]) => string[]): HTMLElement[];
}

interface Ears extends Fetched {
  names(): string[];
  refusal(id: string): string;
  elsewhere(id: string): string;
  item(text: string): FoundItem | null;
  sights(text: string): Sights;
}

type Missing = 'missing' | 'renewed';

interface App {
  root: HTMLElement;
  knowledge: Knowledge;
  links: Record<string, string>;
  care: CareNote[];
  kinds: Map<string, string>;
  pictures: Map<string, { src: string; alt: string }>;
  ears: Ears;
  doing: Doing;
  keys: Keys;
  state: State;
  consultation: Consultation;
  ahead?: Consultation;
  spoken?: { named: boolean; texts: Map<string, string> };
  voice: HTMLElement;
  stage: HTMLElement;
  notice: HTMLElement;
  heading: HTMLElement;
  go(state: State): void;
  alarm(danger: Danger): void;
  jot(parts: Partial<State>): void;
  startOver(): void;
  thinkAhead(state: State): void;
}

interface Numbered {
  label: string;
  act: (node: HTMLElement) => void;
  pressed?: boolean;
}

interface Lettered extends Numbered {
  key: string;
}

interface FoldOut {
  toggle: HTMLElement;
  panel: HTMLElement;
  flip(): void;
}

interface Asked {
  field: HTMLInputElement | HTMLTextAreaElement;
  hint: string;
  kept: 'itemWords' | 'words';
  // biome-ignore lint/suspicious/noConfusingVoidType: what to say, or nothing where it went on
  without: () => string | void;
  // biome-ignore lint/suspicious/noConfusingVoidType: as above
  take: (words: string) => string | void;
}

interface Dom {
  make<Tag extends keyof HTMLElementTagNameMap>(
    tag: Tag,
    settings?: Settings,
    children?: Children
  ): HTMLElementTagNameMap[Tag];
  button(label: Children, act: () => void, settings?: Settings): HTMLButtonElement;
  line(text: string, look?: string): HTMLElement;
  list(tag: 'ul' | 'ol', entries: Children[], look?: string): HTMLElement;
  tell(element: Element, text: string): void;
  clean(text: string): string;
  firstSentence(text: string): string;
}

/** What words say is seen, as the state holds it. */
type Understanding = Omit<Sights, 'elsewhere' | 'facts' | 'refused'> & { facts: Facts; refusal: string };

interface Flow {
  begin(knowledge: Knowledge): State;
  at(state: State, stage: string): State;
  started(state: State): boolean;
  pressed(state: State, item: State['item'], words?: string, figures?: HeardFigure[]): State;
  onPress(state: State, press: string): State;
  pressedAlone(state: State): Session;
  heard(state: State, words: string, found: Understanding): State;
  picked(state: State, defects: string[]): State;
  struck(state: State, kind: Sayings, place: number): State;
  meant(state: State, id: string): State;
  agreed(state: State): State;
  moved(state: State, move: Made, read?: string[]): State;
  allowed(state: State, bars: Bar[]): State;
  lookAgain(state: State, fix: string): State;
  askWhatIsLeft(state: State, fix: string, read: string[]): State;
  remained(state: State, gone: string[]): State;
  back(state: State): State;
  proven(state: State, knowledge: Knowledge): void;
}

interface Keep {
  keep(state: State, version: string): boolean;
  kept(knowledge: Knowledge): { state: State; at: Date } | null;
  forget(): void;
  keysOn(): boolean;
  switchKeys(on: boolean): void;
}

interface Parts {
  keycap(key: string): HTMLElement;
  choices(keys: Keys, numbered: Numbered[], others?: Lettered[]): HTMLElement;
  cautions(app: App, ids: string[]): HTMLElement | null;
  inFull(app: App, ids: string[]): HTMLElement | null;
  strip(app: App): HTMLElement;
  about(talk: Pick<Consultation, 'item' | 'press'>, more: string[], act: Element): HTMLElement;
  spent(spends: Spends, currency: string): string;
  link(app: App, kind: string, id: string, text: string): Child;
  afterwards(app: App): HTMLElement | null;
}

type Viewer = (app: App) => View;

interface Page {
  app: App;
  dom: Dom;
  flow: Flow;
  keep: Keep;
  parts: Parts;
  fetching(name: 'vocabulary' | 'doing', version: string, address: string, came?: () => void): Fetched;
  ears(knowledge: Knowledge, address: string): Ears;
  doing(knowledge: Knowledge, address: string): Doing;
  later(act: () => void): void;
  alarm: { sounded(app: App, words: string): boolean; view(app: App, danger: Danger): View };
  asking: { form(app: App, asked: Asked): { node: HTMLElement; said: (event: Event) => void } };
  figures: { form(app: App, check: Check | null, cautions: string[]): HTMLElement };
  keys: { listen(app: App): void; legend(): HTMLElement };
  opening: {
    itemView: Viewer;
    pressView: Viewer;
    barredView(app: App, bars: Bar[]): View;
    seenView: Viewer;
    understoodView: Viewer;
    understood(app: App, found: Sights): Understanding;
  };
  panels: { why(fill: () => Child[]): FoldOut; beliefs(app: App): FoldOut };
  picking: { listView: Viewer; picturesView: Viewer };
  steps: { stepView: Viewer };
  remaining: { leftView: Viewer };
  ending: { callView: Viewer; stopView: Viewer; handedView: Viewer; curedView: Viewer; knownView: Viewer };
}

interface Presslore extends Engine {
  knowledge: Packed;
  vocabulary?: Vocabulary;
  doing?: { version: string; checks: string[][]; needs: string[][]; fixes: string[][] };
  more?: { care?: CareNote[]; kinds?: string };
  page: Page;
}

declare var presslore: Presslore;
