import { expect, test } from 'vitest';
import { publishedNetworks } from './networks.ts';
import { answer } from './published.ts';

const rows = publishedNetworks.flatMap((net) => net.expect.map((value) => ({ net, ...value, title: net.title, source: net.source })));

test.each(rows)('[P2] $title: $of = $is, $source', ({ net, of, is, within }) => {
  expect(Math.abs(answer(net, of) - is)).toBeLessThanOrEqual(within);
});
