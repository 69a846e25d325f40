import type { Tool } from '../diagnose/candidates.ts';

export type LevelNumber = 1 | 2 | 3 | 4 | 5 | 6 | 7 | 8 | 9 | 10 | 11;

/** One rung: what is hidden, what it teaches, and what is at hand. */
export type Level = {
  readonly number: LevelNumber;
  readonly title: string;
  /** What the apprentice can do unaided once the rung is climbed. */
  readonly skill: string;
  /** `table`: questions about the position table; `search`: a hidden fault is looked for. */
  readonly asks: 'table' | 'prediction' | 'search';
  readonly tools: readonly Tool[];
  /** Public competence that the rung serves, by `competences`. */
  readonly serves: readonly string[];
};

const usual: readonly Tool[] = ['meter', 'lamp', 'clamp', 'jumper', 'ohmmeter'];
const all: readonly Tool[] = [...usual, 'donor-switch'];

/**
 * The ladder. Its order is an estimate: from reading, through one thing that is plainly open, to what shows only under
 * load, only in some places of the key, only at times, and last to two causes at once.
 */
export const levels: readonly Level[] = [
  { number: 1, title: 'Read a position table', skill: 'tells ten of ten cells', asks: 'table', tools: [], serves: ['diagrams'] },
  {
    number: 2,
    title: 'Predict a table with a given fault',
    skill: 'says before looking what a known fault changes and what it leaves alone',
    asks: 'prediction',
    tools: [],
    serves: ['diagrams', 'causes'],
  },
  {
    number: 3,
    title: 'Open contact',
    skill: 'finds the contact that does not close',
    asks: 'search',
    tools: usual,
    serves: ['opens', 'diagrams'],
  },
  {
    number: 4,
    title: 'Feed lost upstream',
    skill: 'walks a dead feed back in halves',
    asks: 'search',
    tools: usual,
    serves: ['opens', 'fuses'],
  },
  {
    number: 5,
    title: 'Voltage drop under load',
    skill: 'reads a drop while current flows',
    asks: 'search',
    tools: usual,
    serves: ['drop', 'resistance'],
  },
  {
    number: 6,
    title: 'Ghost voltage',
    skill: 'loads a point before believing its volts',
    asks: 'search',
    tools: usual,
    serves: ['volts', 'test light'],
  },
  { number: 7, title: 'Lost motion', skill: 'tells lock and linkage from the switch', asks: 'search', tools: all, serves: ['causes'] },
  {
    number: 8,
    title: 'Stuck accessory and drain',
    skill: 'measures the key-off current and names who draws it',
    asks: 'search',
    tools: usual,
    serves: ['drain', 'current'],
  },
  {
    number: 9,
    title: 'Backfeed',
    skill: 'finds the way by which a dead circuit is fed',
    asks: 'search',
    tools: usual,
    serves: ['causes', 'volts'],
  },
  {
    number: 10,
    title: 'Intermittent',
    skill: 'catches what comes and goes, one stress at a time',
    asks: 'search',
    tools: all,
    serves: ['opens', 'repair'],
  },
  {
    number: 11,
    title: 'Two at once',
    skill: 'runs the whole table again after the first repair',
    asks: 'search',
    tools: usual,
    serves: ['causes', 'repair'],
  },
];

export const levelOf = (number: number): Level | undefined => levels.find((l) => l.number === number);
