import { keyWordAt } from './playKey.ts';
import { timeLine, timeText } from './playTime.ts';
import { type PlayView, type Stretch, wordAt } from './playView.ts';
import { visible } from './problemText.ts';
import { textTable, wrapped } from './textTable.ts';

/** Signs of a strip, by word. */
const signs: Readonly<Record<string, string>> = {
  works: '█',
  weak: '▒',
  dead: '·',
  chatters: '×',
  cranks: 'c',
  runs: 'R',
  'runs down': 'd',
  still: '·',
};
/** Something else, for less than a column. */
const moment = '|';
const least = 24;

/** What is left of a long list of equal events: an event, and how often it came again. */
export type Gathered = { readonly t: number; readonly what: string; readonly part: string; readonly again: number; readonly last: number };

/** An event that comes more often than this is told once, with a count. */
const told = 3;

/** Events in order; the beats of a flasher and the like become one line. */
export function gathered(events: PlayView['events']): readonly Gathered[] {
  const key = (e: PlayView['events'][number]) => `${e.part}\n${e.what}`;
  const groups = new Map<string, PlayView['events'][number][]>();
  for (const e of events) groups.set(key(e), [...(groups.get(key(e)) ?? []), e]);
  return events.flatMap((e) => {
    const group = groups.get(key(e))!;
    if (group.length <= told || e.part === '') return [{ ...e, again: 0, last: e.t }];
    return group[0] === e ? [{ ...e, again: group.length - 1, last: group.at(-1)!.t }] : [];
  });
}

/** A played story as text: what happened, then a strip for everything that changed. */
export function playText(view: PlayView, faults: readonly string[], columns = 80): string {
  const events = gathered(view.events).map((e) => [
    timeText(e.t),
    e.part === '' ? '' : e.part === 'engine' ? 'engine' : e.part,
    `${visible(e.what)}${e.again > 0 ? ` (${e.again} times more, last at ${timeText(e.last)})` : ''}`,
    e.part === '' || e.part === 'engine' ? '' : visible(view.names[e.part] ?? ''),
  ]);
  const head = [visible(view.title), ...(faults.length > 0 ? [`with ${faults.join(', ')}`] : [])];
  const list =
    events.length === 0
      ? 'nothing switches'
      : textTable({ head: ['time', 'part', 'what happens', ''], rows: events, right: [0], wraps: [2, 3] }, columns);
  return [...head, '', list, '', strips(view, columns), '', ...closing(view, columns)].join('\n');
}

function strips(view: PlayView, columns: number): string {
  const changing = view.loads.filter((l) => l.stretches.length > 1 || (l.stretches[0]?.word ?? 'dead') !== 'dead');
  const labels = changing.map((l) => visible(`${l.id} ${l.name}`));
  const side = Math.min(least, Math.max(8, ...labels.map((l) => [...l].length)));
  const width = Math.max(20, columns - side - 1);
  const line = timeLine(view, 0, width);
  const row = (label: string, strip: string) => `${fitted(label, side)} ${strip}`;
  const seen = new Set<string>();
  const strip = (stretches: readonly Stretch[]) =>
    columnWords(stretches, line.back, width)
      .map((c) => sign(c, seen))
      .join('');
  const rows = [
    row('time', ruler(line, width)),
    ...(view.key ? [row('key', runs(Array.from({ length: width }, (_, k) => keyWordAt(view, line.back(k + 0.5)))))] : []),
    ...(view.engine ? [row('engine', strip(view.engine.stretches))] : []),
    ...changing.map((l, k) => row(labels[k]!, strip(l.stretches))),
  ];
  const used = [...new Set([...seen].map((word) => (word === moment ? moment : signs[word]!)))];
  const legend = used.map(
    (s) =>
      `${s} ${
        s === moment
          ? 'for a moment'
          : [...seen]
              .filter((w) => signs[w] === s)
              .map((w) => (w === 'chatters' ? 'comes and goes' : w))
              .join(', ')
      }`,
  );
  const scale = line.toScale ? [] : ['time not to scale: long waits are drawn short'];
  return [...rows, '', ...wrapped(legend.join('   '), columns), ...scale].join('\n');
}

/** The word that holds longest in each column, and whether another one shows up in it. */
function columnWords(stretches: readonly Stretch[], back: (place: number) => number, width: number) {
  return Array.from({ length: width }, (_, k) => {
    const [from, to] = [back(k), back(k + 1)];
    const inside = stretches.filter((s) => s.to > from && s.from < to);
    const time = (s: Stretch) => Math.min(s.to, to) - Math.max(s.from, from);
    const longest = inside.reduce<Stretch | undefined>((best, s) => (best === undefined || time(s) > time(best) ? s : best), undefined);
    const whole = inside.some((s) => s.from > from && s.to < to && s.word !== longest?.word);
    return { word: longest?.word ?? wordAt(stretches, from) ?? '', whole };
  });
}

function sign({ word, whole }: { readonly word: string; readonly whole: boolean }, seen: Set<string>): string {
  const shown = whole && word !== 'chatters' ? moment : word;
  seen.add(shown);
  return shown === moment ? moment : (signs[shown] ?? ' ');
}

function fitted(text: string, width: number): string {
  const characters = [...text];
  return (characters.length > width ? `${characters.slice(0, width - 1).join('')}…` : text).padEnd(width);
}

/** Words in runs of columns: `|LOCK|ON      |75°`; a run too short for its word shows what fits. */
function runs(words: readonly string[]): string {
  let line = '';
  for (let k = 0; k < words.length; ) {
    let end = k + 1;
    while (end < words.length && words[end] === words[k]) end++;
    line += `|${words[k]}`.slice(0, end - k).padEnd(end - k);
    k = end;
  }
  return line;
}

/** Times at the bounds of the steps, as many as have room. */
function ruler({ at, bounds }: { readonly at: (t: number) => number; readonly bounds: readonly number[] }, width: number): string {
  let line = '';
  for (const t of bounds) {
    const text = `|${timeText(t)}`;
    const place = Math.round(at(t));
    if (place < line.length + (line === '' ? 0 : 1) || place + text.length > width) continue;
    line = line.padEnd(place) + text;
  }
  return line;
}

function closing(view: PlayView, columns: number): readonly string[] {
  const supplies = view.supplies.flatMap(({ id, volts, charge }) => {
    const lowest = volts.reduce<{ t: number; value: number } | undefined>(
      (low, { t, value }) => (value !== null && (low === undefined || value < low.value) ? { t, value } : low),
      undefined,
    );
    const last = volts.at(-1)?.value;
    const least = lowest ? `least ${lowest.value.toFixed(2)} V at ${timeText(lowest.t)}, ` : '';
    const left = charge === undefined ? '' : `; charge ${(100 * charge).toFixed(1)} %`;
    return wrapped(`${id}: ${least}${last === null || last === undefined ? 'nothing' : `${last.toFixed(2)} V`} at the end${left}`, columns);
  });
  const dead = view.loads.filter((l) => l.stretches.length === 1 && l.stretches[0]!.word === 'dead').map((l) => l.id);
  return [...supplies, ...(dead.length > 0 ? wrapped(`dead all the time: ${dead.join(', ')}`, columns) : [])];
}
