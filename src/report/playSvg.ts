import { darkInks, type Inks, lightInks } from './drawingInks.ts';
import { type CurveLane, chartWords, type PlayChart, playChart, type StripLane } from './playChart.ts';
import { timeText } from './playTime.ts';
import type { PlayView } from './playView.ts';
import { element, escaped } from './svgText.ts';
import { textWidth } from './textWidth.ts';

export type PlaySvgOptions = {
  readonly faults?: readonly string[];
  /** px; 960 unless told: an A4 page on its side. */
  readonly width?: number;
  /** Ink on white, whatever the reader has set: for print. Absent: follows the reader's setting. */
  readonly theme?: 'light' | 'dark';
};

const above = 46;
const legendHeight = 26;
/** Words of a strip, in the order of the legend, and how each is drawn: full bar, hatched bar, thin line. */
const drawn: Readonly<Record<string, 'full' | 'hatched' | 'half' | 'thin'>> = {
  works: 'full',
  runs: 'full',
  weak: 'hatched',
  cranks: 'hatched',
  chatters: 'half',
  'runs down': 'half',
  dead: 'thin',
  still: 'thin',
};

/** The strip chart of a played story as one SVG file that needs nothing else. What it shows is also said in words, in its description. */
export function playSvg(view: PlayView, options: PlaySvgOptions = {}): string {
  const chart = playChart(view, options.width ?? 960);
  const height = above + chart.height + legendHeight;
  const faults = options.faults ?? [];
  const line = [view.steps.map((s) => s.text).join(', '), ...(faults.length > 0 ? [`with ${faults.join(', ')}`] : [])].join('; ');
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${chart.width}" height="${height}" viewBox="0 0 ${chart.width} ${height}" role="img" aria-labelledby="title desc" font-family="'Barlow Semi Condensed','Arial Narrow',Arial,sans-serif" font-variant-numeric="tabular-nums" font-size="12">`,
    `<title id="title">${escaped(`${view.title}: a story over time`)}</title>`,
    `<desc id="desc">${escaped([`${line}.`, ...chartWords(view), ...eventWords(view)].join('\n'))}</desc>`,
    `<style>\n${rules(options.theme)}\n</style>`,
    '<defs><pattern id="weak" width="5" height="5" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><rect class="sheet" width="5" height="5"/><path class="stroke" d="M0 0V5"/></pattern></defs>',
    element('rect', { class: 'sheet', width: chart.width, height }),
    element('text', { x: 12, y: 20, 'font-size': 16, 'font-weight': 600 }, escaped(view.title)),
    element('text', { x: 12, y: 38, class: 'quiet' }, escaped(cut(line, chart.width - 24))),
    `<g transform="translate(0 ${above})">`,
    ...frame(chart),
    ...chart.lanes.map((lane) => (lane.is === 'curve' ? curve(lane, chart) : strip(lane, chart))),
    '</g>',
    legend(view, chart, above + chart.height + 14),
    '</svg>',
  ].join('\n');
}

function rules(theme: 'light' | 'dark' | undefined): string {
  const of = ({ sheet, band, ink, ink2, hand }: Inks) =>
    [
      `.sheet{fill:${sheet}}.grid{stroke:${band};stroke-width:1}.stroke{stroke:${ink};stroke-width:2}`,
      `text{fill:${ink}}text.quiet{fill:${ink2}}`,
      `.curve{fill:none;stroke:${hand};stroke-width:1.8;stroke-linejoin:round}`,
      `.full{fill:${ink}}.hatched{fill:url(#weak);stroke:${ink}}.half{fill:${ink2}}.thin{fill:${ink2}}`,
    ].join('\n');
  if (theme) return of(theme === 'dark' ? darkInks : lightInks);
  return `${of(lightInks)}\n@media (prefers-color-scheme: dark) and (not print){\n${of(darkInks)}\n}`;
}

/** Bounds of the steps as upright rules, their words above and times below. */
function frame(chart: PlayChart): readonly string[] {
  const bottom = chart.height - 22;
  return [
    ...chart.time.bounds.map((t) => element('path', { class: 'grid', d: `M${chart.time.at(t).toFixed(1)} 16V${bottom}` })),
    ...chart.marks.map(({ x, text }) => element('text', { x, y: 12 }, escaped(text))),
    ...chart.times.map(({ x, text, anchor }) => element('text', { x, y: bottom + 14, 'text-anchor': anchor, class: 'quiet' }, text)),
  ];
}

function curve(lane: CurveLane, chart: PlayChart): string {
  const middle = lane.top + lane.height / 2;
  return [
    element('text', { x: 12, y: middle }, escaped(cut(lane.title, 110))),
    element('text', { x: 12, y: middle + 14, class: 'quiet' }, escaped(lane.unit)),
    ...lane.ticks.flatMap(({ y, text }) => [
      element('path', { class: 'grid', d: `M${chart.left} ${y.toFixed(1)}H${chart.right}` }),
      element('text', { x: chart.left - 6, y: y + 4, 'text-anchor': 'end', class: 'quiet' }, escaped(text)),
    ]),
    element('path', { class: 'curve', d: lane.path }),
  ].join('');
}

function strip(lane: StripLane, chart: PlayChart): string {
  const bars = lane.bars.map((bar) =>
    element(
      'rect',
      { class: drawn[bar.word] ?? 'thin', x: bar.x, width: bar.width, ...heightOf(bar.word, lane) },
      `<title>${escaped(`${bar.word} from ${timeText(bar.from)} to ${timeText(bar.to)}`)}</title>`,
    ),
  );
  return [element('text', { x: 12, y: lane.top + 12 }, escaped(cut(lane.title, chart.left - 20))), ...bars].join('');
}

function heightOf(word: string, { top, height }: Pick<StripLane, 'top' | 'height'>): { y: number; height: number } {
  const form = drawn[word] ?? 'thin';
  if (form === 'thin') return { y: top + height - 3, height: 2 };
  return form === 'half' ? { y: top + height / 2, height: height / 2 } : { y: top + 1, height: height - 2 };
}

/** The forms that this chart uses, with their words. */
function legend(view: PlayView, chart: PlayChart, y: number): string {
  const words = new Set(chart.lanes.flatMap((l) => (l.is === 'strip' ? l.bars.map((b) => b.word) : [])));
  let x = 12;
  const items = Object.keys(drawn).flatMap((word) => {
    if (!words.has(word)) return [];
    const key = [
      element('rect', { class: drawn[word], x, width: 18, ...heightOf(word, { top: y - 10, height: 12 }) }),
      element('text', { x: x + 24, y }, word),
    ];
    x += 24 + textWidth(word, 12, 400) + 18;
    return key;
  });
  const notes = [
    ...(chart.time.toScale ? [] : ['time not to scale: long waits are drawn short']),
    ...(view.endedBy ? [`ended early: ${view.endedBy.join(', ')} chatters`] : []),
  ];
  return [...items, element('text', { x, y, class: 'quiet' }, escaped(notes.join('; ')))].join('');
}

const eventWords = (view: PlayView): readonly string[] =>
  view.events.slice(0, 40).map((e) => `${timeText(e.t)}: ${e.part === '' || e.part === 'engine' ? '' : `${e.part} `}${e.what}`);

/** As much of a text as has room. */
function cut(text: string, width: number): string {
  if (textWidth(text, 12, 400) <= width) return text;
  let short = [...text];
  while (short.length > 1 && textWidth(`${short.join('')}…`, 12, 400) > width) short = short.slice(0, -1);
  return `${short.join('').trimEnd()}…`;
}
