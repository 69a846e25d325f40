import { sensingSwitch } from './shared/sensingSwitch.ts';

/** Contact of the gearbox or selector that lets the starter turn. */
export const neutralSwitch = sensingSwitch({
  kind: 'neutral-switch',
  title: 'neutral switch',
  about: 'contact of the gearbox, closed in neutral (and park)',
  settings: ['neutral', 'in gear'],
  closedWhen: 'neutral',
  minutes: 8,
  where: 'at the gearbox or selector',
  caution: 'bridged, the vehicle may crank in gear: chock the wheels',
});
