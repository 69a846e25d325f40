import type { Circuit } from '../circuit/circuit.ts';
import { keySwitchOf } from '../circuit/keySwitchOf.ts';
import { keyText } from '../circuit/scenePhrase.ts';
import type { Finding } from '../diagnose/finding.ts';
import type { Predictor } from '../diagnose/predict.ts';
import { batteryTime } from '../drain/batteryTime.ts';
import { keyOff } from '../drain/keyOff.ts';
import { changesOf, type Fault } from '../faults/fault.ts';
import type { Chance } from './chance.ts';
import { findingOf, isAmiss, type Noticed, noticeable, seenOf, told } from './noticed.ts';
import { drainSays, engineSays, filled, openings, placeSays, sentence, sometimesOpenings } from './wordings.ts';

/** What the customer says, and the findings that it stands for: nothing else may be read into it. */
export type Complaint = {
  readonly text: string;
  readonly told: readonly Finding[];
  /** The battery does not last: the current with the key out is to be read. */
  readonly drain: boolean;
};

/** Loads named in one sentence. */
const mostNamed = 3;
/** Days of standing that a customer complains of. */
const longestDays = 45;

/**
 * The complaint about a vehicle with these faults: first the engine, else the loads that fail alike, by what a driver
 * sees and hears. The words vary with the seed; what they say is taken from the same solved scenes as the position table.
 *
 * @returns undefined when a driver would notice nothing
 */
export function complaintOf(predictor: Predictor, faults: readonly Fault[], chance: Chance): Complaint | undefined {
  const { circuit } = predictor;
  const all = noticeable(predictor, faults);
  const amiss = all.filter(isAmiss);
  const said: Said[] = [];
  const each = faults.length < 2 ? [] : faults.map((fault) => causedBy(predictor, fault, faults, all));
  if (each.length > 0 && each.every((own) => own.length > 0)) {
    for (const own of each) {
      const engine = said.length === 0 ? engineSentence(circuit, own, all, chance) : undefined;
      const sentences = engine ? [engine] : loadSentences(circuit, own, chance).slice(0, 1);
      said.push(...sentences);
    }
    said.push(...stillWorking(circuit, all, chance));
  } else {
    const engine = engineSentence(circuit, amiss, all, chance);
    if (engine) said.push(engine);
    // A customer tells what bothers most, seldom everything.
    said.push(...loadSentences(circuit, amiss, chance).slice(0, engine ? 1 : 2));
  }
  const days = drainDays(circuit, faults);
  if (days !== undefined) said.push({ text: sentence(filled(chance.oneOf(drainSays), { days })), told: [] });
  if (said.length === 0) return undefined;
  return { text: said.map((s) => s.text).join(' '), told: said.flatMap((s) => s.told), drain: days !== undefined };
}

type Said = { readonly text: string; readonly told: readonly Finding[] };

/** What is amiss with all of the faults in and would not be without this one. `all`: what a driver notices with all in. */
function causedBy(predictor: Predictor, fault: Fault, faults: readonly Fault[], all: readonly Noticed[]): readonly Noticed[] {
  const others = noticeable(
    predictor,
    faults.filter((f) => f !== fault),
  );
  return all.filter((n, k) => isAmiss(n) && n.word !== others[k]!.word);
}

/** What a customer with two troubles says of the rest of the vehicle: a few loads, no two by the same sentence. */
function stillWorking(circuit: Circuit, all: readonly Noticed[], chance: Chance): readonly Said[] {
  const amiss = new Set(all.flatMap((n) => (isAmiss(n) && n.observable.of === 'load' ? [n.observable.load] : [])));
  const works = all.filter(
    (n) => n.observable.of === 'load' && n.word === 'works' && n.healthy === 'works' && !amiss.has(n.observable.load),
  );
  const loads = [...new Set(works.map((n) => (n.observable.of === 'load' ? n.observable.load : '')))];
  const named = chance.shuffled(loads).slice(0, mostNamed);
  if (named.length === 0) return [];
  const each = named.map((load) => theName(circuit, load));
  const list = each.length === 1 ? `${each[0]} works` : `${each.slice(0, -1).join(', ')} and ${each.at(-1)} work`;
  const seen = named.map((load) => works.find((n) => n.observable.of === 'load' && n.observable.load === load)!);
  return [{ text: sentence(`${list} as ${each.length === 1 ? 'it' : 'they'} should`), told: seen.map((n) => told(circuit, n)) }];
}

function engineSentence(circuit: Circuit, amiss: readonly Noticed[], all: readonly Noticed[], chance: Chance) {
  const of = (list: readonly Noticed[]) => list.filter((n) => n.observable.of === 'engine');
  const symptoms = of(amiss);
  const starts = symptoms.filter((n) => n.scene.key?.came !== 'back');
  const worst = starts.find((n) => bad(n) === 'still') ?? starts[0] ?? symptoms.find((n) => bad(n) === 'dies') ?? symptoms[0];
  if (!worst) return undefined;
  const word = bad(worst);
  const place = placeName(circuit, worst);
  // "It starts, and dies" says more than that it dies: it has to have fired.
  const fired = of(all).find((n) => n.word === 'fires' && !n.sometimes && n.scene.key?.came === 'up' && springsBackTo(circuit, n, worst));
  const ways = word === 'dies' && !fired ? engineSays['cut']! : (engineSays[word] ?? []);
  if (ways.length === 0) return undefined;
  const begin = worst.sometimes ? chance.oneOf(sometimesOpenings) : chance.oneOf(openings);
  const text = sentence(`${begin}${filled(chance.oneOf(ways), { place })}`);
  // Who says "sometimes" has seen it go the other way too: both are told, so that whoever searches knows that it changes.
  const other = worst.sometimes && (word === worst.word ? worst.sometimes.word : worst.word);
  const otherwise = other === undefined ? [] : [findingOf(circuit, worst.scene, worst.observable, seenOf(worst.observable, other))];
  return { text, told: [...(word === 'dies' && fired ? [told(circuit, fired)] : []), ...otherwise, told(circuit, worst)] };
}

const bad = (n: Noticed): string => (n.sometimes && n.word === n.healthy ? n.sometimes.word : n.word);

/** The place where the engine fired is the one from which the key sprang back to where it died. */
function springsBackTo(circuit: Circuit, fired: Noticed, died: Noticed): boolean {
  const positions = keySwitchOf(circuit)?.model.positions ?? [];
  const from = positions.find((p) => p.angle === fired.scene.key?.angle);
  const home = positions.find((p) => p.name === from?.springsTo);
  return home !== undefined && home.angle === died.scene.key?.angle && died.scene.key.came === 'back';
}

function placeName(circuit: Circuit, n: Noticed): string {
  if (!n.scene.key) return 'on';
  return keyText({ ...n.scene.key, came: 'up' }, circuit);
}

/** Loads that do the same amiss in the same places share a sentence; those that fail in most places first. */
function loadSentences(circuit: Circuit, amiss: readonly Noticed[], chance: Chance) {
  const byLoad = new Map<string, Noticed[]>();
  for (const n of amiss)
    if (n.observable.of === 'load' && n.scene.key?.came !== 'back')
      byLoad.set(n.observable.load, [...(byLoad.get(n.observable.load) ?? []), n]);
  const alike = new Map<string, { loads: string[]; rows: Noticed[][] }>();
  for (const [load, list] of byLoad) {
    const key = list.map((n) => `${placeName(circuit, n)} ${n.word} ${n.sometimes?.word ?? ''} ${says(circuit, load, n)}`).join('|');
    const group = alike.get(key) ?? { loads: [], rows: [] };
    group.loads.push(load);
    group.rows.push(list);
    alike.set(key, group);
  }
  const groups = [...alike.values()].sort((a, b) => b.rows[0]!.length - a.rows[0]!.length || b.loads.length - a.loads.length);
  return groups.map(({ loads, rows }) => {
    const named = loads.slice(0, mostNamed);
    const one = chance.oneOf(rows[0]!.map((_n, k) => k));
    const n = rows[0]![one]!;
    const place = filled(chance.oneOf(placeSays), { place: placeName(circuit, n) });
    const begin = n.sometimes ? chance.oneOf(sometimesOpenings) : '';
    const together = new Set(named.map((load) => says(circuit, load, n, true)));
    const isOne = named.length > 1 && together.size === 1;
    const each = named.map((load) => (isOne ? theName(circuit, load) : `${theName(circuit, load)} ${says(circuit, load, n)}`));
    const all = each.length === 1 ? each[0]! : `${each.slice(0, -1).join(', ')} and ${each.at(-1)}`;
    const list = isOne ? `${all} ${[...together][0]}` : all;
    const text = sentence(`${begin}${list}${n.scene.key ? ` ${place}` : ''}`);
    return { text, told: named.map((_load, k) => told(circuit, rows[k]![one]!)) };
  });
}

/** @param together one of several that are said to do the same */
function says(circuit: Circuit, load: string, n: Noticed, together = false): string {
  const words = circuit.parts.get(load)!.kind.driver!;
  const word = bad(n);
  const text = word === 'works' ? words.works : word === 'weak' ? words.weak : word === 'dead' ? words.dead : 'comes and goes';
  const name = circuit.parts.get(load)!.name ?? '';
  const several = together || /[^s]s$/.test(name);
  const said = several ? ofSeveral(text) : text;
  return n.healthy === 'dead' && word !== 'dead' ? `${said} though ${several ? 'they' : 'it'} should be off` : said;
}

/** `stays dark` of one, `stay dark` of several. */
function ofSeveral(text: string): string {
  return text.replace(/^(only )?(\w+)/, (_whole, only: string | undefined, verb: string) => {
    const odd: Readonly<Record<string, string>> = { is: 'are', does: 'do', goes: 'go', comes: 'come' };
    return `${only ?? ''}${odd[verb] ?? verb.replace(/s$/, '')}`;
  });
}

export function theName(circuit: Circuit, load: string): string {
  const part = circuit.parts.get(load)!;
  const name = part.name ?? part.kind.title;
  return `the ${/^[A-Z][a-z]/.test(name) ? name[0]!.toLowerCase() + name.slice(1) : name}`;
}

/** How long it stands before it will not start, in a customer's round words; undefined when the battery is no complaint. */
function drainDays(circuit: Circuit, faults: readonly Fault[]): string | undefined {
  const [now, sound] = [keyOff(circuit, changesOf(faults)), keyOff(circuit)];
  if (now.amperes < sound.amperes + 0.03) return undefined;
  const hours = batteryTime(circuit, now.amperes, now.inside, now.at)?.hoursToNoStart ?? Number.POSITIVE_INFINITY;
  const days = hours / 24;
  if (!(days < longestDays)) return undefined;
  if (days < 0.7) return 'a night';
  if (days < 1.5) return 'a day';
  if (days < 10) return `${Math.round(days)} days`;
  return days < 21 ? 'two weeks' : 'a month';
}
