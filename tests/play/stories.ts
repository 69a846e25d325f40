/** How each vehicle of the library is started and stopped. The tractor is stopped by its knob alone: its key does not stop it. */
export const startsRunsStops: readonly { readonly name: string; readonly start: string; readonly stop: string; readonly stops: boolean }[] =
  [
    { name: 'bench-board', start: 'ON 1 s, START 2 s, release', stop: 'OFF', stops: true },
    { name: 'light-van', start: 'ON 1 s, START 2 s, release', stop: 'LOCK', stops: true },
    { name: 'saloon', start: 'ON 1 s, START 2 s, release', stop: '0', stops: true },
    { name: 'motorcycle', start: 'ON 1 s, S3 on 2 s, S3 off', stop: 'OFF', stops: true },
    { name: 'tractor', start: 'S3 pressed, HEAT 5 s, START 2 s, release', stop: 'OFF', stops: false },
    { name: 'tractor', start: 'S3 pressed, HEAT 5 s, START 2 s, release', stop: 'OFF, engine stopped', stops: true },
    { name: 'diesel-estate', start: 'S5 pressed, ON 5 s, START 2 s, release', stop: 'OFF', stops: true },
    { name: 'truck', start: 'ON 2 s, START 2 s, release', stop: '0', stops: true },
    { name: 'classic-six-volt', start: 'ON 1 s, S2 on 2 s, S2 off', stop: 'OFF', stops: true },
    { name: 'boat', start: 'ON 1 s, START 2 s, release', stop: 'OFF', stops: true },
    { name: 'modern-saloon', start: 'S2 pressed, ON 1 s, START 2 s, release', stop: 'OFF', stops: true },
  ];
