/** A competence that a public standard asks for, in own words (topics only), with where it stands. */
export type Competence = { readonly id: string; readonly asks: string; readonly sources: readonly string[] };

const usList =
  'US task list for accredited programmes (2017), VI.A, all priority 1: http://ininet.org/on-site-date-effective-date-january-1-2017/ininet.org/on-site-date-effective-date-january-1-2017.html?page=9';
const australia = 'Australian unit AURETR012/112: http://ntisthis.com/unit-display.php?code=AURETR012';
const starting = 'Australian unit AURETR030, key-switch-to-solenoid control: http://ntisthis.com/googlelinks.php?code=AURETR030&s=AUR';
const uk =
  'UK units AE01 to AE06, locate simple faults, then diagnose: https://www.yumpu.com/en/document/view/11678739/auto-electrical-units-city-guilds';
const machinery =
  'Australian unit AURETR012/112, assessment requirements: https://studylib.net/doc/18043370/assessment-requirements-in-pdf';
const teaching =
  'Teaching order of automotive electricity (customer information, verify, broad tests before narrow ones, repair, verify, document): https://pdfs.engineer-1.com/2021/12/automotive-electricity-and-electronics.html';
const markSheet =
  "An instructor's published mark sheet: http://www.ciese.org/pathways/rwlo/rwlos/4201/Assistant%20Professor/assessment.html";
const labSheet =
  'A published laboratory sheet, electronic diagnosis: https://studylib.net/doc/15380575/automotive-technology-electronic-lab-diagnostic-analysis-...';
const skillsContest =
  'Marking forms of a skills competition, each task opened by preparation and safety: https://scribd.com/document/358089478/Marking-Forms-With-Aspects-Automobile-Technology-Draft';
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
  { id: 'customer', asks: 'ask the customer, and see the complaint for oneself', sources: [customer, teaching] },
  { id: 'order', asks: 'choose what to test next, each step with a valid reason', sources: [australia, teaching, markSheet] },
  {
    id: 'valid reading',
    asks: 'take a reading that counts: place, key position, load, plausible figure with unit',
    sources: [markSheet, labSheet],
  },
  {
    id: 'no damage',
    asks: 'manage hazards, check the tester, test without harm to vehicle or instrument',
    sources: [australia, machinery, skillsContest],
  },
];

/** Which competences each mark of the grading stands for; marks are those of marks.ts, by id. */
export const gradedBy: Readonly<Record<string, readonly string[]>> = {
  table: ['customer', 'causes'],
  order: ['order'],
  time: ['order'],
  valid: ['valid reading', 'drop', 'no damage'],
  parts: ['repair', 'order'],
  cause: ['opens', 'resistance'],
  proof: ['repair'],
};

/** Unsafe acts are no mark but a gate: they stop the marks. */
export const gateOf: readonly string[] = ['no damage'];
