/** What a column of a wire list can hold. `…Terminal` is a column of its own for the pin, beside one for the part. */
export const wireFields = ['id', 'from', 'fromTerminal', 'to', 'toTerminal', 'via', 'colour', 'area', 'length', 'note'] as const;
export type WireField = (typeof wireFields)[number];

export type Language = 'English' | 'German' | 'French';

/** Trade words at the head of a column, folded (see `folded`). From the three languages' use in workshops; no source. */
const words: Readonly<Record<WireField, Readonly<Record<Language, string>>>> = {
  id: {
    English: 'wire, wire no, wire number, wire id, id, no, number, circuit no, ref',
    German: 'leitung, leitungsnr, leitungsnummer, leitung nr, ader, adernummer, kabel, kabelnr, nr, nummer, draht',
    French: 'fil, numero, numero de fil, no fil, n, repere, repere fil, cable, conducteur',
  },
  from: {
    English: 'from, start, origin, source, end 1, end a, from part, from component, from terminal, component 1, a',
    German: 'von, von bauteil, anfang, quelle, start, ende 1, bauteil 1, von anschluss, von klemme',
    French: 'de, depuis, depart, origine, tenant, composant 1, borne depart, debut, de borne',
  },
  fromTerminal: {
    English: 'from pin, pin 1, pin a, from pin no, from cavity',
    German: 'von pin, pin von, klemme von, klemme 1, von kontakt',
    French: 'pin depart, broche depart, borne 1, broche 1, voie depart',
  },
  to: {
    English: 'to, end, destination, dest, target, end 2, end b, to part, to component, to terminal, component 2, b',
    German: 'nach, zu, bis, ziel, ende, ende 2, bauteil 2, nach bauteil, nach anschluss, nach klemme, zu klemme',
    French: 'a, vers, arrivee, destination, aboutissant, composant 2, borne arrivee, fin, a borne, vers borne',
  },
  toTerminal: {
    English: 'to pin, pin 2, pin b, to pin no, to cavity',
    German: 'nach pin, pin nach, klemme nach, klemme 2, nach kontakt, zu pin',
    French: 'pin arrivee, broche arrivee, borne 2, broche 2, voie arrivee',
  },
  via: {
    English: 'via, through, connector, connectors, plug',
    German: 'uber, ueber, stecker, steckverbinder, steckverbindung',
    French: 'par, via, connecteur, connecteurs, passage, fiche',
  },
  colour: {
    English: 'colour, color, col, wire colour, wire color, colour code, color code',
    German: 'farbe, leitungsfarbe, aderfarbe, kabelfarbe, farbcode',
    French: 'couleur, couleur du fil, couleur fil, coul, teinte',
  },
  area: {
    English: 'area, size, cross section, crosssection, csa, gauge, awg, wire size, wire gauge, mm2, sq mm',
    German: 'querschnitt, leiterquerschnitt, leitungsquerschnitt, qs, durchmesser querschnitt',
    French: 'section, section du fil, sect, section fil, calibre',
  },
  length: {
    English: 'length, len, wire length, cut length',
    German: 'lange, laenge, leitungslange, leitungslaenge, kabellange, kabellaenge',
    French: 'longueur, long, longueur du fil, lg',
  },
  note: {
    English: 'note, notes, remark, remarks, comment, comments, function, description',
    German: 'bemerkung, bemerkungen, hinweis, notiz, anmerkung, kommentar, funktion',
    French: 'remarque, remarques, commentaire, observation, observations, fonction, notes',
  },
};

/** Units that may stand at the head of a column: `Länge [cm]`, `area_mm2`. */
const unitWords: Readonly<Record<string, string>> = {
  mm2: 'mm²',
  'sq mm': 'mm²',
  qmm: 'mm²',
  awg: 'AWG',
  gauge: 'AWG',
  m: 'm',
  cm: 'cm',
  mm: 'mm',
};

const languages: readonly Language[] = ['English', 'German', 'French'];
const known = new Map<string, { field: WireField; languages: Language[] }>();
for (const field of wireFields)
  for (const language of languages)
    for (const word of words[field][language].split(', ')) {
      const had = known.get(word);
      if (!had) known.set(word, { field, languages: [language] });
      else if (had.field === field) had.languages.push(language);
    }
// `a` heads the first column beside `b`, and means "to" beside `de`; alone it says nothing.
known.delete('a');

/** Small letters without accents; signs between words are blanks. */
export function folded(text: string): string {
  return text
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replaceAll('ß', 'ss')
    .replace(/[^\p{L}\p{N}]+/gu, ' ')
    .trim();
}

export type HeadRead = { readonly field: WireField; readonly unit: string | undefined; readonly languages: readonly Language[] };

/** What a column's head says, undefined when its words are not known. A unit may stand behind it, in brackets or not. */
export function headRead(head: string, beside: readonly string[] = []): HeadRead | undefined {
  const text = folded(head);
  if (text === 'a') {
    const others = beside.map(folded);
    if (others.includes('b')) return { field: 'from', unit: undefined, languages: [] };
    return others.includes('de') ? { field: 'to', unit: undefined, languages: ['French'] } : undefined;
  }
  const whole = known.get(text);
  if (whole) return { ...whole, unit: unitWords[text] };
  for (const cut of [text.lastIndexOf(' '), text.lastIndexOf(' ', text.lastIndexOf(' ') - 1)]) {
    if (cut <= 0) continue;
    const before = known.get(text.slice(0, cut));
    const unit = unitWords[text.slice(cut + 1)] ?? (text.slice(cut + 1) === 'in m' ? 'm' : undefined);
    if (before && unit !== undefined) return { ...before, unit };
    const inUnit = /^in (\w+)$/.exec(text.slice(cut + 1))?.[1];
    if (before && inUnit !== undefined && unitWords[inUnit] !== undefined) return { ...before, unit: unitWords[inUnit] };
  }
  return undefined;
}

/** Every word known for a field, for messages. */
export function wordsFor(field: WireField): readonly string[] {
  return languages.map((language) => words[field][language].split(', ')[0]!);
}
