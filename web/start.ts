import { askWorker } from './askWorker.ts';
import { insideCircuit } from './circuit/insideCircuit.ts';
import { Desk } from './Desk.ts';
import { registerElements } from './elements.ts';
import { keepOffline } from './keepOffline.ts';
import { openedFile } from './openedFile.ts';
import type { TabLine } from './session/Keeper.ts';
import { openShelf } from './session/keep.ts';
import { type Link, linkText, readLink } from './session/link.ts';
import { newJob, type Session, type View, views } from './session/session.ts';
import { tabMemory } from './session/tabMemory.ts';
import type { DetentShell } from './shell/DetentShell.ts';
import { applyTheme, rememberedTheme } from './shell/theme.ts';

/** A circuit that a link carries; who unpacks one is fetched only then. */
const circuitIn = async (hash: string) => (/[#&]own=/.test(hash) ? (await import('./circuit/share.ts')).ownCircuit(hash) : undefined);
/** A set of exercises that a link carries; the same. */
const exercisesIn = async (hash: string) =>
  /[#&]exercises=/.test(hash) ? (await import('./practise/setLink.ts')).keptExercises(hash) : undefined;

/** What a first visit begins with. */
const firstCircuit = 'light-van';
const openPlace = 'detent-open-job';

applyTheme(rememberedTheme());
registerElements();
void begin();

async function begin(): Promise<void> {
  const asked = askWorker();
  const newId = () => crypto.randomUUID();
  const shelf = await openShelf(() => Date.now(), newId());
  const link = readLink(location.hash);
  // A circuit that travels in the link becomes a job of its own; kept from then on, it leaves the address.
  const opened = await openedFile(location.search);
  const linked = opened ?? (await circuitIn(location.hash));
  if (linked) history.replaceState(null, '', location.pathname);
  const last = linked ? undefined : await lastJob(shelf);
  // A page with a circuit inside begins with it, unless a job on it was kept here.
  const inside = insideCircuit();
  const own = linked ?? (last && last.job.circuit.name === inside?.name ? undefined : inside);
  const kept = own ? undefined : last;
  const shownBefore = kept && tabMemory.get(`${openPlace}-link`);
  const exercises = link && (await exercisesIn(location.hash));
  const isNews = link !== undefined && (exercises !== undefined || linkText(link) !== shownBefore);
  const today = () => {
    const now = new Date();
    return `${now.getFullYear()}-${String(now.getMonth() + 1).padStart(2, '0')}-${String(now.getDate()).padStart(2, '0')}`;
  };
  const view: View = opened ? 'bench' : linked ? 'circuit' : (views.find((v) => v === link?.view) ?? 'bench');
  const session: Session =
    kept && !isNews
      ? { view, job: kept.job }
      : { view, job: newJob(newId(), today(), own ?? { from: 'library', name: link?.circuit ?? firstCircuit }) };
  const desk = new Desk(session, {
    asked,
    shelf,
    line: 'BroadcastChannel' in globalThis ? (new BroadcastChannel('detent-jobs') as TabLine) : undefined,
    today,
    newId,
    showLink: calmly((hash) => {
      if (location.hash === `#${hash}`) return;
      history.replaceState(null, '', `#${hash}`);
      tabMemory.set(`${openPlace}-link`, linkText(readLink(hash) as Link));
    }),
    remember: (id) => tabMemory.set(openPlace, id),
  });
  (document.querySelector('detent-shell') as DetentShell).desk = desk;
  await desk.start(isNews ? undefined : kept);
  if (own) desk.keepNow();
  if (isNews) await desk.follow(link);
  if (exercises) desk.send(exercises);
  addEventListener('hashchange', () => {
    const now = readLink(location.hash);
    if (!now) return;
    desk.beginJob({ from: 'library', name: now.circuit });
    void desk.follow(now);
    void exercisesIn(location.hash).then((given) => given && desk.send(given));
  });
  keepOffline();
  addEventListener('beforeunload', (e) => {
    if (desk.unkept && !desk.forgets) e.preventDefault();
  });

  async function lastJob(from: typeof shelf) {
    const id = tabMemory.get(openPlace);
    return (id === null ? undefined : await from.read(id)) ?? (await from.list())[0];
  }
}

/** At once, and then no more than once in this time with the newest: browsers refuse an address that changes with every move of the key. */
const addressRests_ms = 250;
function calmly(write: (hash: string) => void): (hash: string) => void {
  let newest: string | undefined;
  let rests: ReturnType<typeof setTimeout> | undefined;
  const due = () => {
    rests = undefined;
    if (newest !== undefined) now(newest);
  };
  const now = (hash: string) => {
    newest = undefined;
    rests = setTimeout(due, addressRests_ms);
    write(hash);
  };
  return (hash) => {
    if (rests === undefined) now(hash);
    else newest = hash;
  };
}
