import fc from 'fast-check';
import { describe, expect, test, vi } from 'vitest';
import { eliminationPattern } from '../../src/solve/eliminationPattern.ts';
import { RepeatedSolve } from '../../src/solve/repeatedSolve.ts';
import { eliminate, eliminateAgain, markFloating, nodeVoltages } from '../../src/solve/starMesh.ts';
import { type Net, network, wideNetwork } from './exact/randomNetworks.ts';
import { exactVolts, minus, toDouble } from './exact/rational.ts';

// Hundreds of random circuits: seconds on a busy machine, and no measure of speed.
vi.setConfig({ testTimeout: 120_000 });

const seed = 20261125;
const ends = (net: Net) => Int32Array.from(net.branches.flatMap((b) => [b.from, b.to]));
const siemens = (net: Net) => Float64Array.from(net.branches, (b) => (b.ohm === Number.POSITIVE_INFINITY ? 0 : 1 / b.ohm));

function volts(net: Net, feeds: readonly number[]): Float64Array {
  const out = new Float64Array(net.nodes);
  nodeVoltages(eliminate(eliminationPattern(net.nodes, ends(net)), siemens(net)), Float64Array.from(feeds), out);
  return out;
}

/** How far a number is off, relative; a zero must be exactly zero. */
const off = (ours: number, exact: number) => (ours === exact ? 0 : Math.abs(ours / exact - 1));

/** Resistance between two nodes: volts that one ampere makes. */
function ohmBetween(net: Net, a: number, b: number): number {
  const renamed = (n: number) => (n === b ? 0 : n === 0 ? b : n);
  const turned = { nodes: net.nodes, branches: net.branches.map((x) => ({ ...x, from: renamed(x.from), to: renamed(x.to) })) };
  const feeds = Array.from({ length: net.nodes }, (_, k) => (k === renamed(a) ? 1 : 0));
  return volts(turned, feeds)[renamed(a)]!;
}

/** Nodes reached from node 0 over branches that are not open, by walking. */
function reached(net: Net): Set<number> {
  const seen = new Set([0]);
  for (let grew = true; grew; ) {
    grew = false;
    for (const { from, to, ohm } of net.branches)
      if (ohm !== Number.POSITIVE_INFINITY && seen.has(from) !== seen.has(to)) {
        seen.add(from).add(to);
        grew = true;
      }
  }
  return seen;
}

describe('accuracy against exact rational arithmetic', () => {
  test('[P1] 1 mΩ beside 1 GΩ keeps 13 digits in every node voltage, fed at any one node', () => {
    // 13 digits: about 2·n² roundings of 1.1e-16 each are possible, n <= 9; the aim is 10
    fc.assert(
      fc.property(wideNetwork(1e-3, 1e9), fc.nat(), (net, pick) => {
        const at = 1 + (pick % (net.nodes - 1));
        const feeds = Array.from({ length: net.nodes }, (_, k) => (k === at ? 1 : 0));
        const ours = volts(net, feeds);
        for (const [k, exact] of exactVolts(net.nodes, net.branches, feeds).entries())
          if (k > 0) expect(off(ours[k]!, toDouble(exact))).toBeLessThan(1e-13);
      }),
      { seed, numRuns: 150 },
    );
  });

  test('1 nΩ to 1 TΩ keeps 13 digits as well', () => {
    fc.assert(
      fc.property(wideNetwork(1e-9, 1e12), (net) => {
        const feeds = Array.from({ length: net.nodes }, (_, k) => (k === 1 ? 1 : 0));
        const ours = volts(net, feeds);
        for (const [k, exact] of exactVolts(net.nodes, net.branches, feeds).entries())
          if (k > 0) expect(off(ours[k]!, toDouble(exact))).toBeLessThan(1e-13);
      }),
      { seed, numRuns: 100 },
    );
  });

  test('resistance between two nodes, neither of them the reference, keeps 13 digits', () => {
    fc.assert(
      fc.property(wideNetwork(1e-3, 1e9), (net) => {
        const exact = exactVolts(
          net.nodes,
          net.branches,
          Array.from({ length: net.nodes }, (_, k) => (k === 1 ? 1 : k === 2 ? -1 : 0)),
        );
        expect(Math.abs(ohmBetween(net, 1, 2) / toDouble(minus(exact[1]!, exact[2]!)) - 1)).toBeLessThan(1e-13);
      }),
      { seed, numRuns: 100 },
    );
  });
});

describe('laws', () => {
  test('reciprocity: what one ampere into a makes at b, one ampere into b makes at a', () => {
    fc.assert(
      fc.property(wideNetwork(1e-3, 1e9), (net) => {
        const at = (k: number) =>
          volts(
            net,
            Array.from({ length: net.nodes }, (_, n) => (n === k ? 1 : 0)),
          );
        expect(off(at(1)[2]!, at(2)[1]!)).toBeLessThan(1e-13);
      }),
      { seed, numRuns: 300 },
    );
  });

  test('raising one resistance never lowers the whole', () => {
    fc.assert(
      fc.property(wideNetwork(1e-3, 1e6), fc.nat(), fc.double({ min: 1.001, max: 1e6, noNaN: true }), (net, pick, factor) => {
        const one = pick % net.branches.length;
        const raised = { ...net, branches: net.branches.map((b, k) => (k === one ? { ...b, ohm: b.ohm * factor } : b)) };
        expect(ohmBetween(raised, 1, 2)).toBeGreaterThanOrEqual(ohmBetween(net, 1, 2) * (1 - 1e-13));
      }),
      { seed, numRuns: 300 },
    );
  });

  // Foster 1949; en.wikipedia.org, Resistance distance (secondary): the sum of R_between/R over all branches is nodes − 1
  test("Foster's sum: the shares of all branches add up to one less than the nodes", () => {
    fc.assert(
      fc.property(wideNetwork(1e-2, 1e6), (net) => {
        const sum = net.branches.reduce((s, b) => s + ohmBetween(net, b.from, b.to) / b.ohm, 0);
        expect(Math.abs(sum / (net.nodes - 1) - 1)).toBeLessThan(1e-12);
      }),
      { seed, numRuns: 100 },
    );
  });
});

describe('islands', () => {
  test('a node floats exactly when no walk over closed branches leads to the reference', () => {
    fc.assert(
      fc.property(network({ openShare: 0.4, least: 1e-9, most: 1e12 }), (net) => {
        const done = eliminate(eliminationPattern(net.nodes, ends(net)), siemens(net));
        const floats = new Uint8Array(net.nodes);
        markFloating(done, floats);
        const tied = reached(net);
        expect([...floats].map((f) => f === 0)).toEqual(Array.from({ length: net.nodes }, (_, k) => tied.has(k)));
      }),
      { seed, numRuns: 1000 },
    );
  });

  test('a path through 200 joints of 1 nΩ that all leak 1 TΩ sideways is still a path', () => {
    const nodes = 402;
    const branches = Array.from({ length: 200 }, (_, k) => [
      { from: k, to: k + 1, ohm: 1e-9 },
      { from: k + 1, to: 201 + k, ohm: 1e12 },
      { from: k + 1, to: 0, ohm: k % 2 === 0 ? 1e12 : Number.POSITIVE_INFINITY },
    ]).flat();
    branches[0] = { from: 0, to: 1, ohm: Number.POSITIVE_INFINITY }; // only the leaks lead to the reference
    const net = { nodes, branches: [...branches, { from: 400, to: 401, ohm: Number.POSITIVE_INFINITY }] };
    const floats = new Uint8Array(nodes);
    markFloating(eliminate(eliminationPattern(nodes, ends(net)), siemens(net)), floats);
    expect([...floats.keys()].filter((k) => floats[k] === 1)).toEqual([401]);
  });
});

describe('elimination done again', () => {
  const edits = fc.array(fc.tuple(fc.nat(), fc.nat(3)), { maxLength: 12 });

  test('is the same to the last bit as eliminating all anew, whatever changed', () => {
    fc.assert(
      fc.property(network({ openShare: 0.2, least: 1e-9, most: 1e12 }), edits, fc.integer({ min: 1, max: 4 }), (net, list, together) => {
        const pattern = eliminationPattern(net.nodes, ends(net));
        const g = siemens(net);
        const kept = eliminate(pattern, g);
        for (let at = 0; at < list.length; at += together) {
          const changed = list.slice(at, at + together).map(([pick, how]) => {
            const branch = pick % g.length;
            g[branch] = [0, 1e3, 1e-12, (g[branch]! + 1) / 3][how]!;
            return branch;
          });
          eliminateAgain(kept, g, changed);
        }
        const anew = eliminate(pattern, g);
        expect([kept.shares, kept.ohms, kept.siemens, kept.due]).toEqual([anew.shares, anew.ohms, anew.siemens, anew.due]);
      }),
      { seed, numRuns: 500 },
    );
  });

  test('[P14] a repeated solve gives what solving anew gives, to the last bit', () => {
    fc.assert(
      fc.property(network({ openShare: 0.2, least: 1e-9, most: 1e12 }), edits, (net, list) => {
        const pattern = eliminationPattern(net.nodes, ends(net));
        const g = siemens(net);
        const feeds = Float64Array.from({ length: net.nodes }, (_, k) => (k % 3) - 1);
        const repeated = new RepeatedSolve(pattern, g, feeds);
        for (const [pick, how] of list) {
          const branch = pick % g.length;
          g[branch] = [0, 1e3, 1e-12, (g[branch]! + 1) / 3][how]!;
          repeated.change(branch, g[branch]);
          expect(repeated.solve()).toEqual(new RepeatedSolve(pattern, g, feeds).solve());
        }
        const anew = new Float64Array(net.nodes);
        nodeVoltages(eliminate(pattern, g), feeds.slice(), anew);
        for (const [k, v] of repeated.solve().entries())
          if (k > 0) expect(Math.abs(v - anew[k]!)).toBeLessThanOrEqual(1e-12 * Math.abs(anew[k]!));
      }),
      { seed, numRuns: 300 },
    );
  });
});
