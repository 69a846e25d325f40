import { sensingSwitch } from './shared/sensingSwitch.ts';

/** Contact that cuts the fuel pump after a crash. */
export const inertiaSwitch = sensingSwitch({
  kind: 'inertia-switch',
  title: 'inertia switch',
  about: 'cuts the fuel pump after a crash; closed while set',
  settings: ['set', 'tripped'],
  closedWhen: 'set',
  minutes: 4,
  where: 'behind a trim panel',
});
