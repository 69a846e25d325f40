/** A competence that a public standard asks for, in own words (topics only), with where it stands. */
export type Competence = { readonly id: string; readonly asks: string; readonly sources: readonly string[] };

const usList =
  'US task list for accredited programmes (2017), VI.A, all priority 1: http://ininet.org/on-site-date-effective-date-january-1-2017/ininet.org/on-site-date-effective-date-january-1-2017.html?page=9';
const australia = 'Australian unit AURETR012/112: http://ntisthis.com/unit-display.php?code=AURETR012';
const starting = 'Australian unit AURETR030, key-switch-to-solenoid control: http://ntisthis.com/googlelinks.php?code=AURETR030&s=AUR';
const uk =
  'UK units AE01 to AE06, locate simple faults, then diagnose: https://www.yumpu.com/en/document/view/11678739/auto-electrical-units-city-guilds';
const customer =
  'UK standard for diagnostic consultations: https://www.ukstandards.org.uk/en/nos-finder/IMILV18/conduct-diagnostic-consultations-with-customers-in-light-vehicle-environments';

/** What the levels train, held against public lists. Sources were read as stored excerpts, not whole documents. */
export const competences: readonly Competence[] = [
  { id: 'diagrams', asks: 'use a wiring diagram to follow a circuit', sources: [usList, australia] },
  { id: 'causes', asks: 'tell what follows from opens, shorts, grounds and resistance', sources: [usList] },
  { id: 'opens', asks: 'find an open circuit', sources: [usList, australia, uk] },
  { id: 'resistance', asks: 'find a high resistance', sources: [usList, australia] },
  { id: 'drop', asks: 'measure voltage drop, ground side included', sources: [usList, australia] },
  { id: 'volts', asks: 'measure source voltage with a meter', sources: [usList] },
  { id: 'current', asks: 'measure current', sources: [usList, australia] },
  { id: 'test light', asks: 'check a circuit with a test light', sources: [usList] },
  { id: 'fuses', asks: 'inspect and test fuses, links and breakers', sources: [usList, starting] },
  { id: 'drain', asks: 'measure and diagnose key-off drain', sources: [usList] },
  { id: 'repair', asks: 'choose and check a repair, and report', sources: [usList, australia, customer] },
];
