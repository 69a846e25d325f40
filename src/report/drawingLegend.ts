import type { Moment } from './moment.ts';
import { amperesText, voltsText } from './positionRows.ts';
import { ramp, ribbonWidth } from './ribbon.ts';
import { element, escaped } from './svgText.ts';
import { chevron } from './symbols/chevron.ts';

/** What colour, width, dots, chevrons and hatch mean, with the volts of this scene at both ends of the ramp. */
export function svgLegend(moment: Moment, least: number, top: number): string {
  const y = top + 30;
  const stops = Array.from({ length: 9 }, (_, k) => `<stop offset="${k / 8}" stop-color="${ramp(k / 8)}"/>`).join('');
  const say = (x: number, text: string) =>
    element('text', { class: 'strong', x, y: y + 5, 'font-size': 14, 'font-weight': 500 }, escaped(text));
  const sample = (x: number, amperes: number) => {
    const d = `M${x} ${y}h40`;
    const width = ribbonWidth(amperes, least);
    return (
      element('path', { class: 'edge', 'stroke-linecap': 'butt', 'stroke-width': width + 2.4, d }) +
      element('path', { class: 'core', 'stroke-width': width, stroke: ramp(1), d }) +
      (amperes > 0 ? element('path', { class: 'chevron', transform: `translate(${x + 18} ${y})`, d: chevron }) : '')
    );
  };
  const steps = [0, 10 * least, 100 * least, 1000 * least];
  return [
    element('path', { class: 'rule', d: `M20 ${top}H880` }),
    `<linearGradient id="ramp">${stops}</linearGradient>`,
    say(20, '0 V'),
    element('rect', { class: 'rule', x: 50, y: y - 7, width: 150, height: 14, style: 'fill:url(#ramp)' }),
    say(208, voltsText(moment.supply)),
    element('path', { class: 'floating', d: `M268 ${y}h42` }),
    say(320, 'floating'),
    ...steps.flatMap((a, k) => [sample(390 + 92 * k, a), say(436 + 92 * k, a === 0 ? 'none' : amperesText(a))]),
    element('rect', { x: 764, y: y - 7, width: 40, height: 14, fill: 'url(#hatch)' }),
    say(812, 'changed'),
  ].join('');
}
