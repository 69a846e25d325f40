/** Colours of the drawing by the name of their use. Contrasts: see the tests. */
export type Inks = {
  readonly sheet: string;
  readonly band: string;
  readonly ink: string;
  readonly ink2: string;
  readonly wireedge: string;
  readonly hand: string;
  readonly tag: string;
  readonly tagtint: string;
};

export const lightInks: Inks = {
  sheet: '#FBFBF9',
  band: '#E3E7E7',
  ink: '#15202B',
  ink2: '#46535E',
  wireedge: '#15202B',
  hand: '#0A5A68',
  tag: '#A93A12',
  tagtint: '#FBEAE2',
};

export const darkInks: Inks = {
  sheet: '#151B20',
  band: '#212930',
  ink: '#E9EDEF',
  ink2: '#B0BAC1',
  wireedge: '#A4B0B8',
  hand: '#7FCDD6',
  tag: '#FF9A6E',
  tagtint: '#36221A',
};

/** Rules for the classes of a drawing. */
export function drawingRules(inks: Inks): string {
  const { sheet, band, ink, ink2, wireedge, hand, tag, tagtint } = inks;
  return [
    `.sheet{fill:${sheet}}`,
    `.frame{fill:${sheet};stroke:${ink};stroke-width:1.6}`,
    `.key{fill:${band};stroke-width:2}`,
    `.link{fill:none;stroke:${ink};stroke-width:1.5;stroke-dasharray:7 4}`,
    `.plain{fill:none;stroke:${ink};stroke-width:2}`,
    `.gap{fill:none;stroke:${sheet}}`,
    `.gap.onkey{stroke:${band}}`,
    `.casing{fill:none;stroke:url(#hatch);stroke-width:15}`,
    `.hatchground{fill:${tagtint}}`,
    `.hatchline{fill:none;stroke:${tag};stroke-width:2.6}`,
    `.way{fill:none;stroke:${hand};stroke-opacity:.38;stroke-linecap:round;stroke-linejoin:round}`,
    `.edge{fill:none;stroke:${wireedge}}`,
    `.core{fill:none}`,
    `.floating{fill:none;stroke:${ink};stroke-width:3;stroke-dasharray:0 7;stroke-linecap:round}`,
    `.chevron{fill:${ink};stroke:${sheet};stroke-width:1.2}`,
    `.bar{fill:none;stroke:${ink};stroke-width:4}`,
    `.dot{fill:${ink}}`,
    `.line{stroke:${ink};stroke-linecap:round;stroke-linejoin:round}`,
    `.none{fill:none}.ink{fill:${ink}}.paper{fill:${sheet}}`,
    `text{fill:${ink2};stroke:${sheet};stroke-width:4px;paint-order:stroke;stroke-linejoin:round}`,
    `text.strong,text.inside{fill:${ink}}`,
    'text.inside,text.flat{stroke:none}',
    `.tag{fill:${sheet};stroke:${tag};stroke-width:2}`,
    `.tagedge{fill:${tag}}`,
    `.tagline{fill:none;stroke:${tag};stroke-width:1.8}`,
    `text.tagfault{fill:${tag};stroke:none}`,
    `.rule{fill:none;stroke:${ink};stroke-width:2}`,
  ].join('\n');
}
