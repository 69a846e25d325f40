/**
 * Runs tests of a bundle. `all`: every test of one entry, with what it reaches. Otherwise it waits for changes to try: `lasting` tries
 * one after the other, and proves every failure by running the same test once more without the change, since what an earlier one left
 * behind could have made it; `fresh` is for one change, which is there from the start when only loading shows it.
 */
import { parentPort, workerData } from 'node:worker_threads';

const { shim, mode, entry, path, skip } = workerData;
const ns = {};
globalThis.__stryker__ = ns;
const { noted } = await import(shim);
const loaded = new Map();

if (mode === 'all') {
  ns.mutantCoverage = { static: {}, perTest: {} };
  const tests = [];
  for (const { name, body } of await testsOf(entry, path)) {
    if (skip.includes(name)) continue;
    ns.currentTestId = name;
    const began = performance.now();
    const failed = await failure(body);
    ns.currentTestId = undefined;
    tests.push({ name, took_ms: performance.now() - began, failed, reaches: ns.mutantCoverage.perTest[name] ?? {} });
  }
  parentPort.postMessage({ entry, tests, always: ns.mutantCoverage.static });
} else {
  parentPort.on('message', async (asked) => parentPort.postMessage((await noticed(asked)) ?? {}));
}

async function testsOf(which, at) {
  if (!loaded.has(which)) {
    noted.length = 0;
    await import(at);
    loaded.set(which, [...noted]);
  }
  return loaded.get(which);
}

async function noticed({ steps, mutant, isStatic, hitLimit }) {
  ns.hitCount = 0;
  ns.hitLimit = hitLimit;
  for (const { entry: which, path: at, name } of steps) {
    ns.activeMutant = isStatic ? mutant : undefined;
    let tests;
    try {
      tests = await testsOf(which, at);
    } catch (e) {
      return { entry: which, name: 'loading', said: said(e) };
    }
    const found = tests.find((t) => t.name === name);
    if (!found) return { entry: which, name: 'a test is missing', said: name };
    ns.activeMutant = mutant;
    const failed = await failure(found.body);
    ns.activeMutant = undefined;
    if (failed === undefined) continue;
    ns.hitCount = 0;
    const isOwn = mode === 'fresh' || (await failure(found.body)) === undefined;
    return isOwn ? { entry: which, name, said: failed } : { spoilt: true };
  }
  return undefined;
}

async function failure(body) {
  try {
    await body();
  } catch (e) {
    return said(e);
  }
  return undefined;
}

function said(e) {
  return String(e?.message ?? e).slice(0, 200);
}
