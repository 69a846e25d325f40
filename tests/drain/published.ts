/** A published history of a drain, told on a circuit of the same kind from the library. */
export type DrainCase = {
  readonly id: string;
  readonly told: string;
  /** Address, for reference only. */
  readonly src: string;
  readonly circuit: string;
  /** What was found, in the words of the page; figures that a page does not give are those of the circuit's own nameplates. */
  readonly saw: readonly string[];
  /** Any of these belongs into the first group. */
  readonly cause: readonly string[];
  /** Cleared in the history: has to be under 1 % in the end. */
  readonly cleared?: readonly string[];
};

export const drainCases: readonly DrainCase[] = [
  {
    id: 'G02',
    told: 'own jumper from the alternator to a gauge: with the key out gauges stay live; another switch fitted, no change',
    src: 'https://www.rx7club.com/2nd-generation-specific-1986-1992-17/engine-wont-shut-off-ideas-suggestions-551199/',
    circuit: 'light-van',
    saw: ['key out: P1 works, P2 works, T1 works', 'swapped S1: no change', 'key out, unplugged X2: P1 works'],
    cause: ['W11b short to feed', 'W14a short to feed', 'W18a short to feed', 'W21 short to feed'],
    cleared: ['S1.30-15 stuck closed'],
  },
  {
    id: 'H04',
    told: 'amplifier wired to a permanent feed: live with vehicle and radio off',
    src: 'https://wadetregaskis.com/hypothesis-confirmed',
    circuit: 'light-van',
    saw: ['key out: A1 works', 'key out: 900 mA at G1.-', 'key out: 0.0 mV from F6.1 to F6.2', 'key out, unplugged A1: 5 mA at G1.-'],
    cause: ['W49.1 on S1.30'],
    cleared: ['S1.30-75 stuck closed'],
  },
  {
    id: 'H05',
    told: 'a small lamp that nobody sees stays on',
    src: 'http://www.alpharubicon.com/bovstuff/bovelectricalmorpheus.htm',
    circuit: 'light-van',
    saw: ['key out: E8 works', 'key out: 430 mA at G1.-'],
    cause: ['S14 stuck closed'],
    cleared: ['S1.30-75 stuck closed', 'G2 diode leaks'],
  },
  {
    id: 'H06 relay',
    told: 'a relay contact sticks, its load runs on with the key out',
    src: 'https://www.testingautos.com/car_care/cause-car-battery-drain.html',
    circuit: 'saloon',
    saw: ['key out: M3 works', 'key out, pulled K5: 14 mA at G1.-'],
    cause: ['K5 contact stuck closed'],
  },
  {
    id: 'H06 door switch',
    told: 'a broken door switch',
    src: 'https://www.testingautos.com/car_care/cause-car-battery-drain.html',
    circuit: 'light-van',
    saw: ['key out: E8 works', 'key out, unplugged S14: E8 dead', 'key out, unplugged S14: 9 mA at G1.-'],
    cause: ['S14 stuck closed'],
  },
  {
    id: 'H06 wet connector',
    told: 'water in a connector',
    src: 'https://www.testingautos.com/car_care/cause-car-battery-drain.html',
    circuit: 'light-van',
    saw: ['key out: 610 mA at G1.-', 'key out, unplugged X2: 9 mA at G1.-'],
    cause: ['X2.1-2 bridged 20 Ω', 'S1.30-75 bridged 20 Ω', 'S1.30-15 bridged 20 Ω'],
  },
  {
    id: 'H06 charger',
    told: 'a charger or another thing that was added stays on a permanent fuse',
    src: 'https://www.testingautos.com/car_care/cause-car-battery-drain.html',
    circuit: 'modern-saloon',
    saw: ['key out: 74 mA at G1.-', 'key out, pulled F8: 14 mA at G1.-'],
    cause: ['F8 feeds an accessory'],
  },
  {
    id: 'H06 alarm',
    told: 'an alarm that was added draws too much',
    src: 'https://www.testingautos.com/car_care/cause-car-battery-drain.html',
    circuit: 'modern-saloon',
    saw: ['key out: 75 mA at G1.-', 'key out, unplugged A5: 18 mA at G1.-'],
    cause: ['A5 draws 50 mA'],
  },
  {
    id: 'H07',
    told: 'over 60 mA in the B+ lead, engine still: a rectifier diode leaks',
    src: 'https://autoedu.info/en/auto-electric/alternator/alternator-leakage-test',
    circuit: 'light-van',
    saw: ['key out: 110 mA at G1.-', 'key out: 100 mA at G2.B+'],
    cause: ['G2 diode leaks'],
    cleared: ['S14 stuck closed'],
  },
  {
    id: 'A16',
    told: 'parked, key out: the switch itself heats between its live terminal and another',
    src: 'https://www.autosafety.org/ford-ignition-switch-fires/',
    circuit: 'light-van',
    saw: ['key out: S1 hot', 'key out: 610 mA at G1.-', 'key out, unplugged X2: 9 mA at G1.-'],
    cause: ['S1.30-15 bridged', 'S1.30-75 bridged', 'S1.30-50 bridged'],
  },
  {
    id: 'E09',
    told: 'battery flat, and on reconnecting the starter turns with the key off: the start relay is welded',
    src: 'https://www.f150online.com/forums/electrical-systems/243376-ignition-stuck.html',
    circuit: 'motorcycle',
    saw: ['key out: M1 works', 'key out, pulled K1: M1 dead'],
    cause: ['K1 contact stuck closed'],
  },
];

/** Drain rows that are not told here, and why. */
export const notTold: readonly { readonly id: string; readonly why: string }[] = [
  { id: 'G04', why: 'a run-on through the charge lamp with the engine turning: nothing flows once it stands, so it is no key-off drain' },
  { id: 'A15', why: 'names the root (starting current through the switch), no finding with the key out besides that of A16' },
  { id: 'A10', why: 'a switch that sometimes does not switch off is told among the switch rows of the search for a cause' },
];
