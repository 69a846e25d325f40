import { nothing, svg } from 'lit';
import { type HangTag, placeOf } from '../../src/report/hangTags.ts';
import type { Layout } from '../../src/report/layout/layout.ts';
import { markPlace, numberSpot } from '../../src/report/markPlace.ts';
import type { SheetMark } from '../../src/report/sheetDrawing.ts';
import { textWidth } from '../../src/report/textWidth.ts';

/** Words at a part: an overload with both numbers, a current that comes by another way. */
export type Flag = { readonly part: string; readonly subject: string; readonly text: string };

/** Suspicion of a part or pin: the halo's ring closes with its share. */
export type Halo = { readonly part: string; readonly share: number };

export function flagWords(layout: Layout, flags: readonly Flag[]) {
  return svg`${flags.map((f) => {
    const at = placeOf(layout, f);
    if (!at) return nothing;
    const width = textWidth(f.text, 14, 700) + 12;
    const x = Math.min(at[0] + 20, layout.width - width - 2);
    return svg`<g class="flag" transform="translate(${x} ${at[1] + 12})"><rect width=${width} height="22"></rect><text x="6" y="16">${f.text}</text></g>`;
  })}`;
}

export function tagsHung(tags: readonly HangTag[]) {
  return svg`${tags.map((t) => {
    const ring = svg`<circle class="tagring" cx=${t.at[0]} cy=${t.at[1]} r="24"></circle>`;
    if (t.tab)
      return svg`${ring}<g transform="translate(${t.box.x} ${t.box.y})"><rect class="tag" width="32" height="24"></rect><text class="tabnumber" x="16" y="17" text-anchor="middle">${t.number}</text></g>`;
    const { x, y, width: w, height: h } = t.box;
    const eyelet = t.eyelet;
    const clip = 12;
    const outline = t.eyeletRight
      ? `M${x} ${y}H${x + w - clip}L${x + w} ${y + clip}V${y + h - clip}L${x + w - clip} ${y + h}H${x}Z`
      : `M${x + clip} ${y}H${x + w}V${y + h}H${x + clip}L${x} ${y + h - clip}V${y + clip}Z`;
    const edge = t.eyeletRight ? x : x + w - 8;
    return svg`<path class="string" d=${t.string}></path>${ring}
      <path class="tag" d=${outline}></path><rect class="tagedge" x=${edge} y=${y} width="8" height=${h}></rect>
      <circle class="eyelet" cx=${eyelet[0]} cy=${eyelet[1]} r="4"></circle>
      ${t.lines.map((line, k) => svg`<text class=${line.role} x=${t.eyeletRight ? x + 18 : x + 22} y=${y + 24 + k * 18.5}>${line.text}</text>`)}`;
  })}`;
}

export function haloRings(layout: Layout, halos: readonly Halo[]) {
  return svg`${halos.map(({ part, share }) => {
    const at = markPlace(layout, part);
    return !at || share < 0.02 ? nothing : haloRing(at.x, at.y, at.r, share);
  })}`;
}

/** Numbers where readings were taken, and the ring round the cause. */
export function sheetMarks(layout: Layout, marks: readonly SheetMark[]) {
  const seen = new Map<string, number>();
  return svg`${marks.map((m) => {
    if (m.is === 'cause') {
      const at = markPlace(layout, m.at);
      return at ? svg`<circle class="causering" cx=${at.x} cy=${at.y} r=${at.r + 2}></circle>` : nothing;
    }
    const before = seen.get(m.at) ?? 0;
    seen.set(m.at, before + 1);
    const spot = numberSpot(layout, m.at, before);
    return spot
      ? svg`<circle class="numberdisc" cx=${spot[0]} cy=${spot[1]} r="12"></circle><text class="marknumber" x=${spot[0]} y=${spot[1] + 5.5} text-anchor="middle">${m.number}</text>`
      : nothing;
  })}`;
}

/** Disc behind a part, thin full ring, and an arc from 12 o'clock for the share. */
export function haloRing(x: number, y: number, r: number, share: number) {
  const turn = Math.min(0.9999, share) * 2 * Math.PI;
  const [ex, ey] = [x + r * Math.sin(turn), y - r * Math.cos(turn)];
  return svg`<g class="halo"><circle class="disc" cx=${x} cy=${y} r=${r} fill-opacity=${0.1 + 0.24 * share}></circle><circle class="thin" cx=${x} cy=${y} r=${r}></circle><path class="arc" d="M${x} ${y - r}A${r} ${r} 0 ${share > 0.5 ? 1 : 0} 1 ${ex} ${ey}"></path></g>`;
}
