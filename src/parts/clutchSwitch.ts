import { sensingSwitch } from './shared/sensingSwitch.ts';

/** Contact of the clutch pedal or lever that lets the starter turn. */
export const clutchSwitch = sensingSwitch({
  kind: 'clutch-switch',
  title: 'clutch switch',
  about: 'contact of the clutch pedal or lever, closed while it is pressed',
  settings: ['released', 'pressed'],
  closedWhen: 'pressed',
  minutes: 6,
  where: 'above the clutch pedal',
  caution: 'bridged, the vehicle may crank in gear: chock the wheels',
});
