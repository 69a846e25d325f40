import type { Moment } from './moment.ts';
import { voltsText } from './positionRows.ts';
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
      element('path', { class: 'edge', 'stroke-width': width + 2.4, d }) +
      element('path', { class: 'core', 'stroke-width': width, stroke: ramp(1), d }) +
      (amperes > 0 ? element('path', { class: 'chevron', transform: `translate(${x + 18} ${y})`, d: chevron }) : '')
    );
  };
  const steps = [0, 10 * least, 100 * least, 1000 * least];
  return [
    element('path', { class: 'rule', d: `M20 ${top}H900` }),
    `<linearGradient id="ramp">${stops}</linearGradient>`,
    say(20, '0 V'),
    element('rect', { class: 'rule', x: 50, y: y - 7, width: 150, height: 14, style: 'fill:url(#ramp)' }),
    say(208, voltsText(moment.supply)),
    element('path', { class: 'floating', d: `M268 ${y}h42` }),
    say(320, 'floating'),
    ...steps.flatMap((a, k) => [sample(390 + 104 * k, a), say(437 + 104 * k, a === 0 ? 'none' : roundAmperes(a))]),
    element('rect', { x: 800, y: y - 7, width: 40, height: 14, fill: 'url(#hatch)' }),
    say(848, 'changed'),
  ].join('');
}

/** A power of ten in plain figures: `10 A`, `0.1 A`, `1 mA`, `100 µA`. */
function roundAmperes(amperes: number): string {
  const [factor, unit] = amperes > 0.05 ? [1, 'A'] : amperes > 5e-4 ? [1e3, 'mA'] : [1e6, 'µA'];
  return `${Math.round(amperes * factor * 10) / 10} ${unit}`;
}
