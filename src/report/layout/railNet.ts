import type { Net, Nets, Piece } from './nets.ts';

/** A link leads to the rail when this share of all pieces hangs on it, and no more than a few heavy pieces (starter, alternator, a relay) stand before it. */
const mainShare = 0.6;
const mostBeside = 5;

/** Pieces that a net feeds, as they are declared from feed to return; ground bars end the way. */
function fedBy(nets: readonly Net[], pieces: readonly Piece[], netOf: (t: string) => number, start: number, without: number): number {
  const seen = new Set([start]);
  let count = 0;
  for (const net of seen)
    for (const p of pieces) {
      if (netOf(p.from) !== net || netOf(p.to) === without) continue;
      count++;
      if (!nets[netOf(p.to)]?.bar) seen.add(netOf(p.to));
    }
  return count;
}

/**
 * The net drawn as the rail on top: what the first supply feeds; but when nearly all the rest hangs on one link or
 * main switch at the battery, the far side of that, so that battery and link stand in one track and the rail is the long one.
 */
export function railNet({ nets, pieces, netOf }: Nets): number | undefined {
  const supply = pieces.find((p) => p.part.kind.supply?.(p.part) !== undefined) ?? pieces.find((p) => p.symbol.role === 'supply');
  if (supply === undefined) return pieces[0] && netOf(pieces[0].from);
  const [plus, minus] = [plusNet(supply, netOf), minusNet(supply, netOf)];
  const isTerminal = pieces.some((p) => netOf(p.from) === plus || netOf(p.to) === plus);
  let hot = nets[plus]?.bar && !nets[minus]?.bar ? minus : plus;
  if (!isTerminal) hot = minus;
  // Batteries in series: the rail is fed by the last of them.
  for (let more: Piece | undefined = supply; more; ) {
    const over = pieces.find(
      (p) =>
        p !== supply &&
        p.symbol.role === 'supply' &&
        p.part.kind.supply !== undefined &&
        minusNet(p, netOf) === hot &&
        plusNet(p, netOf) !== hot,
    );
    if (over === undefined || over === more) break;
    more = over;
    hot = plusNet(over, netOf);
  }
  const at = (net: number) => pieces.filter((p) => netOf(p.from) === net || netOf(p.to) === net);
  const far = (p: Piece, net: number) => (netOf(p.from) === net ? netOf(p.to) : netOf(p.from));
  for (let hop = 0; hop < 4; hop++) {
    const around = at(hot).filter((p) => p.symbol.role !== 'supply');
    const reach = (p: Piece) =>
      p.symbol.role === 'protect' || p.symbol.role === 'contact' ? fedBy(nets, pieces, netOf, far(p, hot), hot) : 0;
    const onward = around.reduce<Piece | undefined>((best, p) => (reach(p) > (best ? reach(best) : 0) ? p : best), undefined);
    const isKey = onward?.part.kind.key !== undefined;
    if (onward === undefined || isKey || around.length > mostBeside || reach(onward) < mainShare * pieces.length) break;
    hot = far(onward, hot);
  }
  return nets[hot]?.bar ? undefined : hot;
}

function plusNet(p: Piece, netOf: (t: string) => number): number {
  return netOf(`${p.part.id}.${p.part.kind.supply?.(p.part)?.[0] ?? p.pole.from}`);
}

function minusNet(p: Piece, netOf: (t: string) => number): number {
  return netOf(`${p.part.id}.${p.part.kind.supply?.(p.part)?.[1] ?? p.pole.to}`);
}
