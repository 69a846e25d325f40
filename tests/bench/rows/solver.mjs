import { createRequire } from 'node:module';
import { readCircuit } from '../../../dist/cli/circuit/readCircuit.js';
import { partKinds } from '../../../dist/cli/parts/index.js';
import { eliminationPattern } from '../../../dist/cli/solve/eliminationPattern.js';
import { linearNetwork } from '../../../dist/cli/solve/linearNetwork.js';
import { network } from '../../../dist/cli/solve/network.js';
import { operatingPoint } from '../../../dist/cli/solve/operatingPoint.js';
import { RepeatedSolve } from '../../../dist/cli/solve/repeatedSolve.js';
import { growth, median, microCall, milliseconds, row } from '../measure.mjs';
import { vehicleLike } from '../vehicleLike.mjs';

const require = createRequire(import.meta.url);
const sizes = [4, 9, 18, 36, 90, 180];

/** Growth of the operating point, and one changed conductance solved again, against the solvers of npm. */
export async function rows() {
  return [...operatingPointRows(), ...(await comparisonRows())];
}

function read(loads) {
  const circuit = readCircuit(vehicleLike(loads), 'vehicle-like.yaml', partKinds);
  if (!circuit.ok) throw new Error(circuit.problems[0].what);
  const hand = Object.fromEntries([...circuit.value.parts.keys()].filter((id) => id.startsWith('Q')).map((id) => [id, 'on']));
  const scene = { key: { angle: 60, came: 'up', in: true }, hand, engine: 'stopped', apart: [], bridged: [], swapped: [] };
  return { circuit: circuit.value, scene };
}

/** A fault of another size is put in for every solve, so that no answer can be one that is known already. */
function operatingPointRows() {
  const points = sizes.map((loads) => {
    const { circuit, scene } = read(loads);
    const wire = [...circuit.parts.keys()].find((id) => id.startsWith('W'));
    const { nodes } = network(circuit).pattern;
    const warm = milliseconds((k) => {
      const change = { do: 'series', element: '', ohm: 1e-3 + k * 1e-9 };
      operatingPoint(network(circuit, [{ part: wire, change }]), scene);
    });
    const cold = milliseconds(() => operatingPoint(network({ ...circuit }), scene));
    return { nodes, warm, cold };
  });
  const of = (time) => growth(points.map((p) => [p.nodes, p[time]]));
  const span = `${points[0].nodes} to ${points.at(-1).nodes} nodes of vehicle-like wiring`;
  const [middle] = points.filter((p) => p.nodes > 300);
  return [
    row('solve-growth', `exponent of an operating point with a new fault, ${span}`, of('warm'), '', '<= 1.2'),
    row('layout-growth', `exponent of the same with the circuit laid out anew, ${span}`, of('cold'), '', '<= 1.2'),
    row('solve-time', `operating point with a new fault, ${middle.nodes} nodes, relays and fuses settled`, middle.warm, 'ms'),
    row('solve-time-2000', `the same, ${points.at(-1).nodes} nodes`, points.at(-1).warm, 'ms'),
  ];
}

/** The linear network of about 300 nodes at its solution as one matrix, node 0 the reference, in the order of our own elimination. */
function matrixOf(loads) {
  const { circuit, scene } = read(loads);
  const net = linearNetwork(operatingPoint(network(circuit), scene));
  const number = new Map(net.nodes.map((name, k) => [name, k]));
  const branches = [
    ...net.resistances.map(({ from, to, ohm }) => [number.get(from), number.get(to), 1 / ohm]),
    ...net.sources.map(({ plus, minus, ohm }) => [number.get(minus), number.get(plus), 1 / ohm]),
  ];
  const feeds = new Float64Array(net.nodes.length);
  for (const { plus, minus, volt, ohm } of net.sources) {
    feeds[number.get(plus)] += volt / ohm;
    feeds[number.get(minus)] -= volt / ohm;
  }
  for (const { into, outOf, ampere } of net.currents) {
    feeds[number.get(into)] += ampere;
    feeds[number.get(outOf)] -= ampere;
  }
  const pattern = eliminationPattern(net.nodes.length, Int32Array.from(branches.flatMap((b) => b.slice(0, 2))));
  return { branches, feeds, pattern };
}

async function comparisonRows() {
  const problem = problemOf(matrixOf(27));
  const unknowns = problem.pattern.order.length;
  const title = `one changed conductance solved again, ${unknowns} unknowns`;
  const rivals = { sparse: [sparseCholesky, mathjsSparse, numericSparse], dense: [mlMatrixDense, numericDense, mathjsDense] };
  const rows = [row('resolve-time', title, microCall(problem.ours) * 1000, 'µs')];
  for (const [form, list] of Object.entries(rivals)) {
    const timed = [];
    for (const rival of list) {
      const { name, solve } = (await installed(rival, problem)) ?? {};
      if (solve === undefined) continue;
      const ms = milliseconds(solve, { least_ms: 40, series: 3, warm_ms: 60 });
      timed.push({ ms, solve });
      rows.push(row(`resolve-${name.replaceAll(' ', '-')}`, `${title}: ${name}, ${form}`, ms * 1000, 'µs'));
    }
    const best = timed.sort((a, b) => a.ms - b.ms)[0];
    const ratio = best ? sideBySide(best.solve, problem.ours) : null;
    rows.push(
      row(
        `resolve-vs-${form}`,
        `${title}: times as fast as the best ${form} solver of npm`,
        ratio,
        'x',
        form === 'sparse' ? '>= 20' : '>= 200',
      ),
    );
  }
  return rows;
}

/** How many times as long the one takes as the other, measured in turns: the median of the turns. */
function sideBySide(theirs, ours) {
  const turn = { least_ms: 30, series: 1, warm_ms: 10 };
  return median(Array.from({ length: 9 }, () => milliseconds(theirs, turn) / microCall(ours, turn)));
}

/** The question that all are asked, again and again: change one conductance, solve. Ours answers in volts per node. */
function problemOf({ branches, feeds, pattern }) {
  const many = branches.length;
  const siemens = Float64Array.from(branches, (b) => b[2]);
  const changed = (k) => [(k * 7919) % many, siemens[(k * 7919) % many] * (1 + ((k % 97) + 1) / 100)];
  const again = new RepeatedSolve(pattern, siemens, feeds);
  const ours = (k) => {
    const [branch, value] = changed(k);
    again.change(branch, value);
    return again.solve();
  };
  // A fresh one for each rival, so that both have seen the same changes.
  const first = () => {
    const fresh = new RepeatedSolve(pattern, siemens, feeds);
    fresh.change(...changed(0));
    return fresh.solve();
  };
  return { branches, feeds, pattern, changed, ours, first };
}

/** A rival, ready; undefined where it is not installed. Its answer to the first change has to be ours, or it is not the same question. */
async function installed(rival, problem) {
  try {
    const made = await rival(problem);
    const theirs = made.solve(0);
    const volts = problem.first();
    const worst = Math.max(...problem.pattern.order.map((node, k) => Math.abs(theirs(k) - volts[node])));
    if (!(worst < 1e-3)) throw new Error(`${made.name} is ${worst} V off`);
    return made;
  } catch (failure) {
    if (failure.code === 'MODULE_NOT_FOUND' || failure.code === 'ERR_MODULE_NOT_FOUND') return undefined;
    throw failure;
  }
}

/**
 * The matrix in the order of our elimination, which is the kindest to a sparse solver: row k is node order[k]. `put`
 * tells which entries one changed conductance changes.
 */
function ordered({ branches, feeds, pattern, changed }) {
  const place = new Map([...pattern.order].map((node, k) => [node, k]));
  const entries = new Map();
  const at = (i, j) => {
    const key = `${i} ${j}`;
    if (!entries.has(key)) entries.set(key, entries.size);
    return entries.get(key);
  };
  const sites = branches.map(([a, b]) => {
    const [i, j] = [place.get(a), place.get(b)];
    const list = [];
    if (i !== undefined) list.push([at(i, i), 1]);
    if (j !== undefined) list.push([at(j, j), 1]);
    if (i !== undefined && j !== undefined && i !== j) list.push([at(i, j), -1], [at(j, i), -1]);
    return list;
  });
  const values = new Float64Array(entries.size);
  for (const [k, [, , g]] of branches.entries()) for (const [entry, sign] of sites[k]) values[entry] += sign * g;
  const cells = [...entries.keys()].map((key) => key.split(' ').map(Number));
  const right = [...pattern.order].map((node) => feeds[node]);
  const now = branches.map((b) => b[2]);
  const put = (k, write) => {
    const [branch, value] = changed(k);
    const more = value - now[branch];
    now[branch] = value;
    for (const [entry, sign] of sites[branch]) {
      values[entry] += sign * more;
      write(entry, values[entry]);
    }
  };
  return { n: pattern.order.length, cells, values, right, put };
}

function sparseCholesky(problem) {
  const { prepare } = require('cholesky-solve');
  const { n, cells, values, right, put } = ordered(problem);
  const triplets = cells.map(([i, j], e) => [i, j, values[e]]);
  const upper = triplets.filter(([i, j]) => i <= j);
  return {
    name: 'cholesky-solve',
    solve: (k) => {
      put(k, (entry, value) => {
        triplets[entry][2] = value;
      });
      const answer = prepare(upper, n, null)(right);
      return (i) => answer[i];
    },
  };
}

async function mathjsSparse(problem) {
  const { all, create } = await import('mathjs');
  const math = create(all);
  const { n, cells, values, right, put } = ordered(problem);
  const matrix = math.sparse(Array.from({ length: n }, () => new Array(n).fill(0)));
  for (const [e, [i, j]] of cells.entries()) matrix.set([i, j], values[e]);
  return {
    name: 'mathjs slu',
    solve: (k) => {
      put(k, (entry, value) => matrix.set(cells[entry], value));
      const answer = math.lusolve(math.slu(matrix, 1, 0.001), right);
      return (i) => answer.get([i, 0]);
    },
  };
}

function numericSparse(problem) {
  const numeric = require('numeric');
  const { n, cells, values, right, put } = ordered(problem);
  const columns = cells.map(([i, j], e) => [j, i, e]).sort((a, b) => a[0] - b[0] || a[1] - b[1]);
  const starts = new Array(n + 1).fill(0);
  for (const [j] of columns) starts[j + 1]++;
  for (let j = 0; j < n; j++) starts[j + 1] += starts[j];
  const slot = new Map(columns.map(([, , e], k) => [e, k]));
  const matrix = [starts, columns.map(([, i]) => i), columns.map(([, , e]) => values[e])];
  return {
    name: 'numeric ccsLUP',
    solve: (k) => {
      put(k, (entry, value) => {
        matrix[2][slot.get(entry)] = value;
      });
      const answer = numeric.ccsLUPSolve(numeric.ccsLUP(matrix), right);
      return (i) => answer[i];
    },
  };
}

function fullRows({ n, cells, values }) {
  const rows = Array.from({ length: n }, () => new Array(n).fill(0));
  for (const [e, [i, j]] of cells.entries()) rows[i][j] = values[e];
  return rows;
}

async function mlMatrixDense(problem) {
  const { CholeskyDecomposition, Matrix } = await import('ml-matrix');
  const form = ordered(problem);
  const matrix = new Matrix(fullRows(form));
  const right = Matrix.columnVector(form.right);
  return {
    name: 'ml-matrix Cholesky',
    solve: (k) => {
      form.put(k, (entry, value) => matrix.set(form.cells[entry][0], form.cells[entry][1], value));
      const answer = new CholeskyDecomposition(matrix).solve(right);
      return (i) => answer.get(i, 0);
    },
  };
}

function numericDense(problem) {
  const numeric = require('numeric');
  const form = ordered(problem);
  const matrix = fullRows(form);
  return {
    name: 'numeric solve',
    solve: (k) => {
      form.put(k, (entry, value) => {
        matrix[form.cells[entry][0]][form.cells[entry][1]] = value;
      });
      const answer = numeric.solve(matrix, form.right);
      return (i) => answer[i];
    },
  };
}

async function mathjsDense(problem) {
  const { all, create } = await import('mathjs');
  const math = create(all);
  const form = ordered(problem);
  const matrix = fullRows(form);
  return {
    name: 'mathjs lusolve',
    solve: (k) => {
      form.put(k, (entry, value) => {
        matrix[form.cells[entry][0]][form.cells[entry][1]] = value;
      });
      const answer = math.lusolve(matrix, form.right);
      return (i) => answer[i][0];
    },
  };
}
