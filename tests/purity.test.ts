import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';

const impure = [
  'document.title;',
  'process.exit(0);',
  "console.log('x');",
  'performance.now();',
  'setTimeout(() => 0, 1);',
  'fetch;',
  "import 'node:fs';",
  "import { readFileSync } from 'fs'; readFileSync;",
  "import '../../web/Panel.ts';",
  "import '../cli/main.ts';",
];

test('src outside cli sees neither DOM nor Node', () => {
  const folder = mkdtempSync('src/impure-');
  try {
    for (const [k, line] of impure.entries()) writeFileSync(join(folder, `f${k}.ts`), `export {};\n${line}\n`);
    const { stdout } = spawnSync(process.execPath, ['node_modules/typescript/bin/tsc', '-p', 'src', '--noEmit', '--pretty', 'false'], {
      encoding: 'utf8',
    });
    const caught = impure.filter((_, k) => stdout.includes(`${folder}/f${k}.ts`));
    expect(caught).toEqual(impure);
  } finally {
    rmSync(folder, { recursive: true });
  }
}, 30_000);
