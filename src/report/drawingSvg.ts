import { darkInks, drawingRules, lightInks } from './drawingInks.ts';
import { svgLegend } from './drawingLegend.ts';
import { crossingsOf, type Ribbon, ribbonsOf } from './drawn.ts';
import { type HangTag, hangTags, type Tagged } from './hangTags.ts';
import type { Frame, Layout, PlacedPole, Point } from './layout/layout.ts';
import type { Moment } from './moment.ts';
import { ramp } from './ribbon.ts';
import { element, escaped, rounded } from './svgText.ts';
import { chevron } from './symbols/chevron.ts';
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
    ...tags.map(hangTag),
    ...trackHeads(layout, shown.names ?? new Map()),
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

function words(x: number, y: number, text: string, size: number, weight: number, of?: string): string {
  return element('text', { class: of, x, y, 'font-size': size, 'font-weight': weight }, escaped(text));
}

function frame(f: Frame): string {
  const { x, y, width, height } = f.box;
  const link = f.link === undefined ? '' : element('path', { class: 'link', d: lineOf(f.link) });
  return element('rect', { class: f.isKey ? 'frame key' : 'frame', x, y, width, height }) + link;
}

function plainWires(layout: Layout): readonly string[] {
  const crossings = crossingsOf(layout).map((c) => {
    const [dx, dy] = c.overLies ? [6, 0] : [0, 6];
    const [gx, gy] = c.overLies ? [0, 5] : [5, 0];
    return (
      element('path', {
        class: gapClass(layout, c.x, c.y),
        'stroke-width': 4,
        d: lineOf([
          [c.x - gx, c.y - gy],
          [c.x + gx, c.y + gy],
        ]),
      }) +
      element('path', {
        class: 'plain',
        d: lineOf([
          [c.x - dx, c.y - dy],
          [c.x + dx, c.y + dy],
        ]),
      })
    );
  });
  return [...layout.wires.map((w) => element('path', { class: 'plain', d: lineOf(w.points) })), ...crossings];
}

function gapClass(layout: Layout, x: number, y: number): string {
  return layout.frames.some(({ isKey, box: b }) => isKey && x > b.x && x < b.x + b.width && y > b.y && y < b.y + b.height)
    ? 'gap onkey'
    : 'gap';
}

function liveWires(layout: Layout, ribbons: readonly Ribbon[]): readonly string[] {
  const crossings = crossingsOf(layout).flatMap((c) => {
    const [above, below] = [ribbons[c.over], ribbons[c.under]];
    if (!above || !below) return [];
    const half = (above.width + 2.4) / 2 + 3.5;
    const [ox, oy] = c.overLies ? [half, 0] : [0, half];
    const [gx, gy] = c.overLies ? [0, half] : [half, 0];
    const d = lineOf([
      [c.x - ox, c.y - oy],
      [c.x + ox, c.y + oy],
    ]);
    const again = above.potential
      ? element('path', { class: 'edge', 'stroke-width': above.width + 2.4, d }) +
        element('path', { class: 'core', 'stroke-width': above.width, stroke: ramp(above.potential[0]), d })
      : element('path', { class: 'floating', d });
    return [
      element('path', {
        class: gapClass(layout, c.x, c.y),
        'stroke-width': below.width + 4.4,
        d: lineOf([
          [c.x - gx, c.y - gy],
          [c.x + gx, c.y + gy],
        ]),
      }) + again,
    ];
  });
  return [
    ...ribbons.flatMap((r) => (r.changed ? [element('path', { class: 'casing', d: r.d })] : [])),
    ...ribbons.flatMap((r) => (r.onWay ? [element('path', { class: 'way', 'stroke-width': r.width + 11, d: r.d })] : [])),
    ...ribbons.flatMap((r) => (r.potential ? [element('path', { class: 'edge', 'stroke-width': r.width + 2.4, d: r.d })] : [])),
    ...ribbons.map(core),
    ...crossings,
    ...ribbons.flatMap((r) =>
      r.chevrons.map((c) =>
        element('path', { class: 'chevron', transform: `translate(${rounded(c.x)} ${rounded(c.y)}) rotate(${c.turn})`, d: chevron }),
      ),
    ),
  ];
}

function core(r: Ribbon, k: number): string {
  if (!r.potential) return element('path', { class: 'floating', d: r.d });
  const [from, to] = r.potential;
  if (from === to) return element('path', { class: 'core', 'stroke-width': r.width, stroke: ramp(from), d: r.d });
  const [a, b] = [r.points[0]!, r.points.at(-1)!];
  const stops = `<stop offset="0" stop-color="${ramp(from)}"/><stop offset="1" stop-color="${ramp(to)}"/>`;
  return (
    element('linearGradient', { id: `blend${k}`, gradientUnits: 'userSpaceOnUse', x1: a[0], y1: a[1], x2: b[0], y2: b[1] }, stops) +
    element('path', { class: 'core', 'stroke-width': r.width, stroke: `url(#blend${k})`, d: r.d })
  );
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

function hangTag(t: HangTag): string {
  const ring = element('circle', { class: 'tagline', cx: t.at[0], cy: t.at[1], r: 24 });
  const { x, y, width: w, height: h } = t.box;
  if (t.tab)
    return (
      ring +
      element('rect', { class: 'tag', x, y, width: 32, height: 24 }) +
      element(
        'text',
        { class: 'strong', x: x + 16, y: y + 17, 'font-size': 14, 'font-weight': 700, 'text-anchor': 'middle' },
        String(t.number),
      )
    );
  const clip = 12;
  const outline = t.eyeletRight
    ? `M${rounded(x)} ${rounded(y)}h${w - clip}l${clip} ${clip}v${h - 2 * clip}l${-clip} ${clip}h${clip - w}Z`
    : `M${rounded(x + clip)} ${rounded(y)}h${w - clip}v${h}h${clip - w}l${-clip} ${-clip}v${2 * clip - h}Z`;
  const styles = { tagsubject: ['strong flat', 17, 700], tagfault: ['tagfault', 15, 600], tagextent: ['strong flat', 14, 500] } as const;
  return [
    element('path', { class: 'tagline', d: t.string }),
    ring,
    element('path', { class: 'tag', d: outline }),
    element('rect', { class: 'tagedge', x: t.eyeletRight ? x : x + w - 8, y, width: 8, height: h }),
    element('circle', { class: 'tag', cx: t.eyelet[0], cy: t.eyelet[1], r: 4 }),
    ...t.lines.map((l, k) => {
      const [of, size, weight] = styles[l.role];
      return words(t.eyeletRight ? x + 18 : x + 22, y + 24 + k * 18.5, l.text, size, weight, of);
    }),
  ].join('');
}

/** Number and name under each load's track, the name in at most three lines. */
function trackHeads(layout: Layout, names: ReadonlyMap<string, string>): readonly string[] {
  const y = layout.height + 14;
  return layout.tracks.flatMap((t, k) => {
    const before = layout.tracks[k - 1];
    // Two loads in one column: the second name would lie on the first.
    const isTwin = before !== undefined && t.x - before.x < layout.pitch / 2;
    const lines = wrapped(names.get(t.load) ?? t.load, layout.pitch - 6);
    const own = [element('text', { x: t.x, y, 'font-size': 13, 'font-weight': 500, 'text-anchor': 'middle' }, String(t.number))];
    if (isTwin) return [];
    for (const [j, line] of lines.entries())
      own.push(
        element(
          'text',
          { class: 'strong', x: t.x, y: y + 16 + 15 * j, 'font-size': 14, 'font-weight': 600, 'text-anchor': 'middle' },
          escaped(line),
        ),
      );
    return own;
  });
}

/** Lines of at most `room` px; a word that is too long alone goes on in the next line. */
function wrapped(text: string, room: number): readonly string[] {
  const lines: string[] = [];
  const fits = (line: string) => textWidth(line, 14, 600) <= room;
  for (const word of text.split(' ')) {
    let rest = word;
    while (!fits(rest)) {
      const at = breakIn(rest, (head) => fits(`${head}-`));
      lines.push(`${rest.slice(0, at)}-`);
      rest = rest.slice(at);
    }
    const longer = `${lines.at(-1)} ${rest}`;
    if (rest === word && lines.length > 0 && fits(longer)) lines[lines.length - 1] = longer;
    else lines.push(rest);
  }
  return lines.slice(0, 3).map((line, k) => cut(k === 2 && lines.length > 3 ? `${line} ${lines[3]}` : line, room));
}

/** Where to break a long word: as late as fits, before a consonant that a vowel follows (`alter-nator`), else anywhere. */
function breakIn(word: string, fits: (head: string) => boolean): number {
  const vowel = /[aeiouyäöü]/i;
  let any = 1;
  let good = 0;
  for (let at = 2; at <= word.length - 3; at++) {
    if (!fits(word.slice(0, at))) break;
    any = at;
    if (!vowel.test(word[at]!) && vowel.test(word[at + 1]!) && word.length - at > 3) good = at;
  }
  return good > 3 ? good : any;
}

function cut(line: string, room: number): string {
  let text = line;
  while (text.length > 1 && textWidth(text === line ? text : `${text}.`, 14, 600) > room) text = text.slice(0, -1).trimEnd();
  return text === line ? line : `${text}.`;
}

function lineOf(points: readonly Point[]): string {
  return points.map(([x, y], k) => `${k === 0 ? 'M' : 'L'}${rounded(x)} ${rounded(y)}`).join('');
}
