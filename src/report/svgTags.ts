import type { HangTag } from './hangTags.ts';
import { element, rounded, words } from './svgText.ts';

/** A hang-tag with its string, ring and words; only a numbered tab where there are many. */
export function svgTag(t: HangTag): string {
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
