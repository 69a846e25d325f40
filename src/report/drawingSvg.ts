import { darkInks, drawingRules, lightInks } from './drawingInks.ts';
import { svgLegend } from './drawingLegend.ts';
import { ribbonsOf } from './drawn.ts';
import { hangTags, type Tagged } from './hangTags.ts';
import type { Frame, Layout, PlacedPole } from './layout/layout.ts';
import type { Moment } from './moment.ts';
import type { SheetMark } from './sheetDrawing.ts';
import { svgMarks } from './svgMarks.ts';
import { svgTag } from './svgTags.ts';
import { element, escaped, lineOf, rounded, words } from './svgText.ts';
import { svgTracks } from './svgTracks.ts';
import { liveWires, plainWires } from './svgWires.ts';
import { symbolOf } from './symbols/index.ts';
import type { Shape } from './symbols/shape.ts';
import { textWidth } from './textWidth.ts';

/** What a drawing shows besides the wiring. */
export type Shown = {
  readonly title: string;
  /** The scene as one sentence; stands above the drawing. */
  readonly line: string;
  /** The drawing in words, a sentence each: see `pathWords`. */
  readonly words: readonly string[];
  /** Potentials and currents; absent: neutral wires, every contact open. */
  readonly moment?: Moment;
  readonly showing?: 'healthy' | 'faulty' | 'difference';
  readonly faults?: readonly Tagged[];
  /** Names of the loads under their tracks. */
  readonly names?: ReadonlyMap<string, string>;
  /** Current of the thinnest ribbon, A: 0.01, in drain scenes 1e-5. */
  readonly least?: number;
  /** Plain ink instead of potentials, contacts as they stand: for print. */
  readonly neutral?: boolean;
  /** Where readings were taken, and the cause. */
  readonly marks?: readonly SheetMark[];
  /** `auto` follows the reader's setting. */
  readonly theme?: 'light' | 'dark' | 'auto';
};

const head = 44;
const trackHead = 72;
const legend = 64;

/**
 * A drawing as one SVG file that needs nothing else: title, description that walks every load's current, colours for
 * light and dark. Everything that colour says is also said by width, hatch, chevron or word.
 */
export function drawingSvg(layout: Layout, shown: Shown): string {
  const { moment } = shown;
  const live = moment !== undefined && shown.neutral !== true;
  const ribbons = live ? ribbonsOf(layout, moment, shown.showing ?? 'difference', shown.least) : [];
  const tags = hangTags(layout, shown.faults ?? []);
  const width = Math.max(rounded(layout.width), live ? 900 : 400);
  const over = moment?.overloads ?? [];
  const height = rounded(head + layout.height + trackHead + (live ? legend : 0) + over.length * 20 + 8);
  const seen = shown.showing === 'healthy' ? moment?.healthyClosed : moment?.closed;
  const foot = head + layout.height + trackHead;
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}" viewBox="0 0 ${width} ${height}" role="img" aria-labelledby="title desc" font-family="'Barlow Semi Condensed','Arial Narrow',Arial,sans-serif" font-variant-numeric="tabular-nums">`,
    `<title id="title">${escaped(shown.title)}</title>`,
    `<desc id="desc">${escaped([shown.line, ...shown.words].join('\n'))}</desc>`,
    `<style>\n${rules(shown.theme ?? 'auto')}\n</style>`,
    '<defs><pattern id="hatch" width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><rect class="hatchground" width="6" height="6"/><path class="hatchline" d="M0 -1V7"/></pattern></defs>',
    element('rect', { class: 'sheet', width, height }),
    heading(shown),
    `<g transform="translate(0 ${head})">`,
    ...layout.frames.map(frame),
    ...(live ? liveWires(layout, ribbons) : plainWires(layout)),
    ...fixtures(layout),
    ...layout.poles.map((p) => pole(p, seen?.has(p.element) === true)),
    ...layout.labels.map((l) =>
      element(
        'text',
        {
          class: ['id', 'rail', 'terminal'].includes(l.role) ? 'strong' : undefined,
          x: l.x,
          y: l.y,
          'font-size': l.size,
          'font-weight': l.weight,
        },
        escaped(l.text),
      ),
    ),
    ...tags.map(svgTag),
    ...svgMarks(layout, shown.marks ?? []),
    ...svgTracks(layout, shown.names ?? new Map()),
    '</g>',
    ...(live ? [svgLegend(moment, shown.least ?? 0.01, foot)] : []),
    ...over.map((o, k) =>
      words(
        20,
        foot + (live ? legend : 0) + 14 + 20 * k,
        `Over its guide value: ${o.element} carries ${o.value.toFixed(1)} A, ${o.what} ${o.limit} A.`,
        14,
        600,
        'strong',
      ),
    ),
    '</svg>',
    '',
  ].join('\n');
}

function rules(theme: 'light' | 'dark' | 'auto'): string {
  if (theme !== 'auto') return drawingRules(theme === 'dark' ? darkInks : lightInks);
  return `${drawingRules(lightInks)}\n@media (prefers-color-scheme:dark){\n${drawingRules(darkInks)}\n}`;
}

function heading({ title, line }: Shown): string {
  return words(20, 28, title, 17, 700, 'strong') + words(20 + textWidth(title, 17, 700) + 14, 28, line, 16, 500);
}

function frame(f: Frame): string {
  const { x, y, width, height } = f.box;
  const link = f.link === undefined ? '' : element('path', { class: 'link', d: lineOf(f.link) });
  return element('rect', { class: f.isKey ? 'frame key' : 'frame', x, y, width, height }) + link;
}

function fixtures({ links, bars, dots, pins }: Layout): readonly string[] {
  return [
    ...links.map((l) => element('path', { class: 'link', d: lineOf(l.points) })),
    ...bars.map((b) =>
      element('path', {
        class: 'bar',
        d: b.pieces
          .map(([from, to]) =>
            lineOf([
              [from, b.y],
              [to, b.y],
            ]),
          )
          .join(''),
      }),
    ),
    ...bars.flatMap((b) => (b.sign ? [placed(b.sign[0], b.sign[1], symbolOf('ground-point').shapes)] : [])),
    ...dots.map(([x, y]) => element('circle', { class: 'dot', cx: x, cy: y, r: 4.2 })),
    ...pins.map((p) =>
      element(
        'g',
        { transform: `translate(${rounded(p.x)} ${rounded(p.y)})${p.flat ? ' rotate(-90)' : ''}` },
        symbolOf('pin').shapes.map(shape).join(''),
      ),
    ),
  ];
}

function pole(p: PlacedPole, isClosed: boolean): string {
  const stand = isClosed ? 'closed' : 'open';
  return placed(
    p.x,
    p.y,
    symbolOf(p.symbol).shapes.filter((s) => s.when === undefined || s.when === stand),
    p.turned,
  );
}

function placed(x: number, y: number, shapes: readonly Shape[], turned = false): string {
  return element('g', { transform: `translate(${rounded(x)} ${rounded(y)})${turned ? ' scale(1 -1)' : ''}` }, shapes.map(shape).join(''));
}

const fills = { none: 'none', ink: 'ink', sheet: 'paper' } as const;
function shape(s: Shape): string {
  if (s.draw === 'text')
    return element(
      'text',
      { class: 'inside', x: s.x, y: s.y, 'font-size': s.size, 'font-weight': s.weight, 'text-anchor': 'middle' },
      escaped(s.text),
    );
  const look = { class: `${s.line > 0 ? 'line ' : ''}${fills[s.fill]}`, 'stroke-width': s.line > 0 ? s.line : undefined };
  if (s.draw === 'circle') return element('circle', { ...look, cx: s.x, cy: s.y, r: s.r });
  return element('path', { ...look, d: s.d, 'stroke-dasharray': s.dash });
}
