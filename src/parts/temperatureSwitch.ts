import { sensingSwitch } from './shared/sensingSwitch.ts';

/** Thermal contact of fan or warning lamp. */
export const temperatureSwitch = sensingSwitch({
  kind: 'temperature-switch',
  title: 'temperature switch',
  about: 'thermal contact of a fan or a warning lamp, closed while hot',
  settings: ['cold', 'hot'],
  closedWhen: 'hot',
  symbol: 'temperature',
  minutes: 6,
  where: 'at the engine or radiator',
  caution: 'hot engine',
  setting_min: 12,
});
