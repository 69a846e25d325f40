import type { Circuit } from '../circuit/circuit.ts';
import { remembered } from '../circuit/remembered.ts';
import type { Scene } from '../circuit/scene.ts';
import { sceneText } from '../circuit/scenePhrase.ts';
import { linearNetwork } from '../solve/linearNetwork.ts';
import { loadsAt } from '../solve/loads.ts';
import { type OperatingPoint, operatingPoint, voltsAt } from '../solve/operatingPoint.ts';
import { comesOtherWay, scenesAsked, usualWays } from '../solve/otherWay.ts';
import { overloads } from '../solve/overloads.ts';
import { currentPaths, voltsAlong } from '../solve/paths.ts';
import { textTable, wrapped } from './textTable.ts';

/** One scene of a circuit, solved: everything that `trace` says, as plain data. */
export function traceData(at: OperatingPoint, healthy: OperatingPoint, withNetwork: boolean) {
  const { circuit } = at.network;
  const solved = new Map<string, OperatingPoint>();
  const sound = (scene: Scene) => remembered(solved, JSON.stringify(scene), () => operatingPoint(healthy.network, scene));
  return {
    scene: sceneText(at.scene, circuit),
    nodes: Object.fromEntries(terminalsOf(circuit).map((t) => [t, voltsAt(at, t) ?? null])),
    branches: at.network.branches.map((b, k) => {
      const volts = at.nodeVolts[b.from]! - at.nodeVolts[b.to]! + b.offset;
      const amperes = at.amperes[k]!;
      return { id: b.id, part: b.part, from: b.fromTerminal, to: b.toTerminal, amperes, volts, watts: volts * amperes };
    }),
    loads: loadsAt(at).map(({ id, verdict, volts, amperes }) => {
      const part = circuit.parts.get(id)!;
      const ways = currentPaths(at, part);
      const usual = () => usualWays([healthy, ...scenesAsked(circuit, at.scene, id).map(sound)], part);
      const otherWay = at !== healthy && comesOtherWay(at, part, usual());
      return { id, verdict, volts, amperes, feed: ways.feed.terminals, return: ways.return.terminals, otherWay };
    }),
    residual: at.residual,
    chatters: at.chatters,
    warnings: overloads(at),
    ...(withNetwork && { network: linearNetwork(at) }),
  };
}

/** Every terminal that a person can put a probe on, by part. */
function terminalsOf(circuit: Circuit): readonly string[] {
  return [...circuit.parts.values()].filter((p) => !p.kind.isWire).flatMap((p) => p.kind.terminals(p).map((t) => `${p.id}.${t.name}`));
}

/** The same for a terminal window: the loads, and for one load the volts along its way. */
export function traceText(at: OperatingPoint, healthy: OperatingPoint, load: string | undefined, width = 80): string {
  const { circuit } = at.network;
  const data = traceData(at, healthy, false);
  const lines = [circuit.title, ...wrapped(data.scene, width), ''];
  const name = (id: string) => circuit.parts.get(id)?.name ?? circuit.parts.get(id)?.kind.title ?? '';
  const shown = data.loads.filter((l) => load === undefined || l.id === load);
  const rows = shown.map((l) => [
    l.id,
    name(l.id),
    l.verdict,
    `${l.volts.toFixed(2)} V`,
    amperesText(l.amperes),
    l.otherWay ? 'by another way' : '',
  ]);
  lines.push(textTable({ head: ['load', '', 'verdict', 'volts', 'amperes', ''], rows, right: [3, 4], wraps: [1] }, width));
  for (const l of load === undefined ? [] : shown) {
    const part = circuit.parts.get(l.id)!;
    const ways = currentPaths(at, part);
    for (const [title, way] of [
      ['feed', ways.feed],
      ['return', ways.return],
    ] as const) {
      if (way.terminals.length === 0) {
        lines.push('', `${title}: no current flows`);
        continue;
      }
      const volts = voltsAlong(at, way);
      lines.push('', `${title}, in the direction of the current:`);
      way.terminals.forEach((t, k) => {
        const v = volts[k];
        const drop = k > 0 && v !== null && v !== undefined && typeof volts[k - 1] === 'number' ? (volts[k - 1] as number) - v : undefined;
        lines.push(
          `  ${t.padEnd(14)} ${(v === null || v === undefined ? 'tied to nothing' : `${v.toFixed(2)} V`).padStart(9)}${drop !== undefined && Math.abs(drop) >= 0.005 ? `   drop ${drop.toFixed(2)} V` : ''}`,
        );
      });
    }
  }
  if (data.chatters.length > 0) lines.push('', `chatters, never settles: ${data.chatters.join(', ')}`);
  for (const w of data.warnings)
    lines.push(
      ...wrapped(`over its guide value: ${w.element} carries ${w.value.toFixed(1)} A, ${w.what} ${w.limit} A (${w.source})`, width),
    );
  if (data.residual > 1e-9)
    lines.push('', ...wrapped('no solution: a current supply has no way back for its current, so no figure above holds', width));
  lines.push('', `Kirchhoff residual ${data.residual.toExponential(1)} of the largest current`);
  return lines.join('\n');
}

function amperesText(ampere: number): string {
  return Math.abs(ampere) < 0.995 ? `${(ampere * 1000).toFixed(Math.abs(ampere) < 0.0995 ? 1 : 0)} mA` : `${ampere.toFixed(2)} A`;
}
